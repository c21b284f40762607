package draw

import (
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
