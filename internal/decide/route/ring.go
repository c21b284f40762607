package route

import (
	"context"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/fit"
)

// ring closes the main to a ring where a way leads from its far end back to its
// beginning; ok is false where none does. What it brings is solved, and said.
func (l *layout) ring(ctx context.Context, s *study.Study, d *draft, tree Proposal) (Proposal, bool, error) {
	path, money, ok := l.back()
	if !ok {
		return Proposal{}, false, nil
	}
	a, err := l.draw(ctx, d)
	if err != nil {
		return Proposal{}, false, err
	}
	if !a.close(path) {
		return Proposal{}, false, nil
	}
	p := l.proposalOf(d, a, "The same with the main closed to a ring")
	p.Figures.Price += money
	p.Figures.Least, p.Proven, p.Gap = 0, false, 0 // no bound is told for rings
	gain, known, err := gained(ctx, s, tree, p)
	if err != nil {
		return Proposal{}, false, err
	}
	if known {
		p.Figures.Gain, p.Pays = &gain, gain >= worthwhile
	}
	p.Words = append(l.assumed(a), paying(p.Figures.Price-tree.Figures.Price, gain, known), "The ring closes from the main's end back to its beginning by the cheapest way that no line takes yet; how the rest is laid was not searched anew for it.")
	return p, true, nil
}

// worthwhile is the gain, in Pa, from which a ring is said to pay: a tenth of what is
// allowed for a main (common practice).
const worthwhile = 1000

// paying tells in a sentence whether a ring pays.
func paying(more, gain float64, known bool) string {
	switch {
	case !known:
		return fmt.Sprintf("It costs %.0f more; what it brings cannot be told, since no tool is used at an outlet.", more)
	case gain < worthwhile:
		return fmt.Sprintf("It costs %.0f more and brings the tool that is worst off nothing that counts: for pressure alone it does not pay. One half can be shut off while the other works.", more)
	}
	return fmt.Sprintf("It costs %.0f more and brings the tool that is worst off more pressure; one half can be shut off while the other works.", more)
}

// back is the way from the far end of the main to another place of the tree, by ways that
// the tree does not take, that makes the largest ring for its length; and its price.
func (l *layout) back() (path []geom.Point, money float64, ok bool) {
	m := l.maze
	taken, fallen := map[int]bool{}, map[int]float64{}
	up := map[int]step{} // the way by which a node of the tree is come to, and from where
	last := l.trace(m.root, 0, taken, fallen, up)
	at := make([][]int, len(m.nodes))
	for i, w := range m.ways {
		if w.blocked == nil && !taken[i] && w.sort != leg && w.sort != tap {
			at[w.a], at[w.b] = append(at[w.a], i), append(at[w.b], i)
		}
	}
	dist, by := m.cheapest(last, at)
	best, most := -1, 0.0
	for v := range m.nodes {
		if _, on := fallen[v]; !on || v == last || math.IsInf(dist[v], 1) {
			continue
		}
		if round := l.round(last, v, up) - dist[v]/m.prices.Metre; round > most+merge {
			best, most = v, round
		}
	}
	if best < 0 {
		return nil, 0, false
	}
	for v := best; ; {
		path = append(path, m.nodes[v])
		if v == last {
			break
		}
		w := m.ways[by[v]]
		v = w.a + w.b - v
	}
	slices.Reverse(path)
	whole, gone := math.Max(level2(path), geom.Tiny), 0.0
	flat := slices.Clone(path)
	for i := range path { // its fall is shared out between those at its ends
		if i > 0 {
			gone += flat[i].Plan().Distance(flat[i-1].Plan())
		}
		path[i][2] -= fallen[last] + (fallen[best]-fallen[last])*gone/whole
	}
	return tidied(path), dist[best] + 2*m.prices.Tee, true
}

// trace walks the tree: the ways that it takes, by how much each node of mains has
// fallen, and by which way it is come to. It gives the far end of the main.
func (l *layout) trace(v int, low float64, taken map[int]bool, fallen map[int]float64, up map[int]step) (last int) {
	fallen[v], last = low, v
	first := true
	for _, s := range l.sons[v] {
		taken[s.way] = true
		w := l.maze.ways[s.way]
		if w.sort == leg {
			continue
		}
		by := low
		if w.sort != plumb && w.sort != tap && !l.low(v) {
			by += l.slope * l.maze.nodes[w.a].Plan().Distance(l.maze.nodes[w.b].Plan())
		}
		up[s.to] = step{way: s.way, to: v}
		if end := l.trace(s.to, by, taken, fallen, up); first {
			last, first = end, false
		}
	}
	return last
}

// round is the way along the tree between two of its nodes, in metres.
func (l *layout) round(a, b int, up map[int]step) float64 {
	far := map[int]float64{}
	sum := 0.0
	for v := a; ; {
		far[v] = sum
		s, ok := up[v]
		if !ok {
			break
		}
		w := l.maze.ways[s.way]
		sum, v = sum+l.maze.nodes[w.a].Distance(l.maze.nodes[w.b]), s.to
	}
	sum = 0
	for v := b; ; {
		if d, ok := far[v]; ok {
			return sum + d
		}
		s, ok := up[v]
		if !ok {
			return 0
		}
		w := l.maze.ways[s.way]
		sum, v = sum+l.maze.nodes[w.a].Distance(l.maze.nodes[w.b]), s.to
	}
}

// cheapest is the prices of ways from a node, corners left out, and the way by which each
// node is come to.
func (m *maze) cheapest(from int, at [][]int) (dist []float64, by []int) {
	dist, by = make([]float64, len(m.nodes)), make([]int, len(m.nodes))
	done := make([]bool, len(m.nodes))
	for v := range dist {
		dist[v] = math.Inf(1)
	}
	dist[from] = 0
	for {
		v := -1
		for u := range dist {
			if !done[u] && !math.IsInf(dist[u], 1) && (v < 0 || dist[u] < dist[v]) {
				v = u
			}
		}
		if v < 0 {
			return dist, by
		}
		done[v] = true
		for _, i := range at[v] {
			w := m.ways[i]
			u := w.a + w.b - v
			if d := dist[v] + float64(w.price)/unitsOf; d < dist[u] {
				dist[u], by[u] = d, i
			}
		}
	}
}

// close draws the way back; false where no tee has room at one of its ends.
func (a *artist) close(path []geom.Point) bool {
	n := len(path)
	from, path, _, err := a.begin(path)
	if err != nil || n < 2 {
		return false
	}
	slices.Reverse(path)
	to, path, _, err := a.begin(path)
	if err != nil {
		return false
	}
	slices.Reverse(path)
	g := &fit.Line{From: from, To: to, Stock: a.pen.stock.Stock, Size: a.pen.main, Role: "ring"}
	for _, p := range path[1 : len(path)-1] {
		g.Via = append(g.Via, *at(p))
	}
	if _, ok := a.try(g); !ok {
		return false
	}
	long := path[0].Distance(path[1])
	a.valveAt(path[0].Plus(path[1].Minus(path[0]).Times(math.Min(valveFrom, long/2) / long)))
	return a.rename() == nil
}
