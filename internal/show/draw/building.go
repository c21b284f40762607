package draw

import (
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

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
			p.field.draw(p.mm(scene.Point(c)), p.mm(scene.Point(r.Outline[(i+1)%len(r.Outline)])), 0.3, wallMinds)
		}
	}
	items = append(items, p.wallItems()...)
	for _, o := range b.Openings {
		for _, f := range p.walls {
			if f.id == o.Wall {
				items = append(items, p.opening(o, f)...)
			}
		}
	}
	return items
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
		for i, c := range a.Points {
			p.field.draw(p.mm(c), p.mm(a.Points[(i+1)%len(a.Points)]), 0.1, edgeMinds)
		}
	}
	return items
}

// edgeMinds is the weight of a bench's edge: it may pass behind a label, but need not.
const edgeMinds = 0.1

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

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}
