package draw

import (
	"dropleg/engine/geom"
	"dropleg/internal/show/scene"
)

// shell draws floors, the tops of walls and their corners, all light; where the drawing cuts
// a floor off it has a match line.
func (m *isometer) shell() []scene.Item {
	var items []scene.Item
	for _, r := range m.job.Building.Rooms {
		var floor []scene.Point
		for _, c := range r.Outline {
			floor = append(floor, m.seen(c.At(float64(r.Floor))))
		}
		m.floors = append(m.floors, floor)
		area := &scene.Area{Points: floor, Fill: "floor", Stroke: &scene.Stroke{Width: 0.25, Color: "soft"}}
		if m.site.window != nil {
			area.Stroke = nil
		}
		items = append(items, scene.Item{ID: string(r.ID), Title: m.tip(r.ID, or(r.Name, "room")), Area: area})
		for i, c := range floor {
			next := (i + 1) % len(floor)
			if m.site.window.edges(r.Outline[i])&m.site.window.edges(r.Outline[next]) != 0 {
				match := scene.Stroke{Width: 0.18, Color: "soft", Dash: []float64{6, 1, 1, 1}}
				items = append(items, scene.Polyline("", "the drawing is cut here", match, c, floor[next]))
				m.field.draw(m.mm(c), m.mm(floor[next]), 0.15, holeMinds)
				continue
			}
			m.field.draw(m.mm(c), m.mm(floor[next]), 0.15, holeMinds)
			if area.Stroke == nil {
				items = append(items, scene.Polyline("", "", scene.Solid(0.25, "soft"), c, floor[next]))
			}
		}
	}
	return append(items, m.upright()...)
}

// upright draws the walls: their tops and corners.
func (m *isometer) upright() []scene.Item {
	var items []scene.Item
	corners := map[[3]int]bool{}
	for i := range m.job.Building.Walls {
		w := &m.job.Building.Walls[i]
		foot, top := float64(w.Floor), float64(w.Floor+w.Height)
		a, b := m.seen(w.From.At(top)), m.seen(w.To.At(top))
		items = append(items, scene.Polyline(string(w.ID), m.tip(w.ID, w.Name), scene.Solid(0.25, "faint"), a, b))
		if len(m.job.Building.Rooms) == 0 {
			items = append(items, scene.Polyline(string(w.ID), m.tip(w.ID, w.Name), scene.Solid(0.25, "soft"), m.seen(w.From.At(foot)), m.seen(w.To.At(foot))))
		}
		for _, c := range []geom.Flat{w.From, w.To} {
			key := millimetres(c.At(0))
			if !corners[key] && m.site.window.edges(c) == 0 {
				corners[key] = true
				items = append(items, scene.Polyline("", "", scene.Solid(0.25, "faint"), m.seen(c.At(foot)), m.seen(c.At(top))))
			}
		}
	}
	return items
}
