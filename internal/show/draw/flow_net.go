package draw

import (
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// flowNet is the net as a graph, for a drawing that is not to scale: the trunk
// (plant, treatment, mains), and what hangs on it: drops with one outlet each, and
// small parts that lead nowhere.
type flowNet struct {
	points []*job.Point // nil for a node that only leads a line round
	edges  []flowEdge
	at     [][]int // edges at each node
	kinds  []catalog.Kind
	served []int // outlets at each node
	hang   []hanging
	start  int     // the node before all sources
	hung   [][]int // roots of what hangs on each trunk node, in the order of the runs
}

// flowEdge is a run between two nodes, or the start of the net (run nil).
type flowEdge struct {
	a, b int
	run  *job.Run
}

func (e flowEdge) other(v int) int {
	if v == e.a {
		return e.b
	}
	return e.a
}

// hanging says how a node stands to the trunk.
type hanging int

const (
	trunk  hanging = iota
	onDrop         // leads to one outlet
	aside          // leads nowhere: a drain, a gauge, a cap
)

// most is the greatest number of parts that hang aside; a longer dead end is a line.
const mostAside = 4

// newFlowNet builds the graph; the last node is the start, before all sources.
func newFlowNet(g Given) *flowNet {
	j := g.Index.Job()
	n := &flowNet{}
	known := make(map[job.ID]int, len(j.Net.Points))
	for i := range j.Net.Points {
		pt := &j.Net.Points[i]
		if _, twice := known[pt.ID]; twice {
			continue
		}
		known[pt.ID] = len(n.points)
		kind, _ := g.Shelf.Kind(pt.Part.Kind)
		n.points, n.kinds = append(n.points, pt), append(n.kinds, kind)
		n.served = append(n.served, len(g.Index.OutletsAt(pt.ID)))
	}
	n.start = n.grow()
	n.at = make([][]int, len(n.points))
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		a, ok1 := known[r.From.Point]
		b, ok2 := known[r.To.Point]
		if ok1 && ok2 && a != b {
			n.join(a, b, r)
		}
	}
	n.begin()
	n.part()
	return n
}

// grow adds a node that is no point of the job.
func (n *flowNet) grow() int {
	n.points, n.kinds, n.served = append(n.points, nil), append(n.kinds, catalog.Kind{}), append(n.served, 0)
	return len(n.points) - 1
}

func (n *flowNet) join(a, b int, r *job.Run) int {
	n.edges = append(n.edges, flowEdge{a, b, r})
	n.at[a], n.at[b] = append(n.at[a], len(n.edges)-1), append(n.at[b], len(n.edges)-1)
	return len(n.edges) - 1
}

// begin joins the start to every source, and to a first point of every part of the
// net without one: a vessel if there is one.
func (n *flowNet) begin() {
	start := n.start
	reached := make([]bool, len(n.points))
	reach := func(from int) {
		n.join(start, from, nil)
		if reached[from] {
			return
		}
		reached[from] = true
		for queue := []int{from}; len(queue) > 0; queue = queue[1:] {
			for _, e := range n.at[queue[0]] {
				if v := n.edges[e].other(queue[0]); v != start && !reached[v] {
					reached[v] = true
					queue = append(queue, v)
				}
			}
		}
	}
	for _, role := range []catalog.Role{catalog.Supplies, catalog.Stores, ""} {
		for v := range start {
			first := role == "" || n.kinds[v].Has(role)
			if first && (role == catalog.Supplies || !reached[v]) && len(n.at[v]) > 0 {
				reach(v)
			}
		}
	}
	for v := range start {
		if !reached[v] {
			reach(v) // a point without any line
		}
	}
}

// part finds what hangs on the trunk: below a run that carries one outlet's air or
// none, without a ring and without a source.
func (n *flowNet) part() {
	w := &walker{n: n, seen: make([]int, len(n.points)), low: make([]int, len(n.points)), below: make([]below, len(n.points))}
	n.hang, n.hung = make([]hanging, len(n.points)), make([][]int, len(n.points))
	w.walk(n.start, -1)
}

// below is what a node's part of the tree holds.
type below struct {
	outlets, size int
	knotted       bool // a ring or a source is in it
}

// walker goes through the net depth first.
type walker struct {
	n     *flowNet
	seen  []int
	low   []int
	clock int
	below []below
}

// walk visits v, which it came to by an edge; what can hang is marked on the way
// back, so that the mark nearest to the trunk is the last and counts.
func (w *walker) walk(v, by int) {
	w.clock++
	w.seen[v], w.low[v] = w.clock, w.clock
	b := &w.below[v]
	b.size = 1
	if w.n.served[v] > 0 {
		b.outlets = 1
	}
	b.knotted = w.n.kinds[v].Has(catalog.Supplies)
	var hung []int
	for _, e := range w.n.at[v] {
		if e == by {
			continue
		}
		u := w.n.edges[e].other(v)
		if w.seen[u] > 0 {
			w.low[v] = min(w.low[v], w.seen[u])
			b.knotted = true
			continue
		}
		w.walk(u, e)
		w.low[v] = min(w.low[v], w.low[u])
		b.outlets += w.below[u].outlets
		b.size += w.below[u].size
		b.knotted = b.knotted || w.below[u].knotted
		if h := w.hangs(u, e); h != trunk {
			w.mark(u, e, h)
			hung = append(hung, u)
		}
	}
	w.n.hung[v] = hung
}

// hangs says how what is below u, reached by an edge, hangs.
func (w *walker) hangs(u, e int) hanging {
	r, b := w.n.edges[e].run, w.below[u]
	if r == nil || b.knotted || r.Role == "main" || r.Role == "ring" {
		return trunk
	}
	switch {
	case b.outlets == 0 && b.size <= mostAside:
		return aside
	case b.outlets == 1 && r.Role != "link":
		return onDrop
	}
	return trunk
}

// mark gives all nodes below an edge their standing: what carries no outlet's air
// hangs aside.
func (w *walker) mark(u, e int, h hanging) {
	w.n.hang[u] = h
	var hung []int
	for _, next := range w.n.at[u] {
		if next == e {
			continue
		}
		v, standing := w.n.edges[next].other(u), h
		if w.below[v].outlets == 0 {
			standing = aside
		}
		w.mark(v, next, standing)
		hung = append(hung, v)
	}
	w.n.hung[u] = hung
}

// runBetween is the run that joins two nodes, or nil.
func (n *flowNet) runBetween(a, b int) *job.Run {
	for _, e := range n.at[a] {
		if n.edges[e].other(a) == b {
			return n.edges[e].run
		}
	}
	return nil
}

// trunkEdges are the edges at a node that lead along the trunk.
func (n *flowNet) trunkEdges(v int) []int {
	return slices.DeleteFunc(slices.Clone(n.at[v]), func(e int) bool { return n.hang[n.edges[e].other(v)] != trunk })
}
