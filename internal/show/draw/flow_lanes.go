package draw

import (
	"cmp"
	"slices"
)

// lane is a straight line of the diagram with the nodes on it, left to right.
type lane struct {
	nodes []int
	// from is where it branches off and by which edge; −1 where it starts the net.
	from, fromEdge int
	// to is where it ends in another lane and by which edge; −1 where it ends itself.
	to, toEdge int
	y          float64
	above      bool    // it lies over the lane that it branches off
	closes     float64 // x where its end goes up or down to the other lane
	turn       float64 // height over a folded lane at which its line comes back to the left
	dials      float64 // height of its dials over the lane, negative
}

// last is the node that ends a lane.
func (l lane) last() int { return l.nodes[len(l.nodes)-1] }

// lanes takes the trunk apart into straight lines: at each branch the line goes on
// to where most lies beyond, and where that is the same, the longest way.
func (n *flowNet) lanes(o *flowOrder) (all []lane, of []int) {
	order := o.sorted()
	weight, long := n.ahead(o, order)
	of = make([]int, len(n.points))
	for i := range of {
		of[i] = -1
	}
	better := func(a, b flowStep) int {
		if c := cmp.Compare(weight[b.to], weight[a.to]); c != 0 {
			return c
		}
		return cmp.Compare(long[b.to], long[a.to])
	}
	follow := func(l lane, v int) {
		for {
			of[v] = len(all)
			l.nodes = append(l.nodes, v)
			steps := slices.DeleteFunc(slices.Clone(o.next[v]), func(s flowStep) bool { return of[s.to] >= 0 })
			if len(steps) == 0 {
				break
			}
			v = slices.MinFunc(steps, better).to
		}
		all = append(all, l)
	}
	follow(lane{from: -1, fromEdge: -1, to: -1, toEdge: -1}, n.start)
	for _, u := range order {
		steps := slices.Clone(o.next[u])
		slices.SortStableFunc(steps, better)
		for _, s := range steps {
			if of[s.to] < 0 {
				follow(lane{from: u, fromEdge: s.edge, to: -1, toEdge: -1}, s.to)
			}
		}
	}
	return n.close(o, all, of, order)
}

// ahead weighs what lies before each node: outlets, shared where ways part and meet
// again, and the longest way on.
func (n *flowNet) ahead(o *flowOrder, order []int) (weight []float64, long []int) {
	weight, long = make([]float64, len(n.points)), make([]int, len(n.points))
	for i := len(order) - 1; i >= 0; i-- {
		v := order[i]
		weight[v] = float64(n.served[v])
		for _, u := range n.hung[v] {
			if n.hang[u] == onDrop {
				weight[v]++
			}
		}
		for _, s := range o.next[v] {
			weight[v] += weight[s.to] / float64(len(o.prev[s.to]))
			long[v] = max(long[v], long[s.to]+1)
		}
	}
	return weight, long
}

// close gives the edges that join lanes their place: the end of a lane goes on into
// the other one; an edge from the middle of a lane gets a lane of its own.
func (n *flowNet) close(o *flowOrder, all []lane, of, order []int) ([]lane, []int) {
	used := map[int]bool{}
	for i := range all {
		used[all[i].fromEdge] = true
		for k := 1; k < len(all[i].nodes); k++ {
			for _, s := range o.next[all[i].nodes[k-1]] {
				if s.to == all[i].nodes[k] && !used[s.edge] {
					used[s.edge] = true
					break
				}
			}
		}
	}
	for _, u := range order {
		for _, s := range slices.Clone(o.next[u]) {
			if used[s.edge] {
				continue
			}
			l := &all[of[u]]
			if l.nodes[len(l.nodes)-1] == u && l.to < 0 {
				l.to, l.toEdge = s.to, s.edge
				continue
			}
			v := n.grow()
			n.hang, n.hung, n.at = append(n.hang, trunk), append(n.hung, nil), append(n.at, nil)
			of = append(of, len(all))
			o.next, o.prev = append(o.next, []flowStep{{s.edge, s.to}}), append(o.prev, []flowStep{{s.edge, u}})
			o.next[u] = append(o.next[u], flowStep{s.edge, v})
			o.prev[s.to] = append(o.prev[s.to], flowStep{s.edge, v})
			all = append(all, lane{nodes: []int{v}, from: u, fromEdge: s.edge, to: s.to, toEdge: s.edge})
		}
	}
	return all, of
}
