package draw

import (
	"math"
	"slices"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// drops draws every drop of the lanes, its dials in one row along the lane.
func (c *charter) drops() []scene.Item {
	marks := map[job.ID]int{}
	for i, o := range c.job.Outlets {
		marks[o.ID] = i
	}
	var items []scene.Item
	for _, l := range c.flow.lanes {
		for _, v := range l.nodes {
			for _, d := range c.flow.cells[v].columns {
				items = append(items, c.drop(v, d, l.y+l.dials, marks)...)
			}
		}
	}
	return items
}

// drop draws one column: down from the lane through its parts to its dials.
func (c *charter) drop(v int, d column, row float64, marks map[job.ID]int) []scene.Item {
	f := c.flow
	from := c.spots[v]
	x, y := from[0]+d.off, from[1]-3
	// Where the lane's own way goes down, the drop first goes aside.
	way := []scene.Point{from}
	if d.off > 0 {
		way = append(way, scene.Point{from[0], y + 0.2}, scene.Point{x, y + 0.2})
	}
	last := v
	for i, u := range d.nodes {
		half := f.half(u)
		at := scene.Point{x, y - half}
		if i == len(d.nodes)-1 {
			at[1] = row + half + 0.6
		}
		r := f.net.runBetween(last, u)
		c.route(r, last, append(way, at)...)
		c.spots[u] = at
		c.stamp(u, at, scene.Point{0, -1}, r != nil && c.portAt(r, u) == "out")
		c.drips(u, at)
		way, last = []scene.Point{at}, u
		y -= 2*half + 1.2
	}
	outlets := c.given.Index.OutletsAt(f.net.points[last].ID)
	var items []scene.Item
	foot := way[len(way)-1]
	for i, o := range outlets {
		centre := scene.Point{x + float64(i)*f.pitch, row - 1.2 - 3.3}
		lead := []scene.Point{foot, {centre[0], centre[1] + 3.3}}
		if len(d.nodes) == 0 && i == 0 && d.off > 0 {
			lead = []scene.Point{from, way[1], way[2], lead[1]}
		}
		if i > 0 {
			lead = []scene.Point{foot, {foot[0], row}, {centre[0], row}, lead[1]}
		}
		for k := range lead {
			lead[k] = c.scene(lead[k])
		}
		items = append(items, scene.Polyline(string(o.ID), "", scene.Solid(0.25, "ink"), lead...))
		items = append(items, c.outlet(o, marks[o.ID], centre)...)
	}
	return items
}

// drips draws what hangs aside on a drop: out to the left, then down or up.
func (c *charter) drips(u int, at scene.Point) {
	f := c.flow
	n := 0
	for _, w := range f.net.hung[u] {
		if f.net.hang[w] != aside {
			continue
		}
		way := 1.0
		if f.drains(w) {
			way = -1
		}
		out := -(4.8 + 3*float64(n/2))
		if n%2 == 1 {
			out = -out
		}
		n++
		knee := scene.Point{at[0] + out, at[1]}
		next := scene.Point{knee[0], knee[1] + way*0.8}
		c.route(f.net.runBetween(u, w), u, at, knee, next)
		c.tail(u, w, next, way)
	}
}

// outlet draws the dial of one outlet with what hangs there written under it.
func (c *charter) outlet(o *job.Outlet, index int, centre scene.Point) []scene.Item {
	d := c.given.Dials[o.ID]
	t := c.tag(*o, index)
	ink, tone := "ink", "soft"
	if d.Short {
		ink = "alarm"
	}
	if d.InUse {
		tone = ink
	}
	id, at, mm := string(o.ID), c.scene(centre), c.paper(centre)
	r := c.gauge.radius
	c.field.take(around(mm[0], mm[1], 2*r+0.4, 2*r+0.4))
	items := []scene.Item{{ID: id, Title: c.tip(o.ID, "outlet "+t.mark+", "+o.Name), Mark: &scene.Mark{At: at, Parts: c.dialParts(d)}}}
	wide := scene.TextWidth(t.text, c.gauge.text, true)
	room := c.flow.pitch * c.scale / cellMetre
	text, figure := t.text, t.figure
	if wide > room+0.1 {
		text, figure = t.mark, ""
		c.hidden = c.hidden || t.figure != ""
		wide = scene.TextWidth(text, c.gauge.text, true)
	}
	if wide > room+0.2 {
		c.hidden = true
		return items
	}
	base := -r - 0.9 - c.gauge.text*0.8
	if c.working() {
		return append(c.ring(o, t.mark, at), c.below(o, at, -r+1, room)...)
	}
	c.field.take(written(text, c.gauge.text, true, scene.Point{mm[0], mm[1] + base}, "middle").box)
	items = append(items, bold(scene.Words(id, t.mark, at, scene.Point{-wide / 2, base}, c.gauge.text, "start", ink)))
	if figure != "" {
		shift := scene.TextWidth(t.mark+" ", c.gauge.text, true)
		items = append(items, scene.Words(id, figure, at, scene.Point{shift - wide/2, base}, c.gauge.text, "start", tone))
	}
	return append(items, c.below(o, at, base, room)...)
}

// below writes what hangs at an outlet: level lines where drops stand wide, else
// three lines turned upright.
func (c *charter) below(o *job.Outlet, at scene.Point, base, room float64) []scene.Item {
	id := string(o.ID)
	size := c.words
	var items []scene.Item
	if c.flow.pitch > 20 {
		if size > flowText*c.grown*1.35 {
			c.hidden = true
			return nil
		}
		for i, text := range level(c.given, c.sheet, o, (c.flow.pitch-1.5)*c.grown*flowText/size) {
			color := "soft"
			if i == 0 {
				color = "ink"
			}
			items = append(items, scene.Words(id, text, at, scene.Point{0, base - size*1.25*float64(i+1)}, size, "middle", color))
		}
		return items
	}
	_, _, tools := hardware(c.given, c.sheet, o)
	lines := slices.DeleteFunc([]string{o.Name, inShort(c.given, c.sheet, o), tools}, func(s string) bool { return s == "" })
	fit := int(math.Floor(room / (size * 1.15)))
	if fit < 1 {
		c.hidden = true
		return nil
	}
	if fit < len(lines) {
		c.hidden = true
		lines = lines[:fit]
	}
	for i, text := range lines {
		color := "soft"
		if i == 0 {
			color = "ink"
		}
		text = cropped(text, size, turnedFor*c.scale/cellMetre-1)
		x := (float64(i)-float64(len(lines)-1)/2)*size*1.2 + size*0.35
		w := scene.Words(id, text, at, scene.Point{x, base - 1.4}, size, "end", color)
		w.Text.Turn = 90
		items = append(items, w)
	}
	return items
}
