package draw

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// face is a wall as lines see it: its middle line and half its thickness, in metres.
type face struct {
	from, to scene.Point
	half     float64
}

// faces are the walls, or the rooms' outlines where a shop has none drawn.
func (p *planner) faces() []face {
	var all []face
	for _, w := range p.job.Building.Walls {
		all = append(all, face{scene.Point(w.From), scene.Point(w.To), float64(w.Thickness) / 2})
	}
	if len(all) > 0 {
		return all
	}
	for _, r := range p.job.Building.Rooms {
		for i, c := range r.Outline {
			all = append(all, face{scene.Point(c), scene.Point(r.Outline[(i+1)%len(r.Outline)]), 0})
		}
	}
	return all
}

// unheated says whether a zone leaves its lines to the frost.
func (p *planner) unheated(zone job.ID) bool {
	for _, z := range p.job.Building.Zones {
		if z.ID == zone {
			return z.Climate != "heated"
		}
	}
	return false
}

// building draws floors, walls and openings.
func (p *planner) building() []scene.Item {
	b := p.job.Building
	var items []scene.Item
	for _, r := range b.Rooms {
		a := &scene.Area{Points: flats(r.Outline), Fill: "floor", Stroke: &scene.Stroke{Width: 0.2, Color: "wall"}}
		if p.unheated(r.Zone) {
			a.Hatch = "diagonal"
		}
		items = append(items, scene.Item{ID: string(r.ID), Title: p.roomTitle(r), Area: a})
		for i, c := range r.Outline {
			p.field.draw(p.mm(scene.Point(c)), p.mm(scene.Point(r.Outline[(i+1)%len(r.Outline)])), 0.3, 3)
		}
	}
	items = append(items, p.wallItems()...)
	for _, o := range b.Openings {
		for _, w := range b.Walls {
			if w.ID == o.Wall {
				items = append(items, p.opening(o, w)...)
			}
		}
	}
	return items
}

// wallItems draws all walls as one hollow body: every outline first, then every
// inside over them, so that no edge shows where walls meet.
func (p *planner) wallItems() []scene.Item {
	const pen = 0.3
	var edges, insides []scene.Item
	for _, w := range p.job.Building.Walls {
		half := p.wallHalf(w)
		from, to := lengthened(scene.Point(w.From), scene.Point(w.To), half)
		edges = append(edges, scene.Item{Area: &scene.Area{
			Points: band(from, to, half), Fill: "wall", Stroke: &scene.Stroke{Width: 2 * pen, Color: "wall"},
		}})
		insides = append(insides, scene.Item{ID: string(w.ID), Title: p.tip(w.ID, w.Name), Area: &scene.Area{Points: band(from, to, half), Fill: "faint"}})
		p.field.draw(p.mm(scene.Point(w.From)), p.mm(scene.Point(w.To)), half*p.scale, 3)
	}
	return append(edges, insides...)
}

// lengthened draws a wall out by half its thickness at both ends, to close corners.
func lengthened(a, b scene.Point, by float64) (from, to scene.Point) {
	d := math.Hypot(b[0]-a[0], b[1]-a[1])
	if d == 0 {
		return a, b
	}
	x, y := (b[0]-a[0])/d*by, (b[1]-a[1])/d*by
	return scene.Point{a[0] - x, a[1] - y}, scene.Point{b[0] + x, b[1] + y}
}

// wallHalf is half the thickness drawn: the true one, but never finer than a pen.
func (p *planner) wallHalf(w job.Wall) float64 {
	return max(float64(w.Thickness)/2, 0.4/p.scale)
}

// opening clears the wall and draws what stands in it.
func (p *planner) opening(o job.Opening, w job.Wall) []scene.Item {
	from, to := scene.Point(w.From), scene.Point(w.To)
	length := math.Hypot(to[0]-from[0], to[1]-from[1])
	if length == 0 {
		return nil
	}
	half := p.wallHalf(w)
	a, b := mix(from, to, float64(o.Along)/length), mix(from, to, float64(o.Along+o.Width)/length)
	gap := band(a, b, half+0.35/p.scale)
	title := p.tip(o.ID, or(o.Name, o.Kind))
	items := []scene.Item{{ID: string(o.ID), Title: title, Area: &scene.Area{Points: gap, Fill: "floor"}}}
	thin := scene.Stroke{Width: 0.2, Color: "wall"}
	// Jambs close the wall on both sides.
	items = append(items, scene.Polyline("", "", thin, gap[0], gap[3]), scene.Polyline("", "", thin, gap[1], gap[2]))
	switch o.Kind {
	case "door":
		items = append(items, doorLeaf(a, b, float64(o.Width), thin)...)
	case "window":
		items = append(items, scene.Polyline("", "", thin, gap[0], gap[1]), scene.Polyline("", "", thin, gap[3], gap[2]), scene.Polyline("", "", thin, a, b))
	case "gate":
		items = append(items, scene.Polyline("", "", scene.Stroke{Width: 0.3, Color: "soft", Dash: []float64{1.6, 1}}, a, b))
	}
	return items
}

// doorLeaf is the leaf standing open into the room with its swing. The inside
// is to the right of a wall as it runs (walls are drawn left to right seen from inside).
func doorLeaf(hinge, latch scene.Point, width float64, thin scene.Stroke) []scene.Item {
	in := math.Atan2(latch[1]-hinge[1], latch[0]-hinge[0])*180/math.Pi - 90
	sin, cos := math.Sincos(in * math.Pi / 180)
	open := scene.Point{hinge[0] + width*cos, hinge[1] + width*sin}
	return []scene.Item{
		scene.Polyline("", "", thin, hinge, open),
		{Arc: &scene.Arc{Centre: hinge, Radius: width, From: in, To: in + 90, Stroke: scene.Stroke{Width: 0.15, Color: "soft", Dash: []float64{0.8, 0.8}}}},
	}
}

// obstacles draws what lines go round. What hangs overhead is dashed.
func (p *planner) obstacles() []scene.Item {
	var items []scene.Item
	for _, o := range p.job.Building.Obstacles {
		s := scene.Stroke{Width: 0.2, Color: "soft"}
		if o.Bottom > overhead {
			s.Dash = []float64{1.6, 1}
		}
		a := &scene.Area{Points: flats(o.Outline), Fill: "thing", Stroke: &s}
		if o.Kind == "keep-out" || o.Kind == "electrical" {
			a.Hatch = "cross"
		}
		items = append(items, scene.Item{ID: string(o.ID), Title: p.tip(o.ID, or(o.Name, o.Kind)), Area: a})
	}
	return items
}

// overhead is the height in metres above which a thing is over people's heads.
const overhead = unit.Length(2)

func (p *planner) roomTitle(r job.Room) string {
	low, high := bounds(flats(r.Outline))
	title := or(r.Name, "room") + ", " + p.sheet.extent(high[0]-low[0], high[1]-low[1])
	if p.unheated(r.Zone) {
		title += ", unheated"
	}
	return p.tip(r.ID, title)
}

func flats(outline []geom.Flat) []scene.Point {
	out := make([]scene.Point, len(outline))
	for i, c := range outline {
		out[i] = scene.Point(c)
	}
	return out
}

func bounds(points []scene.Point) (low, high scene.Point) {
	if len(points) == 0 {
		return low, high
	}
	s := scene.Scene{Min: points[0], Max: points[0]}
	for _, q := range points {
		s.Grow(q)
	}
	return s.Min, s.Max
}

// band is the strip of a given half width about a segment.
func band(a, b scene.Point, half float64) []scene.Point {
	d := math.Hypot(b[0]-a[0], b[1]-a[1])
	if d == 0 {
		return []scene.Point{a, b}
	}
	nx, ny := -(b[1]-a[1])/d*half, (b[0]-a[0])/d*half
	return []scene.Point{{a[0] + nx, a[1] + ny}, {b[0] + nx, b[1] + ny}, {b[0] - nx, b[1] - ny}, {a[0] - nx, a[1] - ny}}
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}
