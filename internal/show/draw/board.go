package draw

import (
	"math"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// board is a planner for a drawing of a given extent that is not a plan: with
// scale, sizes of symbols and dials, and the ramp, and no wall to keep lines off.
func board(given Given, sheet Sheet, low, high scene.Point) *planner {
	p := &planner{given: given, job: given.Index.Job(), sheet: sheet, scale: sheet.scaleFor(low, high)}
	p.field.sheet = box{low[0]*p.scale - margin, low[1]*p.scale - margin, high[0]*p.scale + margin, high[1]*p.scale + margin}
	p.small = min(max(p.scale/fullSymbols, leastSymbols), 1)
	p.measures(gaugeFor(p.small, sheet.Width, len(p.job.Outlets), (high[0]-low[0])*(high[1]-low[1])*p.scale*p.scale))
	p.ramp = newRamp(p.pressures(), sheet.Units)
	return p
}

// view puts layers, legend and notes together.
func (p *planner) view(title string, low, high scene.Point, layers []scene.Layer, notes []string, frames []Frame) View {
	if p.hidden {
		notes = append(notes, p.closer())
	}
	v := View{Legend: p.ramp.legend(p.lowest(), p.sheet), Notes: notes, Frames: frames}
	if v.Notes == nil {
		v.Notes = []string{}
	}
	if v.Frames == nil {
		v.Frames = []Frame{}
	}
	v.Scene = scene.Scene{Title: title, Min: low, Max: high, Layers: layers}
	v.Scene.Fill()
	return v
}

// unplaced says how many points cannot be drawn to scale, if there are any.
func (p *planner) unplaced() []string {
	n := 0
	for i := range p.job.Net.Points {
		if _, ok := p.given.Index.Where(&p.job.Net.Points[i]); !ok {
			n++
		}
	}
	if n == 0 {
		return nil
	}
	return []string{plural(n, "point has", "points have") + " no place in the room yet and cannot be drawn here; the flow diagram shows all of the net."}
}

// fixture is a symbol where it is to be drawn.
type fixture struct {
	point   *job.Point
	kind    catalog.Kind
	tier    int
	at, dir scene.Point // mm, and the way of the air
	ground  string      // the colour behind it, where that is not the floor's
}

// lined seats the symbols of chains on them, in the order of the air, each part once.
func (p *planner) lined(chains []chain) []fixture {
	var set []fixture
	done := map[job.ID]bool{}
	for _, c := range chains {
		if len(c.course) < 2 {
			continue
		}
		var beads []bead
		for _, b := range c.stops {
			kind, tier, ok := p.symbolled(b.point)
			if _, apart := drawnAs(kind); !ok || !apart || done[b.point.ID] {
				continue
			}
			size := extentOf(kind.Symbol)
			b.half, b.tier = (size.x1-size.x0)/2*p.grow(kind), tier
			if _, leaf := upright(kind); leaf {
				b.half = 0 // it stands over or under the line's end
			}
			beads = append(beads, b)
			done[b.point.ID] = true
		}
		kept, left := lineUp(beads, 0, c.length(), 0.4, 9)
		p.hidden = p.hidden || left > 0
		for _, b := range kept {
			kind, _ := p.given.Shelf.Kind(b.point.Part.Kind)
			at, dir := c.on(b.at)
			set = append(set, fixture{point: b.point, kind: kind, tier: b.tier, at: at, dir: dir})
		}
	}
	slices.SortStableFunc(set, func(a, b fixture) int { return a.tier - b.tier })
	return set
}

// drawnAs is tierOf for drawings seen from the side, on which a drip leg is seen as
// the line itself, and a gauge is no outlet's.
func drawnAs(k catalog.Kind) (tier int, ok bool) {
	switch {
	case k.Group == catalog.Drainage && !k.Has(catalog.Drains):
		return fitting, false
	case k.Has(catalog.Gauges):
		return fitting, true
	}
	return tierOf(k)
}

// upright says whether a kind has one port that faces up or down: drains hang
// under it, gauges and relief valves stand over it, whichever way a line comes.
func upright(k catalog.Kind) (down, leaf bool) {
	if len(k.Ports) != 1 || math.Abs(k.Ports[0].Toward[2]) < 0.5 {
		return false, false
	}
	return k.Ports[0].Toward[2] > 0, true
}

// fixtures draws symbols upright: a handle or a stem points up, never down. A
// small part that would lie on what is there already is left out.
func (p *planner) fixtures(set []fixture) (items []scene.Item, plates []func() []scene.Item) {
	for _, f := range set {
		grow := p.grow(f.kind)
		size := extentOf(f.kind.Symbol)
		at, dir := f.at, f.dir
		if down, leaf := upright(f.kind); leaf {
			dir = scene.Point{1, 0}
			if down {
				at[1] -= size.y1 * grow
			} else {
				at[1] -= size.y0 * grow
			}
		}
		if f.kind.Has(catalog.Stores) || f.kind.Has(catalog.Supplies) {
			dir = scene.Point{1, 0}
		}
		mirrored := dir[0] < -0.01 || math.Abs(dir[0]) <= 0.01 && dir[1] < 0
		b := turned(size, grow, dir, mirrored).moved(at)
		if f.tier != machine && p.covered(b) > 0.4*max((b.x1-b.x0)*(b.y1-b.y0)/8, 1) {
			p.hidden = true
			continue
		}
		p.field.take(b.grown(0.3))
		items = append(items, p.stamped(f, at, dir, grow, mirrored))
		if f.tier == machine {
			plates = append(plates, func() []scene.Item { return p.plate(*f.point, f.kind, b) })
		}
	}
	return items, plates
}

// stamped is the symbol of a part at a place on paper.
func (p *planner) stamped(f fixture, at, dir scene.Point, grow float64, mirrored bool) scene.Item {
	ink := &scene.Stroke{Width: 0.2 + 0.12*p.small, Color: "ink", Round: true}
	fill := "floor"
	if f.point.Part.Shut {
		fill = "ink"
	}
	angle := math.Round(math.Atan2(dir[1], dir[0])*1800/math.Pi) / 10
	m := &scene.Mark{At: p.metres(at), Turn: angle}
	if f.kind.Has(catalog.Flexes) {
		m.Parts = append(m.Parts, bared(f.kind, grow, or(f.ground, "floor")))
	}
	m.Parts = append(m.Parts, scene.Path{D: scaled(f.kind.Symbol, grow, mirrored), Fill: fill, Stroke: ink})
	return scene.Item{ID: string(f.point.ID), Title: p.tip(f.point.ID, or(f.point.Name, f.kind.Name("en"))), Mark: m}
}

// bared wipes the straight line from under the symbol of a flexible one.
func bared(k catalog.Kind, grow float64, ground string) scene.Path {
	size := extentOf(k.Symbol)
	return scene.Path{D: path("M%s 0H%s", size.x0*grow, size.x1*grow), Stroke: &scene.Stroke{Width: 2.6, Color: ground}}
}
