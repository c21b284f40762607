package draw

import (
	"math"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// cellMetre is how many mm of the diagram at full size make a metre of its scene,
// which is not to scale otherwise.
const cellMetre = 10.0

// charter draws a diagram that is laid out.
type charter struct {
	*planner
	flow  *flow
	grown float64 // mm of paper to the mm of the layout, as far as symbols follow it
	words float64 // height of words, mm
	ways  []route
	parts []scene.Item
	spots map[int]scene.Point // mm of the layout, of every node drawn
}

// route is how one run goes on the diagram.
type route struct {
	run  *job.Run
	from int // the node at its first place
	at   []scene.Point
}

// Diagram draws the flow of the air from the sources on the left to the outlets:
// the net as a graph, not to scale, with the symbols of the catalogue (after
// ISO 1219-1). Mains run level, drops hang from them; a line that crosses another
// goes over it in a bridge, and a dot is a joint.
func Diagram(given Given, sheet Sheet) View {
	title := "Flow diagram of " + given.Index.Job().Title
	if len(given.Index.Job().Net.Points) == 0 {
		p := board(given, sheet, scene.Point{}, scene.Point{1, 1})
		return p.view(title, scene.Point{}, scene.Point{1, 1}, nil, []string{"There is nothing in the net yet."}, nil)
	}
	f, all := newFlow(given, sheet)
	low, high := scene.Point{all.x0 / cellMetre, all.y0 / cellMetre}, scene.Point{all.x1 / cellMetre, all.y1 / cellMetre}
	c := &charter{planner: board(given, sheet, low, high), flow: f, spots: map[int]scene.Point{}}
	c.grown = min(c.scale/cellMetre, 1.15)
	c.small = c.grown
	c.words = min(max(flowText*c.grown, 2.3), 2.6)
	r := 3.3 * c.grown
	c.measures(gauge{radius: r, band: 0.75 * r, text: min(max(2.9*c.grown, 2.5), 3.4), under: c.words})
	c.trunk()
	outlets := c.drops()
	lines := c.lines()
	dots := c.joints()
	figures := append(c.names(), c.figures()...)
	figures = append(figures, c.styles()...)
	layers := []scene.Layer{
		{ID: "lines", Title: "lines", Items: append(lines, dots...)},
		{ID: "parts", Title: "parts", Items: c.parts},
		{ID: "outlets", Title: "outlets", Items: outlets},
		{ID: "figures", Title: "names and pressures", Items: figures},
	}
	notes := []string{"Not to scale. Symbols after ISO 1219-1; a dot is a joint, a bridge is none; under each outlet stands what hangs there, from the line to the hand."}
	return c.view(title, low, high, layers, notes, []Frame{{Kind: FrameNone, Min: low, Max: high, Origin: low}})
}

// scene is a place of the layout in the scene.
func (c *charter) scene(q scene.Point) scene.Point {
	return scene.Point{q[0] / cellMetre, q[1] / cellMetre}
}

// paper is a place of the layout on paper, in mm.
func (c *charter) paper(q scene.Point) scene.Point { return c.mm(c.scene(q)) }

// trunk places the nodes of the lanes, routes their lines and draws their symbols.
func (c *charter) trunk() {
	f := c.flow
	for i, l := range f.lanes {
		for k, v := range l.nodes {
			if v == f.net.start {
				continue
			}
			at := scene.Point{f.cells[v].x, f.cells[v].y}
			c.spots[v] = at
			if k > 0 && l.nodes[k-1] != f.net.start {
				u := l.nodes[k-1]
				c.route(c.stepRun(u, v), u, scene.Point{f.cells[u].x, f.cells[u].y}, at)
			}
		}
		c.branch(i)
	}
	for _, l := range f.lanes {
		for _, v := range l.nodes {
			if v != f.net.start && f.net.points[v] != nil {
				c.stamp(v, c.spots[v], scene.Point{1, 0}, c.entry(v, l))
				c.asides(v)
			}
		}
	}
}

// stepRun is the run of the step from one node to the next on a lane.
func (c *charter) stepRun(u, v int) *job.Run {
	for _, s := range c.flow.order.next[u] {
		if s.to == v {
			return c.flow.net.edges[s.edge].run
		}
	}
	return nil
}

// branch routes where a lane begins in another and where it ends in one.
func (c *charter) branch(i int) {
	f := c.flow
	l := f.lanes[i]
	first, last := f.cells[l.nodes[0]], f.cells[l.last()]
	var at []scene.Point
	if slices.Contains(f.folds, i) {
		p, left := f.cells[l.from], first.x-first.left-3
		right := f.edgeOf(l.from) + 4
		at = []scene.Point{{p.x, p.y}, {right, p.y}, {right, l.y + l.turn}, {left, l.y + l.turn}, {left, first.y}, {first.x, first.y}}
	} else if l.from >= 0 && l.from != f.net.start {
		p := f.cells[l.from]
		at = []scene.Point{{p.x, p.y}, {p.x, first.y}, {first.x, first.y}}
	}
	if l.to < 0 {
		c.route(f.runOf(l.fromEdge), l.from, at...)
		return
	}
	q := f.cells[l.to]
	end := []scene.Point{{last.x, last.y}, {l.closes, last.y}, {l.closes, q.y}, {q.x, q.y}}
	if l.fromEdge == l.toEdge {
		c.route(f.runOf(l.fromEdge), l.from, append(at, end...)...)
		return
	}
	c.route(f.runOf(l.fromEdge), l.from, at...)
	c.route(f.runOf(l.toEdge), l.last(), end...)
}

func (f *flow) runOf(edge int) *job.Run {
	if edge < 0 {
		return nil
	}
	return f.net.edges[edge].run
}

// route keeps a run's way, without places that repeat.
func (c *charter) route(r *job.Run, from int, at ...scene.Point) {
	if r == nil || len(at) < 2 {
		return
	}
	way := at[:1:1]
	for _, q := range at[1:] {
		if last := way[len(way)-1]; math.Abs(q[0]-last[0])+math.Abs(q[1]-last[1]) > 1e-9 {
			way = append(way, q)
		}
	}
	c.ways = append(c.ways, route{r, from, way})
}

// entry says whether the air of a lane comes into a node by its port "out", which
// turns its symbol about.
func (c *charter) entry(v int, l lane) (about bool) {
	k := slices.Index(l.nodes, v)
	if k < 1 {
		return false
	}
	r := c.stepRun(l.nodes[k-1], v)
	return r != nil && c.portAt(r, v) == "out"
}

func (c *charter) portAt(r *job.Run, v int) string {
	if r.From.Point == c.flow.net.points[v].ID {
		return r.From.Port
	}
	return r.To.Port
}

// stamp draws the symbol of a node and takes its place.
func (c *charter) stamp(v int, at, dir scene.Point, about bool) {
	f := c.flow
	kind := f.net.kinds[v]
	tier, shows := drawnAs(kind)
	if !shows {
		return
	}
	grow := growth(kind) * c.grown
	if about {
		dir = scene.Point{-dir[0], -dir[1]}
	}
	if kind.Has(catalog.Stores) {
		dir = scene.Point{1, 0}
	}
	mirrored := dir[0] < -0.01 || math.Abs(dir[0]) <= 0.01 && dir[1] < 0
	mm := c.paper(at)
	c.field.take(turned(extentOf(kind.Symbol), grow, dir, mirrored).moved(mm))
	c.parts = append(c.parts, c.stamped(fixture{f.net.points[v], kind, tier, mm, dir, "paper"}, mm, dir, grow, mirrored))
}

// asides draws what hangs on a trunk node and leads nowhere: drains down, the rest
// up; a second one stands beside the first.
func (c *charter) asides(v int) {
	f := c.flow
	ups, downs := 0, 0
	for _, u := range f.net.hung[v] {
		if f.net.hang[u] != aside {
			continue
		}
		at, way, n := c.spots[v], 1.0, ups
		if f.drains(u) {
			way, n = -1, downs
			downs++
		} else {
			ups++
		}
		c.aside(v, u, at, float64(n)*5, way)
	}
}

// aside draws one dead end from a node up or down, off to the side.
func (c *charter) aside(v, u int, from scene.Point, off, way float64) {
	f := c.flow
	start := 3.2
	if e := extentOf(f.net.kinds[v].Symbol); f.net.points[v] != nil && f.net.kinds[v].Has(catalog.Stores) {
		start = e.y1*growth(f.net.kinds[v]) + 1.6
	}
	at := scene.Point{from[0] + off, from[1] + way*start}
	c.route(f.net.runBetween(v, u), v, from, scene.Point{from[0] + off, from[1]}, at)
	c.tail(v, u, at, way)
}

// tail draws a dead end from where it begins, its parts one after the other.
func (c *charter) tail(v, u int, at scene.Point, way float64) {
	f := c.flow
	kind := f.net.kinds[u]
	size, grow := extentOf(kind.Symbol), growth(kind)
	_, shows := drawnAs(kind)
	centre, end := at, scene.Point{at[0], at[1] + way*2.2}
	if down, leaf := upright(kind); leaf && shows {
		centre[1] -= size.y0 * grow
		if down {
			centre = scene.Point{at[0], at[1] - size.y1*grow}
		}
		c.stamp(u, centre, scene.Point{1, 0}, false)
	} else if shows {
		half := f.half(u)
		centre[1] += way * half
		end[1] = at[1] + way*(2*half+1.2)
		c.stamp(u, centre, scene.Point{0, way}, false)
	}
	c.spots[u] = centre
	for i, w := range f.net.hung[u] {
		next := scene.Point{end[0] + 4*float64(i), end[1]}
		c.route(f.net.runBetween(u, w), u, centre, next)
		c.tail(u, w, next, way)
	}
}
