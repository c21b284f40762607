package route

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/num/steiner"
)

// sort says what a way of the maze is.
type sort int

const (
	level sort = iota // along a wall or under the ceiling
	plumb             // up or down
	leg               // from a main to what it feeds
	hole              // through a wall
	tap               // off a line that is there
)

// way joins two nodes.
type way struct {
	a, b    int
	price   int64
	sort    sort
	blocked []int // by which blocks; nil: free
}

// maze is the graph of the places where lines may run.
type maze struct {
	spaces []space
	blocks []block
	prices Prices
	nodes  []geom.Point
	ways   []way
	ids    map[[4]int64]int
	root   int
	feet   []foot
	ends   []int // node of each foot
	hung   []int // column of each foot, in its room
	in     []int // room of each foot
}

// node is the node of a room at a place, made where there is none.
func (m *maze) node(room int, at geom.Flat, z float64) int {
	mm := func(x float64) int64 { return int64(math.Round(x * 200)) } // half a centimetre
	key := [4]int64{int64(room), mm(at[0]), mm(at[1]), mm(z)}
	if id, ok := m.ids[key]; ok {
		return id
	}
	m.ids[key] = len(m.nodes)
	return m.loose(at.At(z))
}

// loose is a node by itself.
func (m *maze) loose(p geom.Point) int {
	m.nodes = append(m.nodes, p)
	return len(m.nodes) - 1
}

// join adds a way between two nodes.
func (m *maze) join(a, b int, money float64, s sort, exempt []int) {
	if a == b {
		return
	}
	w := way{a: min(a, b), b: max(a, b), price: counted(money), sort: s}
	for i := range m.blocks {
		if s != tap && !slices.Contains(exempt, i) && m.blocks[i].hits(m.nodes[a], m.nodes[b]) {
			w.blocked = append(w.blocked, i)
		}
	}
	m.ways = append(m.ways, w)
}

// exempt lists the blocks that a place stands in.
func (m *maze) exempt(p geom.Point) []int {
	var out []int
	for i := range m.blocks {
		if m.blocks[i].holds(p) {
			out = append(out, i)
		}
	}
	return out
}

// crossings makes columns where ways cross on the plan.
func (s *space) crossings() {
	n := len(s.rails)
	for i := range n {
		for k := range i {
			a, b := s.rails[i], s.rails[k]
			d, e := a.b.Minus(a.a), b.b.Minus(b.a)
			c := d.Cross(e)
			if math.Abs(c) < 1e-9 || !a.ceiling && !b.ceiling {
				continue
			}
			t, u := b.a.Minus(a.a).Cross(e)/c, b.a.Minus(a.a).Cross(d)/c
			if t > -1e-9 && t < 1+1e-9 && u > -1e-9 && u < 1+1e-9 {
				s.column(a.a.Plus(d.Times(t)))
			}
		}
	}
}

// lay turns the ways and columns of a room into nodes and ways of the maze.
func (m *maze) lay(room int) {
	s := &m.spaces[room]
	s.crossings()
	s.beside(m.blocks)
	stops := make([][]geom.Flat, len(s.rails))
	for c := range s.columns {
		col := &s.columns[c]
		z := slices.Clone(col.z)
		for i, r := range s.rails {
			if _, on := r.at(col.at); on {
				stops[i] = append(stops[i], col.at)
				z = append(z, r.z)
			}
		}
		slices.Sort(z)
		for i := 1; i < len(z); i++ {
			if z[i]-z[i-1] > merge {
				a, b := m.node(room, col.at, z[i-1]), m.node(room, col.at, z[i])
				m.join(a, b, (z[i]-z[i-1])*m.prices.Metre, plumb, col.exempt)
			}
		}
	}
	for i, r := range s.rails {
		along := func(p geom.Flat) float64 { t, _ := r.at(p); return t }
		slices.SortFunc(stops[i], func(a, b geom.Flat) int { return cmp.Compare(along(a), along(b)) })
		metre := m.prices.Metre
		if r.ceiling {
			metre *= ceilingFactor
		}
		if r.z-s.floor > handReach+merge {
			metre *= highFactor
		}
		for k := 1; k < len(stops[i]); k++ {
			a, b := stops[i][k-1], stops[i][k]
			m.join(m.node(room, a, r.z), m.node(room, b, r.z), a.Distance(b)*metre, level, nil)
		}
	}
}

// problem is the maze as a question for the least tree, and the way of each of its edges.
func (m *maze) problem(blockedToo bool) (steiner.Problem, []int) {
	p := steiner.Problem{Nodes: len(m.nodes), Terminals: append([]int{m.root}, m.ends...)}
	var of []int
	const dear = 1 << 40 // of a way that is blocked: only to see what blocks
	for i, w := range m.ways {
		price := w.price
		if w.blocked != nil {
			if !blockedToo {
				continue
			}
			price += dear * int64(len(w.blocked))
		}
		p.Edges = append(p.Edges, steiner.Edge{A: w.a, B: w.b, Price: price})
		of = append(of, i)
	}
	p.Turn = func(node, in, out int) int64 { return m.turn(node, &m.ways[of[in]], &m.ways[of[out]]) }
	return p, of
}

// straight is by how many radians a line may turn without a fitting.
const straight = 10 * math.Pi / 180

// turn is the price of a corner.
func (m *maze) turn(node int, in, out *way) int64 {
	if in.sort == tap || in.sort == leg || out.sort == leg || out.sort == tap {
		return 0 // in the price of the leg
	}
	from, to := in.a+in.b-node, out.a+out.b-node
	if geom.Angle(m.nodes[node].Minus(m.nodes[from]), m.nodes[to].Minus(m.nodes[node])) < straight {
		return 0
	}
	return counted(m.prices.Bend)
}
