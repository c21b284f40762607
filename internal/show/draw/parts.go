package draw

import (
	"math"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// The tiers of symbols: what a plan must show, what it shows where there is
// room, and what waits for a closer look.
const (
	machine = iota // compressor, receiver, dryer, filter, regulator
	shutter        // what can be shut
	fitting        // unions, gauges, drains, flexible links, relief valves
)

// closeUp is the scale in mm of paper to the metre from which fittings are shown.
const closeUp = 20

// tierOf ranks a kind; ok is false for what is the line itself (elbows, tees).
func tierOf(k catalog.Kind) (tier int, ok bool) {
	switch {
	case k.Symbol == "":
		return 0, false
	case k.Has(catalog.Flexes) || k.Has(catalog.Relieves) || k.Group == catalog.Drainage:
		return fitting, true
	case k.Group == catalog.Plant || k.Group == catalog.Treatment:
		return machine, true
	case k.Has(catalog.Isolates):
		return shutter, true
	case k.Group == catalog.Valve || k.Has(catalog.Ends) || k.Has(catalog.Unions):
		return fitting, true
	}
	return 0, false
}

// grow is how much a kind's symbol is enlarged on this sheet: machines are
// looked for first; what sits in a line along a wall must not reach the wall.
func (p *planner) grow(k catalog.Kind) float64 {
	switch {
	case k.Has(catalog.Supplies), k.Has(catalog.Stores):
		return p.small
	case k.Group == catalog.Treatment:
		return 0.68 * p.small
	}
	return 0.62 * p.small
}

// symbolled is a point with the kind whose symbol it shows.
func (p *planner) symbolled(pt *job.Point) (catalog.Kind, int, bool) {
	kind, ok := p.given.Shelf.Kind(pt.Part.Kind)
	if !ok || pt.Part.Kind == "" {
		return kind, 0, false
	}
	tier, ok := tierOf(kind)
	if tier == fitting && p.scale < p.fittingsFrom() {
		p.hidden = true
		return kind, tier, false
	}
	return kind, tier, ok
}

// parts draws what sits in the lines, lined up on them in the order of the air.
// What belongs to an outlet's drop is drawn with its dial.
func (p *planner) parts() []scene.Item {
	var set []seated
	done := map[job.ID]bool{}
	for _, c := range p.chains() {
		var beads []bead
		for _, b := range c.stops {
			kind, tier, ok := p.symbolled(b.point)
			if !ok || done[b.point.ID] || p.onDrop[b.point.ID] {
				continue
			}
			size := extentOf(kind.Symbol)
			b.half, b.tier = (size.x1-size.x0)/2*p.grow(kind), tier
			beads = append(beads, b)
			done[b.point.ID] = true
		}
		low, high := p.reach(c, beads)
		kept, left := lineUp(beads, low, high, 0.4, 9)
		p.hidden = p.hidden || left > 0
		for _, b := range kept {
			at, dir := c.on(b.at)
			if end, _ := c.on(min(max(b.at, 0), c.length())); end != at {
				p.leaders = append(p.leaders, scene.Polyline("", "", scene.Solid(0.35, "ink"), p.metres(end), p.metres(at)))
			}
			set = append(set, seated{b.point, b.tier, at, dir})
		}
	}
	set = append(set, p.lone()...)
	slices.SortStableFunc(set, func(a, b seated) int { return a.tier - b.tier })
	var items []scene.Item
	var plates []func() []scene.Item
	for _, s := range set {
		drawn, plate := p.symbol(s)
		items = append(items, drawn...)
		if plate != nil {
			plates = append(plates, plate)
		}
	}
	p.plates = plates
	return items
}

// reach is how far beyond the ends of a chain machines may stand: a machine over
// its vessel would hide it, and stands beside it if its room has the space.
func (p *planner) reach(c chain, beads []bead) (low, high float64) {
	const step, most = 0.5, 30.0
	free := func(from float64, way float64, half float64) float64 {
		start, _ := c.on(from)
		room := p.roomAt(p.metres(start))
		if room == nil {
			return 0
		}
		for far := 0.0; far < most; far += step {
			if at, _ := c.on(from + way*(far+half+1)); !within(flats(room.Outline), p.metres(at)) {
				return max(far-step, 0)
			}
		}
		return most
	}
	low, high = 0, c.length()
	if n := len(beads); n > 0 {
		if beads[0].tier == machine && beads[0].want < 1 {
			low -= free(0, -1, beads[0].half)
		}
		if beads[n-1].tier == machine && high-beads[n-1].want < 1 {
			high += free(high, 1, beads[n-1].half)
		}
	}
	return low, high
}

// seated is a symbol with its place on paper and the way of the air there.
type seated struct {
	point   *job.Point
	tier    int
	at, dir scene.Point
}

// symbol draws one part where it is seated. A small part that would lie on what
// is there already is left out; a machine moves into its room.
func (p *planner) symbol(s seated) (items []scene.Item, plate func() []scene.Item) {
	kind, _ := p.given.Shelf.Kind(s.point.Part.Kind)
	grow := p.grow(kind)
	size := extentOf(kind.Symbol)
	dir := s.dir
	if kind.Has(catalog.Stores) {
		dir = scene.Point{1, 0} // a vessel lies level, whichever way the air goes
	}
	mirrored := s.tier != fitting && p.wallOnLeft(s.at, dir)
	body := turned(size, grow, dir, mirrored)
	at := s.at
	if s.tier == machine && kind.Group == catalog.Plant {
		at = p.intoRoom(at, body)
	}
	b := body.moved(at)
	if s.tier != machine && p.covered(b) > 0.4 {
		p.hidden = true
		return nil, nil
	}
	p.field.take(b.grown(0.3))
	ink := &scene.Stroke{Width: 0.2 + 0.12*p.small, Color: "ink", Round: true}
	fill := "floor"
	if s.point.Part.Shut {
		fill = "ink" // a valve that stands shut is filled, as on any flow sheet
	}
	angle := math.Round(math.Atan2(dir[1], dir[0])*1800/math.Pi) / 10
	items = append(items, scene.Item{
		ID: string(s.point.ID), Title: p.tip(s.point.ID, or(s.point.Name, kind.Name("en"))),
		Mark: &scene.Mark{At: p.metres(at), Turn: angle, Parts: []scene.Path{{D: scaled(kind.Symbol, grow, mirrored), Fill: fill, Stroke: ink}}},
	})
	if kind.Has(catalog.Flexes) {
		m := items[len(items)-1].Mark
		m.Parts = slices.Insert(m.Parts, 0, bared(kind, grow, "floor"))
	}
	if s.tier == machine {
		plate = func() []scene.Item { return p.plate(*s.point, kind, b) }
	}
	return items, plate
}

// covered is the area in mm² that a box shares with what is drawn already.
func (p *planner) covered(b box) float64 {
	sum := 0.0
	for _, i := range p.field.where.near(b) {
		sum += b.overlap(p.field.boxes[i])
	}
	return sum
}

// wallOnLeft says whether a wall stands close on the left of a way: handles and
// stems then point to the right, into the room.
func (p *planner) wallOnLeft(at, dir scene.Point) bool {
	q := p.metres(at)
	for _, w := range p.walls {
		along, deep := w.seen(q)
		if along < 0 || along > w.length || math.Abs(deep)*p.scale > 2*off+w.thick*p.scale {
			continue
		}
		out := w.into
		if deep < 0 {
			out = scene.Point{-out[0], -out[1]}
		}
		// The left of dir is (-dir[1], dir[0]).
		if left := -dir[1]*out[0] + dir[0]*out[1]; left < -0.5 {
			return true
		}
	}
	return false
}

// intoRoom shifts a box about a place so that it lies within the room there.
func (p *planner) intoRoom(at scene.Point, body box) scene.Point {
	room := p.roomAt(p.metres(at))
	if room == nil {
		return at
	}
	low, high := bounds(flats(room.Outline))
	low, high = p.mm(low), p.mm(high)
	const clear = 0.8
	fit := func(v, b0, b1, l, h float64) float64 {
		if b1-b0 > h-l-2*clear {
			return (l+h)/2 - (b0+b1)/2
		}
		return min(max(v, l+clear-b0), h-clear-b1)
	}
	return scene.Point{fit(at[0], body.x0, body.x1, low[0], high[0]), fit(at[1], body.y0, body.y1, low[1], high[1])}
}

// turned is a symbol's box about its place, turned along a way.
func turned(size box, grow float64, dir scene.Point, mirrored bool) box {
	side := 1.0
	if mirrored {
		side = -1
	}
	out := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, c := range []scene.Point{{size.x0, size.y0}, {size.x0, size.y1}, {size.x1, size.y0}, {size.x1, size.y1}} {
		x, y := c[0]*grow, c[1]*grow*side
		u, v := x*dir[0]-y*dir[1], x*dir[1]+y*dir[0]
		out = box{min(out.x0, u), min(out.y0, v), max(out.x1, u), max(out.y1, v)}
	}
	return out
}

func (b box) moved(by scene.Point) box {
	return box{b.x0 + by[0], b.y0 + by[1], b.x1 + by[0], b.y1 + by[1]}
}

// plate writes what a machine's plate says beside its symbol, where there is room.
func (p *planner) plate(pt job.Point, kind catalog.Kind, b box) []scene.Item {
	text := p.plateWords(pt.Part)
	if text == "" {
		text = or(pt.Name, kind.Name("en"))
	}
	const height = 2.5
	x, y := (b.x0+b.x1)/2, (b.y0+b.y1)/2-height*0.3
	pick := best(&p.field, []label{
		written(text, height, false, scene.Point{b.x1 + 1.2, y}, "start"),
		written(text, height, false, scene.Point{b.x0 - 1.2, y}, "end"),
		written(text, height, false, scene.Point{x, b.y1 + 1.1}, "middle"),
		written(text, height, false, scene.Point{x, b.y0 - height - 0.3}, "middle"),
	})
	if pick.cost > quiet {
		return nil
	}
	p.field.take(pick.box)
	return []scene.Item{scene.Words(string(pt.ID), text, p.metres(pick.at), scene.Point{}, height, pick.anchor, "soft")}
}

// quiet is the cost that a label may have which can be left out: a bench's edge
// may pass behind it, and nothing else.
const quiet = 3

func (p *planner) plateWords(part job.Part) string {
	var words []string
	if c := part.Compressor; c != nil && c.Power != nil {
		words = append(words, p.sheet.plain(unit.KindPower, float64(*c.Power)))
	}
	if part.Volume != nil {
		words = append(words, p.sheet.plain(unit.KindVolume, float64(*part.Volume)))
	}
	if part.Set != nil {
		words = append(words, "set to "+p.sheet.plain(unit.KindGauge, float64(*part.Set)))
	}
	return strings.Join(words, ", ")
}
