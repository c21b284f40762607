package draw

import (
	"cmp"
	"slices"
)

// flowOrder gives every edge of the trunk a direction, left to right, without going
// round: the net is taken apart into blocks (parts that stay whole whichever one
// node is taken out), and each block is laid out from the node where it is entered
// to the node that most lies beyond, or, where it is a ring that serves outlets all
// round, to the far side of it.
type flowOrder struct {
	n         *flowNet
	next      [][]flowStep // by node, along the direction
	prev      [][]flowStep
	beyond    []float64 // weight of what lies beyond a node, its blocks on the far side
	seen, low []int
	clock     int
	stack     []int // edges
}

// flowStep is an edge taken in its direction.
type flowStep struct{ edge, to int }

func newFlowOrder(n *flowNet) *flowOrder {
	o := &flowOrder{
		n: n, next: make([][]flowStep, len(n.points)), prev: make([][]flowStep, len(n.points)),
		beyond: make([]float64, len(n.points)), seen: make([]int, len(n.points)), low: make([]int, len(n.points)),
	}
	for v := range n.points {
		o.beyond[v] = 0.05 + float64(n.served[v])
		for _, u := range n.hung[v] {
			if n.hang[u] == onDrop {
				o.beyond[v]++
			}
		}
	}
	o.walk(n.start, -1)
	return o
}

// walk visits v; each block is laid when its last node is left (Tarjan).
func (o *flowOrder) walk(v, by int) {
	o.clock++
	o.seen[v], o.low[v] = o.clock, o.clock
	for _, e := range o.n.trunkEdges(v) {
		u := o.n.edges[e].other(v)
		switch {
		case e == by:
		case o.seen[u] == 0:
			o.stack = append(o.stack, e)
			o.walk(u, e)
			o.low[v] = min(o.low[v], o.low[u])
			if o.low[u] >= o.seen[v] {
				at := slices.Index(o.stack, e)
				o.block(v, slices.Clone(o.stack[at:]))
				o.stack = o.stack[:at]
			}
		case o.seen[u] < o.seen[v]:
			o.stack = append(o.stack, e)
			o.low[v] = min(o.low[v], o.seen[u])
		}
	}
}

// block directs the edges of one block that is entered at a node.
func (o *flowOrder) block(entry int, edges []int) {
	slices.Sort(edges)
	near := map[int][]int{}
	nodes := []int{}
	for _, e := range edges {
		for _, v := range []int{o.n.edges[e].a, o.n.edges[e].b} {
			if near[v] == nil {
				nodes = append(nodes, v)
			}
			near[v] = append(near[v], e)
		}
	}
	slices.Sort(nodes)
	total := 0.0
	for _, v := range nodes {
		if v != entry {
			total += o.beyond[v]
		}
	}
	from := o.distances(entry, near)
	exit := entry
	for _, v := range nodes {
		if v != entry && (exit == entry || o.beyond[v] > o.beyond[exit]) {
			exit = v
		}
	}
	if o.beyond[exit] < total/2 {
		for _, v := range nodes {
			if from[v] > from[exit] {
				exit = v
			}
		}
	}
	rank := o.grown(entry, exit, near, o.ranked(nodes, entry, exit, from, o.distances(exit, near)))
	for _, e := range edges {
		a, b := o.n.edges[e].a, o.n.edges[e].b
		if rank[a] > rank[b] {
			a, b = b, a
		}
		o.next[a], o.prev[b] = append(o.next[a], flowStep{e, b}), append(o.prev[b], flowStep{e, a})
	}
	o.beyond[entry] += total
}

// distances are steps from a node within a block.
func (o *flowOrder) distances(from int, near map[int][]int) map[int]int {
	d := map[int]int{from: 0}
	for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
		for _, e := range near[queue[0]] {
			u := o.n.edges[e].other(queue[0])
			if _, met := d[u]; !met {
				d[u] = d[queue[0]] + 1
				queue = append(queue, u)
			}
		}
	}
	return d
}

// ranked orders the nodes of a block from entry to exit: by how much nearer they
// are to the one than to the other, then by the way from the nearer one.
func (o *flowOrder) ranked(nodes []int, entry, exit int, from, to map[int]int) map[int]int {
	order := slices.Clone(nodes)
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case a == entry || b == exit:
			return -1
		case b == entry || a == exit:
			return 1
		}
		ha, hb := from[a]-to[a], from[b]-to[b]
		if c := cmp.Compare(ha, hb); c != 0 {
			return c
		}
		if ha < 0 {
			return cmp.Compare(from[a], from[b])
		}
		return cmp.Compare(to[b], to[a])
	})
	rank := make(map[int]int, len(order))
	for i, v := range order {
		rank[v] = i
	}
	return rank
}

// grown is an order near to the one wished for in which every node but the entry
// comes after a neighbour, and the exit last: a block stays in one piece without it.
func (o *flowOrder) grown(entry, exit int, near map[int][]int, wish map[int]int) map[int]int {
	rank := map[int]int{}
	ready := []int{entry}
	waiting := map[int]bool{entry: true}
	for len(ready) > 0 {
		pick := 0
		for i, v := range ready {
			if ready[pick] == exit || v != exit && wish[v] < wish[ready[pick]] {
				pick = i
			}
		}
		v := ready[pick]
		ready = slices.Delete(ready, pick, pick+1)
		rank[v] = len(rank)
		for _, e := range near[v] {
			if u := o.n.edges[e].other(v); !waiting[u] {
				waiting[u] = true
				ready = append(ready, u)
			}
		}
	}
	return rank
}

// sorted lists the trunk from left to right, each node after all before it.
func (o *flowOrder) sorted() []int {
	waits := make([]int, len(o.next))
	for v := range o.prev {
		waits[v] = len(o.prev[v])
	}
	var order []int
	for queue := []int{o.n.start}; len(queue) > 0; queue = queue[1:] {
		v := queue[0]
		order = append(order, v)
		for _, s := range o.next[v] {
			if waits[s.to]--; waits[s.to] == 0 {
				queue = append(queue, s.to)
			}
		}
	}
	return order
}
