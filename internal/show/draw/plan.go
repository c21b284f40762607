package draw

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// View is a drawing with its legend.
type View struct {
	Scene  scene.Scene `json:"scene"`
	Legend []Band      `json:"legend"`
	// Notes say how to read the drawing: what is moved for clearness, what is left out.
	Notes []string `json:"notes"`
	// Frames say how parts of the drawing lie in the shop.
	Frames []Frame `json:"frames"`
}

// planner draws one plan: the sheet's scale, what is taken on it, and the layers.
type planner struct {
	given Given
	job   *job.Job
	sheet Sheet
	scale float64 // mm of paper to the metre
	field field
	ramp  Ramp
	walls []face
	moved bool // some line was moved off its wall to be seen
	// small shrinks dials and symbols on a small sheet, where they would cover the shop.
	small float64
	gauge gauge

	ways       map[job.ID]drop
	dense      bool                    // dials stand so close that words go to their inner side
	onDrop     map[job.ID]bool         // points that are drawn on an outlet's drop
	must       float64                 // what the place for the number of a joint may cost where it has to have one; 0: no more than any
	fine       bool                    // small fittings are shown at a scale at which other drawings leave them to the lists
	hidden     bool                    // some symbol waits for a closer look
	tight      []tight                 // where numbers of joints are crowded
	unnumbered []int                   // joints whose numbers found no room
	straight   map[job.ID][]geom.Point // ways of runs that are drawn with a step at a break, without it
	leaders    []scene.Item
	hung       []scene.Item          // symbols on leaders
	plates     []func() []scene.Item // words that come when everything else has its place
}

// Plan draws the shop from above.
func Plan(given Given, sheet Sheet) View {
	floor, high := extent(given)
	low := withBar(floor, high)
	p := &planner{given: given, job: given.Index.Job(), sheet: sheet, scale: sheet.scaleFor(low, high)}
	p.walls = p.faces()
	area := (high[0] - floor[0]) * (high[1] - floor[1]) * p.scale * p.scale
	rulers := p.rulers(floor, low, high)
	low, high = p.grown(low, high, rulers, floor[1]-low[1])
	p.field.sheet = box{low[0]*p.scale - margin, low[1]*p.scale - margin, high[0]*p.scale + margin, high[1]*p.scale + margin}
	p.small = min(max(p.scale/fullSymbols, leastSymbols), 1)
	p.measures(gaugeFor(p.small, sheet.Width, len(p.job.Outlets), area))
	p.ramp = newRamp(p.pressures(), sheet.Units)

	building := p.building()
	things := p.obstacles()
	lines := p.lines()
	// What has a fixed place is on the field now; what can step aside comes after.
	p.ways = p.drops()
	parts := p.parts()
	outlets := p.outlets()
	parts = append(parts, p.hung...)
	dims := p.dimensions(rulers)
	for _, plate := range p.plates {
		parts = append(parts, plate()...)
	}
	rooms := p.roomWords()
	obstacles := p.obstacleWords()
	figures := p.lineFigures()
	if p.working() {
		figures = append(figures, p.runWords()...)
	}
	view := View{Legend: p.ramp.legend(p.lowest(), sheet), Notes: p.notes(), Frames: planFrames(low, high)}
	view.Scene = scene.Scene{Title: "Plan of " + given.Index.Job().Title, Min: low, Max: high, Layers: []scene.Layer{
		{ID: "building", Title: "building", Items: building},
		{ID: "obstacles", Title: "things in the room", Items: things},
		{ID: "names", Title: "names", Items: append(rooms, obstacles...)},
		{ID: "lines", Title: "lines", Items: lines},
		{ID: "figures", Title: "pressures along the lines", Items: figures},
		{ID: "drops", Title: "drops", Items: p.leaders},
		{ID: "parts", Title: "parts", Items: parts},
		{ID: "outlets", Title: "outlets", Items: outlets},
		{ID: "marks", Title: "scale", Items: p.scaleBar(low)},
	}}
	if len(dims) > 0 {
		view.Scene.Layers = append(view.Scene.Layers, scene.Layer{ID: "dimensions", Title: "dimensions along the walls", Items: dims})
	}
	view.Scene.Layers = withSupports(view.Scene.Layers, p.supports())
	view.Scene.Fill()
	return view
}

// Symbols and dials stand full size from this many mm of paper to the metre, and
// shrink below to no less than this share.
const (
	fullSymbols  = 14
	leastSymbols = 0.38
)

// mm is a place in the shop on paper.
func (p *planner) mm(q scene.Point) scene.Point { return scene.Point{q[0] * p.scale, q[1] * p.scale} }

// metres is a place on paper in the shop.
func (p *planner) metres(q scene.Point) scene.Point {
	return scene.Point{q[0] / p.scale, q[1] / p.scale}
}

// extent holds the building and every point that has a place.
func extent(g Given) (low, high scene.Point) {
	s := scene.Scene{Min: scene.Point{math.Inf(1), math.Inf(1)}, Max: scene.Point{math.Inf(-1), math.Inf(-1)}}
	for _, r := range g.Index.Job().Building.Rooms {
		for _, c := range r.Outline {
			s.Grow(scene.Point(c))
		}
	}
	for _, w := range g.Index.Job().Building.Walls {
		// To both sides by its thickness: which one its body is on does not matter here.
		for _, c := range []scene.Point{scene.Point(w.From), scene.Point(w.To)} {
			s.Grow(scene.Point{c[0] - float64(w.Thickness), c[1] - float64(w.Thickness)})
			s.Grow(scene.Point{c[0] + float64(w.Thickness), c[1] + float64(w.Thickness)})
		}
	}
	for _, pt := range g.Index.Job().Net.Points {
		if at, ok := g.Index.Where(&pt); ok {
			s.Grow(scene.Point{at[0], at[1]})
		}
	}
	if s.Min[0] > s.Max[0] { // nothing is drawn yet: ground to begin a shop on
		s.Min, s.Max = scene.Point{}, scene.Point{16, 10}
	}
	if u := g.Index.Job().Building.Underlay; u != nil {
		s.Grow(scene.Point(u.At[0]))
		s.Grow(scene.Point(u.At[1]))
	}
	return s.Min, s.Max
}

// pressures lists what is known along the lines, in the job's order.
func (p *planner) pressures() []float64 {
	var known []float64
	for _, r := range p.job.Net.Runs {
		if e, ok := p.given.Ends[r.ID]; ok {
			known = append(known, float64(e[0]), float64(e[1]))
		}
	}
	if p.given.Source > 0 && len(known) > 0 {
		known = append(known, float64(p.given.Source))
	}
	return known
}

func (p *planner) lowest() float64 {
	low := math.Inf(1)
	for _, v := range p.pressures() {
		low = min(low, v)
	}
	return low
}

func (p *planner) notes() []string {
	notes := []string{}
	if p.moved {
		notes = append(notes, "Lines along a wall are drawn a little off it; drops are folded down into the room.")
	}
	if p.gauge.bare || p.hidden {
		notes = append(notes, p.closer())
	}
	unplaced := 0
	for _, pt := range p.job.Net.Points {
		if _, ok := p.given.Index.Where(&pt); !ok {
			unplaced++
		}
	}
	if unplaced > 0 {
		notes = append(notes, plural(unplaced, "point has", "points have")+" no place in the room yet and cannot be drawn.")
	}
	return notes
}

func (p *planner) tip(id job.ID, otherwise string) string {
	if t, ok := p.given.Tips[id]; ok {
		return t
	}
	return otherwise
}

// withBar widens an extent downwards for the scale bar: by a share of it, so that
// the extent is the same on every sheet and a closer look stays where it is.
func withBar(low, high scene.Point) scene.Point {
	return scene.Point{low[0], low[1] - 0.05*max(high[1]-low[1], 0.6*(high[0]-low[0]))}
}

// scaleBar draws a bar of a round length, in feet for US units.
func (p *planner) scaleBar(low scene.Point) []scene.Item {
	one, word := 1.0, "m"
	if p.sheet.Units == unit.US {
		one, word = 0.3048, "ft"
	}
	length := one
	for _, c := range []float64{1, 2, 4, 5, 10, 20, 50, 100} {
		if c*one*p.scale <= 48 {
			length = c * one
		}
	}
	y := low[1] + 1.5/p.scale
	at := func(t float64) scene.Point { return scene.Point{low[0] + t*length, y} }
	tick := func(t float64) scene.Item {
		return scene.Item{Mark: &scene.Mark{At: at(t), Parts: []scene.Path{{D: "M0 -0.9V0.9", Stroke: &scene.Stroke{Width: 0.25, Color: "ink"}}}}}
	}
	text := trim(length/one) + " " + word
	return []scene.Item{
		scene.Polyline("", "", scene.Solid(0.25, "ink"), at(0), at(1)),
		scene.Polyline("", "", scene.Solid(0.8, "ink"), at(0), at(0.5)),
		tick(0), tick(0.5), tick(1),
		scene.Words("", text, at(1), scene.Point{1.6, -0.9}, 2.7, "start", "soft"),
	}
}
