package draw

import (
	"math"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// face is a wall as lines see it: its inner face, the direction off it into the
// room, and how far its body reaches behind the face, in metres.
type face struct {
	from, to scene.Point
	into     scene.Point // unit vector into the room
	length   float64
	thick    float64
	id       job.ID
	body     []scene.Point // face from, face to, outer to, outer from
}

// probe is how far off a face a room is looked for on either side, in metres.
const probe = 0.03

// faces are the walls, or the rooms' outlines where a shop has none drawn.
func (p *planner) faces() []face {
	var all []face
	for _, w := range p.job.Building.Walls {
		// Never finer than a pen, or thin sheet would vanish.
		if f, ok := p.face(scene.Point(w.From), scene.Point(w.To), max(float64(w.Thickness), 0.9/p.scale)); ok {
			f.id = w.ID
			all = append(all, f)
		}
	}
	if len(all) == 0 {
		for _, r := range p.job.Building.Rooms {
			for i, c := range r.Outline {
				if f, ok := p.face(scene.Point(c), scene.Point(r.Outline[(i+1)%len(r.Outline)]), 0); ok {
					all = append(all, f)
				}
			}
		}
		return all
	}
	for i := range all {
		all[i].body = body(all, i)
	}
	return all
}

// face orients a wall: a job says that the room is on the right of the way from
// one end to the other, and where a room is on the left only, the room is believed.
func (p *planner) face(from, to scene.Point, thick float64) (face, bool) {
	f := face{from: from, to: to, thick: thick, length: math.Hypot(to[0]-from[0], to[1]-from[1])}
	if f.length == 0 {
		return f, false
	}
	f.into = scene.Point{(to[1] - from[1]) / f.length, -(to[0] - from[0]) / f.length}
	mid := mix(from, to, 0.5)
	if !p.inRoom(mid, f.into, probe) && p.inRoom(mid, f.into, -probe) {
		f.into = scene.Point{-f.into[0], -f.into[1]}
	}
	return f, true
}

// inRoom says whether a place some metres along a direction is in any room.
func (p *planner) inRoom(at, dir scene.Point, by float64) bool {
	return p.roomAt(scene.Point{at[0] + by*dir[0], at[1] + by*dir[1]}) != nil
}

// roomAt is the room over a place of the plan; nil for none.
func (p *planner) roomAt(at scene.Point) *job.Room {
	for i := range p.job.Building.Rooms {
		if r := &p.job.Building.Rooms[i]; within(flats(r.Outline), at) {
			return r
		}
	}
	return nil
}

// within counts how often a ray to the right cuts an outline.
func within(outline []scene.Point, at scene.Point) bool {
	in := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a[1] > at[1]) != (b[1] > at[1]) && at[0] < a[0]+(at[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			in = !in
		}
	}
	return in
}

// body is a wall's outline from its face outwards. Where it meets another wall's
// end, both are cut on the line through the inner and the outer corner.
func body(all []face, i int) []scene.Point {
	w := all[i]
	outer := func(at scene.Point) scene.Point {
		return scene.Point{at[0] - w.into[0]*w.thick, at[1] - w.into[1]*w.thick}
	}
	from, to := outer(w.from), outer(w.to)
	for k, o := range all {
		if k == i {
			continue
		}
		if met(w.from, o) {
			from = outerCorner(w, o, from)
		}
		if met(w.to, o) {
			to = outerCorner(w, o, to)
		}
	}
	return []scene.Point{w.from, w.to, to, from}
}

// met says whether a wall ends at a place.
func met(at scene.Point, o face) bool {
	const reach = 0.01
	return math.Hypot(at[0]-o.from[0], at[1]-o.from[1]) < reach || math.Hypot(at[0]-o.to[0], at[1]-o.to[1]) < reach
}

// outerCorner is where the outer faces of two walls meet; otherwise where they
// run in one line.
func outerCorner(a, b face, otherwise scene.Point) scene.Point {
	det := a.into[0]*b.into[1] - a.into[1]*b.into[0]
	if math.Abs(det) < 0.05 {
		return otherwise
	}
	// into·x = into·from − thick on the outer face of each.
	ca := a.into[0]*a.from[0] + a.into[1]*a.from[1] - a.thick
	cb := b.into[0]*b.from[0] + b.into[1]*b.from[1] - b.thick
	return scene.Point{(ca*b.into[1] - cb*a.into[1]) / det, (a.into[0]*cb - b.into[0]*ca) / det}
}

// wallItems draws all walls as one hollow body: every outline first, then every
// inside over them, so that no edge shows where walls meet or share their place.
func (p *planner) wallItems() []scene.Item {
	const pen = 0.3
	var edges, insides []scene.Item
	for _, f := range p.walls {
		if f.body == nil {
			continue
		}
		wall := p.given.Index.Wall(f.id)
		edges = append(edges, scene.Item{Area: &scene.Area{Points: f.body, Fill: "wall", Stroke: &scene.Stroke{Width: 2 * pen, Color: "wall"}}})
		insides = append(insides, scene.Item{ID: string(f.id), Title: p.tip(f.id, wall.Name), Area: &scene.Area{Points: f.body, Fill: "faint", Stroke: &scene.Stroke{Width: 0.2, Color: "faint"}}})
		mid := func(a, b scene.Point) scene.Point { return p.mm(mix(a, b, 0.5)) }
		p.field.draw(mid(f.body[0], f.body[3]), mid(f.body[1], f.body[2]), f.thick/2*p.scale+pen, wallMinds)
	}
	return append(edges, insides...)
}

// wallMinds is the weight of a wall for labels.
const wallMinds = 3

// opening clears the wall and draws what stands in it.
func (p *planner) opening(o job.Opening, f face) []scene.Item {
	on := func(along, deep float64) scene.Point {
		q := mix(f.from, f.to, along/f.length)
		return scene.Point{q[0] - f.into[0]*deep, q[1] - f.into[1]*deep}
	}
	start, end := float64(o.Along), float64(o.Along+o.Width)
	pen := 0.35 / p.scale // over the wall's edges
	gap := []scene.Point{on(start, -pen), on(end, -pen), on(end, f.thick+pen), on(start, f.thick+pen)}
	items := []scene.Item{{ID: string(o.ID), Title: p.tip(o.ID, or(o.Name, o.Kind)), Area: &scene.Area{Points: gap, Fill: "floor"}}}
	thin := scene.Stroke{Width: 0.2, Color: "wall"}
	across := func(deep float64, s scene.Stroke) scene.Item {
		return scene.Polyline("", "", s, on(start, deep), on(end, deep))
	}
	// Jambs close the wall on both sides.
	items = append(items, scene.Polyline("", "", thin, gap[0], gap[3]), scene.Polyline("", "", thin, gap[1], gap[2]))
	switch o.Kind {
	case "door":
		items = append(items, across(f.thick, scene.Stroke{Width: 0.15, Color: "soft"}))
		items = append(items, doorLeaf(on(start, 0), on(end, 0), f.into, thin)...)
	case "window":
		items = append(items, across(0, thin), across(f.thick, thin), across(f.thick/2, thin))
	case "gate":
		items = append(items, across(f.thick/2, scene.Stroke{Width: 0.3, Color: "soft", Dash: []float64{1.6, 1}}))
	}
	return items
}

// doorLeaf is the leaf standing open into the room with its swing.
func doorLeaf(hinge, latch, into scene.Point, thin scene.Stroke) []scene.Item {
	width := math.Hypot(latch[0]-hinge[0], latch[1]-hinge[1])
	open := scene.Point{hinge[0] + width*into[0], hinge[1] + width*into[1]}
	angle := func(q scene.Point) float64 {
		return math.Atan2(q[1]-hinge[1], q[0]-hinge[0]) * 180 / math.Pi
	}
	from, to := angle(open), angle(latch)
	if math.Mod(to-from+720, 360) > 180 {
		from, to = to, from
	}
	for to < from {
		to += 360
	}
	return []scene.Item{
		scene.Polyline("", "", thin, hinge, open),
		{Arc: &scene.Arc{Centre: hinge, Radius: width, From: from, To: to, Stroke: scene.Stroke{Width: 0.15, Color: "soft", Dash: []float64{0.8, 0.8}}}},
	}
}
