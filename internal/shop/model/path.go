package model

import (
	"math"
	"slices"

	"dropleg/engine/unit"
)

// Path is the way of the air to a pair's tool: from the source down, every
// element with its pressures and loss. It follows the flow upstream from the
// tool, at each place by the element that brings most (in a ring the sum of
// losses is the same by every way). Where a compressor's own air is the most
// that arrives at a place, the way begins at that compressor. A tool that takes
// nothing has the way with the fewest elements from a source. Nil where no
// source reaches the tool.
func (m *Model) Path(r *Result, pair int) []Step {
	var links []int
	node := m.pairs[pair].Node
	if !r.Known[node] {
		return nil
	}
	if r.Tools[pair].Flow > 0 {
		links = m.upstream(r, node)
	}
	if links == nil {
		links = m.fewest(r, node)
	}
	steps := make([]Step, 0, len(links))
	for i := len(links) - 1; i >= 0; i-- {
		l := links[i]
		s := Step{Element: l, From: m.links[l].From, To: m.links[l].To, Flow: freeAir(unit.MassFlow(math.Abs(float64(r.Flows[l].Mass))))}
		// The walk went from the tool up: link i ends where link i-1 began.
		end := node
		if i > 0 {
			end = m.joint(links[i], links[i-1])
		}
		if s.From == end {
			s.From, s.To = s.To, s.From
		}
		s.In, s.Out = r.Pressure[s.From], r.Pressure[s.To]
		s.Loss = s.In.Minus(s.Out)
		steps = append(steps, s)
	}
	return steps
}

// joint is the node that two following links share.
func (m *Model) joint(up, down int) int {
	a, b := &m.links[up], &m.links[down]
	if a.To == b.From || a.To == b.To {
		return a.To
	}
	return a.From
}

// upstream walks against the flow to where it comes from.
func (m *Model) upstream(r *Result, node int) []int {
	links := []int{}
	last := -1
	for range m.nodes {
		if m.isSource[node] {
			return links
		}
		best, most := -1, 0.0
		for _, l := range m.linksAt[node] {
			flow := float64(r.Flows[l].Mass)
			if m.links[l].From == node {
				flow = -flow
			}
			if l != last && flow > most {
				best, most = l, flow
			}
		}
		if best < 0 {
			if len(m.plantAt[node]) > 0 {
				return links
			}
			return nil
		}
		links = append(links, best)
		last = best
		node = m.links[best].From + m.links[best].To - node
	}
	return nil
}

// fewest finds the shortest way, in elements, from any source to a node.
func (m *Model) fewest(r *Result, node int) []int {
	via := make([]int, len(m.nodes)) // link towards the tool, plus one
	queue := []int{node}
	via[node] = -1
	for len(queue) > 0 {
		n := queue[0]
		queue = queue[1:]
		if m.isSource[n] {
			var links []int
			for n != node {
				l := via[n] - 1
				links = append(links, l)
				n = m.links[l].From + m.links[l].To - n
			}
			slices.Reverse(links)
			return links
		}
		for _, l := range m.linksAt[n] {
			link := &m.links[l]
			up := link.From + link.To - n
			if via[up] != 0 || !r.Known[up] || (link.oneWay && link.To != n) {
				continue
			}
			via[up] = l + 1
			queue = append(queue, up)
		}
	}
	return nil
}
