package draw

import (
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// rect is an upright rectangle on a panel.
func (p *panel) rect(along0, up0, along1, up1 float64) []scene.Point {
	return []scene.Point{p.on(along0, up0), p.on(along1, up0), p.on(along1, up1), p.on(along0, up1)}
}

// sides draws the panels: the wall, the void over a tiled ceiling, ceiling, floor
// and corners.
func (e *elevator) sides() []scene.Item {
	var items []scene.Item
	for i := range e.panels {
		p := &e.panels[i]
		id, title := "", p.name
		if len(p.walls) > 0 {
			id = string(p.walls[0].wall.ID)
			title = e.tip(p.walls[0].wall.ID, p.name)
		}
		items = append(items, scene.Item{ID: id, Title: title, Area: &scene.Area{Points: p.rect(0, 0, p.long, e.ceiling), Fill: "floor"}})
		for _, s := range p.walls[min(1, len(p.walls)):] {
			low, high := s.span(p.long)
			items = append(items, scene.Item{ID: string(s.wall.ID), Title: e.tip(s.wall.ID, s.wall.Name), Area: &scene.Area{Points: p.rect(low, 0, high, e.ceiling), Fill: "floor"}})
		}
		if e.top > e.ceiling+0.01 {
			items = append(items, scene.Item{Title: "void over the ceiling", Area: &scene.Area{Points: p.rect(0, e.ceiling, p.long, e.top), Fill: "thing", Hatch: "diagonal"}})
		}
		items = append(items, e.edges(i)...)
	}
	return items
}

// edges draws floor, ceiling and corners of a panel, the floor heavy.
func (e *elevator) edges(i int) []scene.Item {
	p := &e.panels[i]
	line := func(width float64, color string, dash []float64, a, b scene.Point) scene.Item {
		e.field.draw(e.mm(a), e.mm(b), width/2, wallMinds)
		return scene.Polyline("", "", scene.Stroke{Width: width, Color: color, Dash: dash}, a, b)
	}
	var dash []float64
	if p.bare {
		dash = []float64{2, 1}
	}
	items := []scene.Item{
		line(0.25, "wall", dash, p.on(0, e.ceiling), p.on(p.long, e.ceiling)),
		line(0.25, "wall", dash, p.on(0, 0), p.on(0, e.top)),
		line(0.25, "wall", dash, p.on(p.long, 0), p.on(p.long, e.top)),
		line(0.6, "wall", nil, p.on(0, 0), p.on(p.long, 0)),
	}
	if e.top > e.ceiling+0.01 {
		items = append(items, line(0.25, "wall", nil, p.on(0, e.top), p.on(p.long, e.top)))
	}
	return items
}

// openings draws what stands in the walls.
func (e *elevator) openings() []scene.Item {
	var items []scene.Item
	for i := range e.panels {
		p := &e.panels[i]
		for _, s := range p.walls {
			for _, o := range e.job.Building.Openings {
				if o.Wall == s.wall.ID {
					items = append(items, e.hole(p, s, o)...)
				}
			}
		}
	}
	return items
}

// holeMinds is the weight of the edge of an opening for labels.
const holeMinds = 0.6

// hole is one opening as it is seen from the room.
func (e *elevator) hole(p *panel, s stand, o job.Opening) []scene.Item {
	sign := 1.0
	if s.flip {
		sign = -1
	}
	a, b := s.from+sign*float64(o.Along), s.from+sign*float64(o.Along+o.Width)
	near, far := max(min(a, b), 0), min(max(a, b), p.long)
	foot := float64(s.wall.Floor) - p.Floor
	low, high := max(foot+float64(o.Sill), 0), min(foot+float64(o.Sill+o.Height), e.top)
	if far-near < 0.01 || high-low < 0.01 {
		return nil
	}
	thin := scene.Stroke{Width: 0.2, Color: "wall"}
	soft := scene.Stroke{Width: 0.13, Color: "soft"}
	frame := &scene.Area{Points: p.rect(near, low, far, high), Fill: "paper", Stroke: &thin}
	items := []scene.Item{{ID: string(o.ID), Title: e.tip(o.ID, or(o.Name, o.Kind)), Area: frame}}
	for k, c := range frame.Points {
		e.field.draw(e.mm(c), e.mm(frame.Points[(k+1)%4]), 0.15, holeMinds)
	}
	line := func(a, b scene.Point) { items = append(items, scene.Polyline(string(o.ID), "", soft, a, b)) }
	switch o.Kind {
	case "door":
		// The two strokes meet on the hinge's side, at the opening's start.
		hinge, latch := near, far
		if s.flip {
			hinge, latch = far, near
		}
		line(p.on(latch, high), p.on(hinge, (low+high)/2))
		line(p.on(hinge, (low+high)/2), p.on(latch, low))
	case "window":
		line(p.on((near+far)/2, low), p.on((near+far)/2, high))
		in := min(0.06, (far-near)/6, (high-low)/6)
		items = append(items, scene.Item{Area: &scene.Area{Points: p.rect(near+in, low+in, far-in, high-in), Stroke: &soft}})
	case "gate":
		for k := 1; k < 5; k++ {
			up := low + (high-low)*float64(k)/5
			line(p.on(near, up), p.on(far, up))
		}
	case "gap":
		frame.Stroke = &scene.Stroke{Width: 0.2, Color: "wall", Dash: []float64{1.6, 1}}
	}
	return items
}

// beforeWall is how near to a wall's face an obstacle stands that is drawn with it.
const beforeWall = unit.Length(1)

// obstacles draws the outlines of what stands before the walls, light.
func (e *elevator) obstacles() []scene.Item {
	var items []scene.Item
	for i := range e.panels {
		for k := range e.job.Building.Obstacles {
			o := &e.job.Building.Obstacles[k]
			points, ok := e.shadow(i, o)
			if !ok {
				continue
			}
			a := &scene.Area{Points: points, Fill: "thing", Stroke: &scene.Stroke{Width: 0.15, Color: "soft"}}
			if o.Bottom > overhead {
				a.Fill, a.Stroke.Dash = "", []float64{1.6, 1}
			}
			if o.Kind == "keep-out" || o.Kind == "electrical" {
				a.Hatch = "cross"
			}
			items = append(items, scene.Item{ID: string(o.ID), Title: e.tip(o.ID, or(o.Name, o.Kind)), Area: a})
			for m, c := range points {
				e.field.draw(e.mm(c), e.mm(points[(m+1)%len(points)]), 0.1, edgeMinds)
			}
		}
	}
	return items
}

// shadow is the outline of an obstacle on a panel that it stands before.
func (e *elevator) shadow(i int, o *job.Obstacle) ([]scene.Point, bool) {
	p := &e.panels[i]
	low, high, ok := p.before(*o, beforeWall)
	if !ok || !finite(low) || !finite(high) {
		return nil, false
	}
	bottom, top := max(float64(o.Bottom)-p.Floor, 0), min(float64(o.Top)-p.Floor, e.top)
	if top-bottom < 0.01 {
		return nil, false
	}
	return p.rect(low, bottom, high, top), true
}

// obstacleNames writes names into the outlines where they fit.
func (e *elevator) obstacleNames() []scene.Item {
	const size = 2.4
	var items []scene.Item
	for i := range e.panels {
		for k := range e.job.Building.Obstacles {
			o := &e.job.Building.Obstacles[k]
			points, ok := e.shadow(i, o)
			if !ok {
				continue
			}
			low, high := e.mm(points[0]), e.mm(points[2])
			text := or(o.Name, o.Kind)
			if scene.TextWidth(text, size, false) > high[0]-low[0]-1 || high[1]-low[1] < size {
				continue
			}
			var tried []label
			for n, t := range []float64{0.5, 0.3, 0.7, 0.15, 0.85} {
				l := written(text, size, false, scene.Point{(low[0] + high[0]) / 2, low[1] + t*(high[1]-low[1]) - size*0.3}, "middle")
				l.cost = 0.2 * float64(n)
				tried = append(tried, l)
			}
			if pick := best(&e.field, tried); pick.cost <= quiet {
				e.field.take(pick.box)
				items = append(items, scene.Words(string(o.ID), text, e.metres(pick.at), scene.Point{}, size, "middle", "soft"))
			}
		}
	}
	return items
}

// dimensions draws, under each panel, where its drops come down, its length and
// its name, and the height at the left of each row.
func (e *elevator) dimensions() []scene.Item {
	var items []scene.Item
	for i := range e.panels {
		p := &e.panels[i]
		feet := []float64{0, p.long}
		for k := range e.job.Outlets {
			at, ok := e.place(e.job.Outlets[k].Point)
			if on, known := e.shownOn[e.job.Outlets[k].Point]; ok && known && on == i {
				along, _, _ := p.In(at)
				feet = append(feet, min(max(along, 0), p.long))
			}
		}
		slices.Sort(feet)
		row := -4.5 / e.scale
		if len(feet) > 2 {
			for k := 1; k < len(feet); k++ {
				items = append(items, e.measured(p.on(feet[k-1], row), p.on(feet[k], row), false)...)
			}
			row -= 4.6 / e.scale
		}
		items = append(items, e.measured(p.on(0, row), p.on(p.long, row), false)...)
		items = append(items, e.title(p, row)...)
		if i == 0 || p.at[1] != e.panels[i-1].at[1] {
			left := -4 / e.scale
			items = append(items, e.measured(p.on(left, 0), p.on(left, e.ceiling), true)...)
		}
	}
	return items
}

// title writes a panel's name under it.
func (e *elevator) title(p *panel, row float64) []scene.Item {
	const size = 2.9
	id := ""
	if len(p.walls) > 0 {
		id = string(p.walls[0].wall.ID)
	}
	at := e.mm(p.on(p.long/2, row))
	at[1] -= 4.4
	l := written(p.name, size, false, at, "middle")
	if l.box.x1-l.box.x0 > p.long*e.scale {
		return nil // the panel's own title tells
	}
	e.field.take(l.box)
	return []scene.Item{scene.Words(id, p.name, e.metres(at), scene.Point{}, size, "middle", "soft")}
}

// measured is a dimension line with its ticks and its length over it, left out
// where the length finds no room.
func (e *elevator) measured(a, b scene.Point, upright bool) []scene.Item {
	const size = 2.2
	length := b[0] - a[0]
	turn, off := 0.0, scene.Point{0, 0.7}
	if upright {
		length, turn, off = b[1]-a[1], 90, scene.Point{-0.7, 0}
	}
	text := e.sheet.dimension(length)
	tick := func(at scene.Point) scene.Item {
		return scene.Item{Mark: &scene.Mark{At: at, Parts: []scene.Path{{D: "M-0.8 -0.8L0.8 0.8", Stroke: &scene.Stroke{Width: 0.25, Color: "soft"}}}}}
	}
	items := []scene.Item{scene.Polyline("", "", scene.Solid(0.13, "soft"), a, b), tick(a), tick(b)}
	e.field.draw(e.mm(a), e.mm(b), 1.6, wallMinds)
	if scene.TextWidth(text, size, false) > length*e.scale-1 {
		return items
	}
	w := scene.Words("", text, mix(a, b, 0.5), off, size, "middle", "soft")
	w.Text.Turn = turn
	return append(items, w)
}
