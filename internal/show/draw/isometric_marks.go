package draw

import (
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// ring is a place on a drawing that is drawn larger elsewhere, mm.
type ring struct {
	at     scene.Point
	radius float64
	letter string
}

// ringOf is the first ring that a place is in; −1 for none.
func ringOf(rings []ring, q scene.Point) int {
	return slices.IndexFunc(rings, func(r ring) bool { return math.Hypot(q[0]-r.at[0], q[1]-r.at[1]) < r.radius })
}

// circle is a thin circle of a radius in mm.
func circle(radius, width float64) scene.Path {
	return scene.Path{D: path("M-%s 0A%s %s 0 1 0 %s 0A%s %s 0 1 0 -%s 0Z", radius, radius, radius, radius, radius, radius, radius), Stroke: &scene.Stroke{Width: width, Color: "ink"}}
}

// ringed draws the rings with their letters.
func (m *isometer) ringed() []scene.Item {
	const size, steps = 4.2, 24
	var items []scene.Item
	for _, r := range m.rings {
		on := func(deg, radius float64) scene.Point {
			sin, cos := math.Sincos(deg * math.Pi / 180)
			return scene.Point{r.at[0] + radius*cos, r.at[1] + radius*sin}
		}
		var tried []label
		for i, deg := range []float64{45, 135, 315, 225, 0, 180, 90, 270} {
			c := on(deg, r.radius+size*0.75)
			l := written(r.letter, size, true, scene.Point{c[0], c[1] - size*0.35}, "middle")
			l.cost = 0.1 * float64(i)
			tried = append(tried, l)
		}
		pick := best(&m.field, tried)
		m.field.take(pick.box)
		for i := range steps {
			m.field.draw(on(360/steps*float64(i), r.radius), on(360/steps*float64(i+1), r.radius), 0.2, 0.3)
		}
		items = append(items, scene.Item{Title: "detail " + r.letter, Mark: &scene.Mark{At: m.metres(r.at), Parts: []scene.Path{circle(r.radius, 0.3)}}},
			bold(scene.Words("", r.letter, m.metres(pick.at), scene.Point{}, size, "middle", "ink")))
	}
	return items
}

// broken marks the breaks, as ISO 128-2 has them (recalled): two short zigzags across a line, a
// fine one across the edge of a floor or the top of a wall.
func (m *isometer) broken() []scene.Item {
	edges := "M-1.2 -2L-1.8 -0.4L-0.6 0.4L-1.2 2M1.2 -2L0.6 -0.4L1.8 0.4L1.2 2"
	var items []scene.Item
	mark := func(b lineBreak, title string, scale float64, color string) {
		from, to := m.seen(b.leg.a), m.seen(b.leg.b)
		turn := math.Round(math.Atan2(to[1]-from[1], to[0]-from[0])*1800/math.Pi) / 10
		for _, at := range b.at {
			q := m.seen(at)
			gap := scene.Path{D: "M-1.2 0H1.2", Stroke: &scene.Stroke{Width: 3.4 * scale, Color: m.ground(q)}}
			sign := scene.Path{D: scaled(edges, scale, false), Fill: "none", Stroke: &scene.Stroke{Width: 0.3 * scale, Color: color}}
			items = append(items, scene.Item{ID: string(b.run), Title: title, Mark: &scene.Mark{At: q, Turn: turn, Parts: []scene.Path{gap, sign}}})
			m.field.take(around(m.mm(q)[0], m.mm(q)[1], 4*scale, 4.4*scale))
		}
	}
	for _, b := range m.site.faint {
		mark(b, "", 0.55, "soft")
	}
	for _, b := range m.site.breaks {
		mark(b, "broken: longer than drawn", 1, "ink")
	}
	return items
}

// trueWords is what is written at a broken stretch.
func (s Sheet) trueWords(metres float64) string {
	if s.Units == unit.US {
		return "true " + s.dimension(metres)
	}
	return "true " + s.dimension(metres) + " m"
}

// lengths writes at every broken stretch how long it is: along it, else on a plate beside it.
func (m *isometer) lengths() []scene.Item {
	const size = 2.4
	var items []scene.Item
	for _, b := range m.site.breaks {
		text := m.sheet.trueWords(b.leg.true)
		if it, ok := m.lettered(text, string(b.run), m.mm(m.seen(b.leg.a)), m.mm(m.seen(b.leg.b)), size); ok {
			it.Text.Color = "ink"
			items = append(items, it)
			continue
		}
		at := m.mm(m.seen(b.at[0]))
		wide := scene.TextWidth(text, size, false) + 0.6
		c, _, ok := m.free(at, wide, size*1.2, farSeats(), 20)
		if !ok {
			m.unwritten = append(m.unwritten, text)
			continue
		}
		m.field.take(around(c[0], c[1], wide, size*1.2))
		m.field.draw(at, c, 0.1, leaderMinds)
		end := scene.Point{min(max(at[0], c[0]-wide/2), c[0]+wide/2), c[1]}
		items = append(items, scene.Polyline("", "", scene.Solid(0.13, "ink"), m.metres(at), m.metres(end)),
			scene.Words(string(b.run), text, m.metres(c), scene.Point{0, -size * 0.35}, size, "middle", "ink"))
	}
	return items
}

// onwards marks where lines are cut off, and writes where they go on.
func (m *isometer) onwards() []scene.Item {
	const size = 2.6
	var items []scene.Item
	for i, e := range m.site.ends {
		text, ok := m.told[i]
		if !ok {
			continue
		}
		q := m.mm(m.seen(e.at))
		way := minus(m.seen(e.at.Plus(e.way)), m.seen(e.at))
		far := max(math.Hypot(way[0], way[1]), 1e-9)
		dir := scene.Point{way[0] / far, way[1] / far}
		sign := scene.Path{D: "M0 -2.2L-0.6 -0.5L0.6 0.5L0 2.2", Fill: "none", Stroke: &scene.Stroke{Width: 0.3, Color: "ink"}}
		items = append(items, scene.Item{ID: string(e.run), Title: "goes on: " + text, Mark: &scene.Mark{
			At: m.metres(q), Turn: math.Round(math.Atan2(dir[1], dir[0])*1800/math.Pi) / 10, Parts: []scene.Path{sign},
		}})
		m.field.take(around(q[0], q[1], 2.4, 3.4))
		var tried []label
		for k, off := range []scene.Point{{2.2, -size * 0.35}, {-2.2, -size * 0.35}, {0, 2.6}, {0, -2.6 - size*0.75}, {2.2, 1.4}, {-2.2, 1.4}, {2.2, -3.2}, {-2.2, -3.2}} {
			anchor := "middle"
			if off[0] > 0 {
				anchor = "start"
			} else if off[0] < 0 {
				anchor = "end"
			}
			l := written(text, size, true, scene.Point{q[0] + off[0], q[1] + off[1]}, anchor)
			l.cost = 0.05 * float64(k)
			if side := off[0] * dir[0]; side < 0 {
				l.cost += 2 // it would lie over the line
			}
			tried = append(tried, l)
		}
		pick := best(&m.field, tried)
		m.field.take(pick.box)
		items = append(items, bold(scene.Words(string(e.run), text, m.metres(pick.at), scene.Point{}, size, pick.anchor, "ink")))
	}
	return items
}
