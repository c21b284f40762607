package route

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/num/steiner"
	"dropleg/internal/shop/job"
)

// layout is the least tree as lines: a main, branches and legs.
type layout struct {
	maze  *maze
	pen   pen
	wish  *Wish
	start job.ID         // where the main begins
	sons  map[int][]step // ways onward from a node
	price int64
	bound int64
	slope float64
	lines []line          // a line comes after the one that it begins on
	wide  map[int]float64 // by foot: how far a take-off stands from where its leg comes down
	bows  []bow           // where mains are led out of their line, to give way
	holes int
}

// step is a way of the tree and where it leads.
type step struct {
	way, to int
	weight  float64 // metres of main beyond, this way included
}

// line is one main or branch.
type line struct {
	path []geom.Point // with its fall
	from int          // of the lines: where it begins; −1 at the plant, −2 on a line that is there
	legs []legEnd
	last int     // the foot that the line goes on to at its end; −1 for none
	dist float64 // metres from the plant to its beginning
}

// legEnd is a leg off a line.
type legEnd struct {
	at   geom.Point
	foot int
}

// layoutOf finds the least tree for a job.
func layoutOf(ctx context.Context, d *draft, w *Wish, p pen, progress Progress) (*layout, error) {
	ix := job.NewIndex(d.job)
	n := netOf(ix, d.shelf)
	feet := append(w.chosen(n.feet()), stubs(w)...)
	m, err := ready(n, feet, w, pricesOf(d.job, p))
	if err != nil {
		return nil, err
	}
	q, of := m.problem(false)
	o := steiner.Options{}
	if progress != nil {
		o.Progress = func(best, bound int64) { progress(float64(best)/unitsOf, float64(bound)/unitsOf) }
	}
	a, err := steiner.Solve(ctx, q, o)
	var apart *steiner.ApartError
	if errors.As(err, &apart) {
		return nil, m.noWay(apart.Node)
	}
	if err != nil {
		return nil, fmt.Errorf("laying lines: %w", err)
	}
	l := &layout{maze: m, pen: p, wish: w, start: n.start, sons: map[int][]step{}, wide: map[int]float64{}, price: a.Price, bound: a.Bound}
	for _, t := range a.Tree {
		from, to := q.Edges[t.Edge].A, q.Edges[t.Edge].B
		if t.Back {
			from, to = to, from
		}
		l.sons[from] = append(l.sons[from], step{way: of[t.Edge], to: to})
	}
	l.weigh(m.root)
	l.follow(d.job)
	return l, nil
}

// stubs are the places for later.
func stubs(w *Wish) []foot {
	var out []foot
	for _, s := range w.Stubs {
		out = append(out, foot{at: s.At, names: []string{s.Name}, future: true})
	}
	return out
}

// weigh sums up the metres of main beyond every way, the heaviest first.
func (l *layout) weigh(v int) float64 {
	sum := 0.0
	for i := range l.sons[v] {
		s := &l.sons[v][i]
		s.weight = l.weigh(s.to)
		if w := l.maze.ways[s.way]; w.sort != leg && w.sort != tap {
			s.weight += l.maze.nodes[w.a].Distance(l.maze.nodes[w.b])
		}
		sum += s.weight
	}
	slices.SortStableFunc(l.sons[v], func(a, b step) int { return cmp.Compare(b.weight, a.weight) })
	return sum
}

// follow walks the tree from its root and writes down the lines, with the fall that the
// rules ask for or what there is room for.
func (l *layout) follow(j *job.Job) {
	l.slope = float64(j.RuleSlope().Value)
	l.walkAll()
	least := l.slope
	for i := range l.lines {
		x := &l.lines[i]
		far := x.dist + level2(x.path)
		for _, f := range append(slices.Clone(x.legs), legEnd{x.path[len(x.path)-1], x.last}) {
			if f.foot < 0 || far < 1 {
				continue
			}
			flat := f.at[2] + l.slope*far - l.maze.feet[f.foot].at[2] // without fall
			if flat > legLeast {
				least = math.Min(least, math.Max(0, (flat-legLeast)/far))
			}
		}
	}
	if least < l.slope {
		l.slope = math.Floor(least*1e4) / 1e4
		l.walkAll()
	}
}

func level2(path []geom.Point) float64 {
	sum := 0.0
	for i := 1; i < len(path); i++ {
		sum += path[i].Plan().Distance(path[i-1].Plan())
	}
	return sum
}

func (l *layout) walkAll() {
	l.lines, l.holes = nil, 0
	if l.maze.root >= 0 && len(l.sons[l.maze.root]) > 0 && l.maze.ways[l.sons[l.maze.root][0].way].sort == tap {
		for _, s := range l.sons[l.maze.root] {
			l.walk(s.to, nil, -2, 0, 0)
		}
		return
	}
	l.walk(l.maze.root, nil, -1, 0, 0)
}

// later is a line that begins on the one that is walked.
type later struct {
	node         int
	first        step
	fallen, dist float64
}

// walk writes down the line that begins at a node, and those that begin on it. first is
// its first way; nil for the heaviest. fallen is by how much the line has come down
// already after dist metres.
func (l *layout) walk(v int, first *step, from int, fallen, dist float64) {
	x := line{from: from, last: -1, dist: dist, path: []geom.Point{lowered(l.maze.nodes[v], fallen)}}
	var others []later
	me := len(l.lines)
	l.lines = append(l.lines, line{})
	for at := v; ; {
		next, off := l.onward(at, first, &x)
		for _, s := range off {
			others = append(others, later{at, s, fallen, dist})
		}
		first = nil
		if next == nil {
			break
		}
		w := l.maze.ways[next.way]
		if w.sort == hole {
			l.holes++
		}
		if run := l.maze.nodes[w.a].Plan().Distance(l.maze.nodes[w.b].Plan()); w.sort != plumb && !l.low(at) {
			fallen, dist = fallen+l.slope*run, dist+run
		}
		at = next.to
		x.path = append(x.path, lowered(l.maze.nodes[at], fallen))
	}
	if k := len(x.legs); k > 0 && x.legs[k-1].at == x.path[len(x.path)-1] && (k == 1 || x.legs[k-2].at != x.legs[k-1].at) {
		x.last = x.legs[k-1].foot
		x.legs = x.legs[:k-1]
	}
	x.path = tidied(x.path)
	l.lines[me] = x
	for i := range others {
		o := &others[i]
		l.walk(o.node, &o.first, me, o.fallen, o.dist)
	}
}

func lowered(p geom.Point, by float64) geom.Point { return geom.Point{p[0], p[1], p[2] - by} }

// onward is how a line goes on from a node, and the ways of lines that begin there; legs
// are noted. first, where there is one, is the only way.
func (l *layout) onward(at int, first *step, x *line) (next *step, off []step) {
	for i := range l.sons[at] {
		s := &l.sons[at][i]
		switch w := l.maze.ways[s.way]; {
		case first != nil && s.way != first.way:
		case w.sort == leg:
			x.legs = append(x.legs, legEnd{x.path[len(x.path)-1], l.footOf(s.to)})
		case next == nil:
			next = s
		default:
			off = append(off, *s)
		}
	}
	return next, off
}

// low says whether a node lies by the plant, under the mains: lines there have no fall.
func (l *layout) low(node int) bool {
	p := l.maze.nodes[node]
	room := spaceAt(l.maze.spaces, p)
	return room < 0 || p[2] < l.maze.spaces[room].main-0.3
}

func (l *layout) footOf(node int) int { return slices.Index(l.maze.ends, node) }

// tidied is a path without places at which it does not turn.
func tidied(path []geom.Point) []geom.Point {
	out := []geom.Point{path[0]}
	for i := 1; i < len(path); i++ {
		for len(out) > 1 && geom.Angle(out[len(out)-1].Minus(out[len(out)-2]), path[i].Minus(out[len(out)-1])) < 0.001 {
			out = out[:len(out)-1]
		}
		if path[i].Distance(out[len(out)-1]) > 1.5*merge {
			out = append(out, path[i])
		}
	}
	return out
}
