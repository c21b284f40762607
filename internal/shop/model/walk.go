package model

import (
	"fmt"
	"slices"

	"dropleg/internal/shop/job"
)

// walk goes over the finished graph by its open links.
type walk struct {
	m  *Model
	at [][]int // links at each node
}

func newWalk(m *Model) *walk {
	w := &walk{m: m, at: make([][]int, len(m.nodes))}
	for i := range m.links {
		w.at[m.links[i].From] = append(w.at[m.links[i].From], i)
		w.at[m.links[i].To] = append(w.at[m.links[i].To], i)
	}
	return w
}

// spread marks all nodes that air reaches from the start, going through one-way
// links only forward. It does not go on beyond nodes where stop holds.
func (w *walk) spread(start []int, stop func(int) bool) []bool {
	seen := make([]bool, len(w.m.nodes))
	queue := slices.Clone(start)
	for _, n := range queue {
		seen[n] = true
	}
	for len(queue) > 0 {
		n := queue[len(queue)-1]
		queue = queue[:len(queue)-1]
		if stop(n) {
			continue
		}
		for _, l := range w.at[n] {
			link := &w.m.links[l]
			to := link.To
			if to == n {
				if link.oneWay {
					continue
				}
				to = link.From
			}
			if !seen[to] {
				seen[to] = true
				queue = append(queue, to)
			}
		}
	}
	return seen
}

// fedFrom lists the receivers, by node, that air from a node reaches first.
func (w *walk) fedFrom(node int, receiver func(int) bool) []int {
	var out []int
	for n, seen := range w.spread([]int{node}, receiver) {
		if seen && receiver(n) {
			out = append(out, n)
		}
	}
	return out
}

// zones numbers the parts of the net between which air passes both ways.
func (w *walk) zones() []int {
	zone := make([]int, len(w.m.nodes))
	for i := range zone {
		zone[i] = -1
	}
	count := 0
	for start := range zone {
		if zone[start] >= 0 {
			continue
		}
		queue := []int{start}
		zone[start] = count
		for len(queue) > 0 {
			n := queue[len(queue)-1]
			queue = queue[:len(queue)-1]
			for _, l := range w.at[n] {
				link := &w.m.links[l]
				to := link.From + link.To - n
				if !link.oneWay && zone[to] < 0 {
					zone[to] = count
					queue = append(queue, to)
				}
			}
		}
		count++
	}
	return zone
}

// shutOff reports outlets that no source reaches, with the shut valves of the job.
func (w *walk) shutOff(b *builder, m *Model) {
	var start []int
	for _, s := range m.sources {
		start = append(start, s.Node)
	}
	for _, c := range m.plant {
		start = append(start, c.Node)
	}
	m.fed = w.spread(start, func(int) bool { return false })
	if len(start) == 0 {
		return // said once for all
	}
	shut := b.shutParts()
	for _, o := range m.outlets {
		if o.Node < 0 || m.fed[o.Node] {
			continue
		}
		title := fmt.Sprintf("%s is cut off from every source: its pressure is not determined", o.ID)
		b.trouble("shut-off", job.Caution, title, "no open way leads there from a compressor or receiver", append([]job.ID{o.ID}, shut...)...)
	}
}

// shutParts lists the valves that stand shut.
func (b *builder) shutParts() []job.ID {
	var out []job.ID
	for i := range b.j.Net.Points {
		if b.j.Net.Points[i].Part.Shut {
			out = append(out, b.j.Net.Points[i].ID)
		}
	}
	for i := range b.j.Outlets {
		for k := range b.j.Outlets[i].Hang {
			if p := &b.j.Outlets[i].Hang[k]; p.Shut && p.ID != "" {
				out = append(out, p.ID)
			}
		}
	}
	return out
}
