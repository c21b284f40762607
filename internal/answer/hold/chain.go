package hold

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// node is a point of the net or a corner of a run, where straight bars meet.
type node struct {
	id     string
	at     geom.Point
	point  *job.Point // nil at a corner
	kind   catalog.Kind
	corner float64 // rad, turn of a corner of a run; 0 at a point
	bent   float64 // rad, by which the line itself is bent here
	outlet bool    // a hose or tool connects here
	fixed  bool    // stands fast: fixed to the building, or an outlet
	flexes bool
	// tangent, m, is what a bend takes of the straight line on each side.
	tangent float64
	ends    []barEnd
	pairs   map[barEnd]barEnd // what goes straight on
}

// barEnd is one end of a bar: 0 where it begins along its run, 1 where it ends.
type barEnd struct {
	bar *bar
	end int
}

// bar is a straight piece of a run, from node to node.
type bar struct {
	line  *line
	a, b  float64 // m along the run
	at    [2]*node
	away  [2]geom.Point // unit, direction in which it leaves each node
	steep bool
	used  bool
	chain *chain
}

// chain is bars that go straight on through points.
type chain struct {
	links []link
	nodes []*node
	at    []float64 // m, of each node along the chain
	long  float64
	clips []*clip // by place
}

// link is a bar as its chain passes it.
type link struct {
	bar   *bar
	back  bool
	begin float64
}

// readNodes makes the nodes and the bars between them.
func (s *shop) readNodes() {
	for _, l := range s.lines {
		corners := geom.Corners(l.path, leastTurn)
		from := s.nodeOf(l.run.From.Point, l.path[0])
		at := 0.0
		for i, c := range corners {
			n := &node{id: fmt.Sprintf("%s/corner-%d", l.run.ID, i+1), at: c.At, corner: c.Turn}
			s.order = append(s.order, n)
			s.bar(l, from, n, at, c.Along)
			from, at = n, c.Along
		}
		s.bar(l, from, s.nodeOf(l.run.To.Point, l.path[len(l.path)-1]), at, l.long)
	}
	for _, n := range s.order {
		n.pair()
	}
}

// nodeOf is the node of a point, made once.
func (s *shop) nodeOf(id job.ID, at geom.Point) *node {
	if n := s.nodes[id]; n != nil {
		return n
	}
	n := &node{id: string(id), at: at, point: s.ix.Point(id)}
	if n.point != nil {
		n.kind = s.kindOf(&n.point.Part)
	}
	n.outlet = len(s.ix.OutletsAt(id)) > 0
	n.fixed = n.kind.FixesTo != "" || n.outlet
	n.flexes = n.kind.Has(catalog.Flexes)
	s.nodes[id] = n
	s.order = append(s.order, n)
	return n
}

// bar adds a bar to the nodes at its ends.
func (s *shop) bar(l *line, from, to *node, a, b float64) {
	if b-a <= geom.Tiny {
		return
	}
	x := &bar{line: l, a: a, b: b, at: [2]*node{from, to}}
	p, _, _ := geom.OnPath(l.path, a)
	q, _, _ := geom.OnPath(l.path, b)
	near, _, _ := geom.OnPath(l.path, a+math.Min(0.1, b-a))
	far, _, _ := geom.OnPath(l.path, b-math.Min(0.1, b-a))
	x.away = [2]geom.Point{near.Minus(p).Unit(), far.Minus(q).Unit()}
	x.steep = math.Abs(q[2]-p[2]) > steep*(b-a)
	s.bars = append(s.bars, x)
	l.bars = append(l.bars, x)
	from.ends = append(from.ends, barEnd{x, 0})
	to.ends = append(to.ends, barEnd{x, 1})
}

// pair finds which bars go straight on through a node: of several the straightest.
// A flexible link lets nothing through.
func (n *node) pair() {
	n.pairs = map[barEnd]barEnd{}
	if n.flexes {
		return
	}
	type match struct {
		p, q barEnd
		turn float64
	}
	var all []match
	for i, p := range n.ends {
		for _, q := range n.ends[i+1:] {
			turn := math.Pi - geom.Angle(p.bar.away[p.end], q.bar.away[q.end])
			if turn <= leastTurn && p.bar != q.bar {
				all = append(all, match{p, q, turn})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b match) int { return cmp.Compare(a.turn, b.turn) })
	for _, m := range all {
		_, p := n.pairs[m.p]
		_, q := n.pairs[m.q]
		if !p && !q {
			n.pairs[m.p], n.pairs[m.q] = m.q, m.p
		}
	}
}

// chain joins the bars into chains, each begun by its first bar in the order of the job.
func (s *shop) chain() {
	for _, b := range s.bars {
		if b.used {
			continue
		}
		b.used = true
		ahead := follow(barEnd{b, 1})
		behind := follow(barEnd{b, 0})
		c := &chain{}
		for _, e := range slices.Backward(behind) {
			c.links = append(c.links, link{bar: e.bar, back: e.end == 0})
		}
		c.links = append(c.links, link{bar: b})
		for _, e := range ahead {
			c.links = append(c.links, link{bar: e.bar, back: e.end == 1})
		}
		c.measure()
		s.chains = append(s.chains, c)
	}
}

// follow lists the bar ends by which a chain goes on from an end.
func follow(e barEnd) (list []barEnd) {
	for {
		next, ok := e.bar.at[e.end].pairs[e]
		if !ok || next.bar.used {
			return list
		}
		next.bar.used = true
		list = append(list, next)
		e = barEnd{next.bar, 1 - next.end}
	}
}

// measure places the links and nodes along the chain.
func (c *chain) measure() {
	for i := range c.links {
		l := &c.links[i]
		l.begin = c.long
		l.bar.chain = c
		first, last := l.bar.at[0], l.bar.at[1]
		if l.back {
			first, last = last, first
		}
		if i == 0 {
			c.nodes, c.at = append(c.nodes, first), append(c.at, 0)
		}
		c.long += l.bar.b - l.bar.a
		c.nodes, c.at = append(c.nodes, last), append(c.at, c.long)
	}
}

// linkAt is the link that a place is on, the earlier one at a node.
func (c *chain) linkAt(x float64) *link {
	for i := range c.links {
		if x <= c.at[i+1]+1e-12 {
			return &c.links[i]
		}
	}
	return &c.links[len(c.links)-1]
}

// along is where a place on a link is along its run.
func (l *link) along(x float64) float64 {
	if l.back {
		return l.bar.b - (x - l.begin)
	}
	return l.bar.a + (x - l.begin)
}

// place is where a place along the chain is in space.
func (c *chain) place(x float64) geom.Point {
	l := c.linkAt(x)
	p, _, _ := geom.OnPath(l.bar.line.path, l.along(x))
	return p
}

// where is where a bar's end lies along its chain.
func (e barEnd) where() float64 {
	for i := range e.bar.chain.links {
		l := &e.bar.chain.links[i]
		if l.bar == e.bar {
			if l.back == (e.end == 1) {
				return l.begin
			}
			return l.begin + e.bar.b - e.bar.a
		}
	}
	return 0
}
