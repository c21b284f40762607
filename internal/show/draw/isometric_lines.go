package draw

import (
	"math"
	"slices"

	"dropleg/internal/show/scene"
)

// piping draws the lines, the nearer over the farther with a gap where they cross.
func (m *isometer) piping() (items []scene.Item, strands []strand) {
	for _, l := range m.lines {
		q := m.pipe(l.run)
		q.width = m.width(l.run)
		items = append(items, m.laid(q, l.course)...)
		mm := make([]scene.Point, len(l.course))
		for k, c := range l.course {
			mm[k] = m.mm(c)
			if k > 0 {
				m.field.draw(mm[k-1], mm[k], q.width/2, 5)
			}
		}
		s := strand{run: l.run, course: mm}
		s.ends[0], s.ends[1] = l.run.From.Point, l.run.To.Point
		strands = append(strands, s)
	}
	return append(items, m.bridges()...), strands
}

// bridges paints what is nearer once more where lines cross, over a gap.
func (m *isometer) bridges() []scene.Item {
	var items []scene.Item
	for _, c := range m.crossings() {
		l := m.lines[c.line]
		q := m.pipe(l.run)
		q.width = m.width(l.run)
		items = append(items, scene.Polyline(q.id, q.title, scene.Stroke{Width: q.width + 1.3, Color: m.ground(c.over[0])}, c.over[:]...))
		if q.known {
			q.ends = [2]float64{q.ends[0] + c.at*(q.ends[1]-q.ends[0]), q.ends[0] + c.at*(q.ends[1]-q.ends[0])}
		}
		items = append(items, m.laid(q, c.over[:])...)
	}
	return items
}

// ground is the colour behind a place: of a floor or of the sheet.
func (m *isometer) ground(at scene.Point) string {
	for _, f := range m.floors {
		if within(f, at) {
			return "floor"
		}
	}
	return "paper"
}

// leg is one straight stretch of a line, for finding crossings.
type leg struct {
	line, k    int
	a, b       scene.Point
	d0, d1     float64
	left, span float64
}

// passing is a short piece of a line that passes before another.
type passing struct {
	line int
	at   float64 // share of the line's length, near enough for its colour
	over [2]scene.Point
}

// crossings finds where lines pass before others. A crossing within a millimetre
// of an end of either is where they meet.
func (m *isometer) crossings() []passing {
	var legs []leg
	for i, l := range m.lines {
		for k := 1; k < len(l.course); k++ {
			a, b := l.course[k-1], l.course[k]
			legs = append(legs, leg{i, k, a, b, l.depth[k-1], l.depth[k], min(a[0], b[0]), math.Abs(a[0] - b[0])})
		}
	}
	slices.SortStableFunc(legs, func(a, b leg) int {
		switch {
		case a.left < b.left:
			return -1
		case a.left > b.left:
			return 1
		}
		return 0
	})
	var out []passing
	for i, p := range legs {
		for _, q := range legs[i+1:] {
			if q.left > p.left+p.span {
				break
			}
			t, u, ok := cutting(p, q)
			if !ok || p.line == q.line || m.endwise(p, t) || m.endwise(q, u) {
				continue
			}
			front, at := p, t
			if q.d0+u*(q.d1-q.d0) > p.d0+t*(p.d1-p.d0) {
				front, at = q, u
			}
			long := math.Hypot(front.b[0]-front.a[0], front.b[1]-front.a[1])
			half := 1.6 / m.scale / long
			out = append(out, passing{
				front.line, (float64(front.k-1) + at) / float64(len(m.lines[front.line].course)-1),
				[2]scene.Point{mix(front.a, front.b, max(at-half, 0)), mix(front.a, front.b, min(at+half, 1))},
			})
		}
	}
	return out
}

// endwise says whether a place is within a millimetre of a leg's end.
func (m *isometer) endwise(p leg, t float64) bool {
	long := math.Hypot(p.b[0]-p.a[0], p.b[1]-p.a[1]) * m.scale
	return min(t, 1-t)*long < 1
}

// cutting is where two legs cut, as shares of each.
func cutting(p, q leg) (t, u float64, ok bool) {
	d, e, w := minus(p.b, p.a), minus(q.b, q.a), minus(q.a, p.a)
	den := d[0]*e[1] - d[1]*e[0]
	if math.Abs(den) < 1e-12 {
		return 0, 0, false
	}
	t, u = (w[0]*e[1]-w[1]*e[0])/den, (w[0]*d[1]-w[1]*d[0])/den
	return t, u, t > 0 && t < 1 && u > 0 && u < 1
}

// heights writes the height over the datum where a line turns from level to
// upright, each height once for a stretch of the drawing.
func (m *isometer) heights() []scene.Item {
	const size, apart = 2.3, 45.0
	type told struct {
		text string
		at   scene.Point
	}
	var done []told
	var items []scene.Item
	for _, l := range m.lines {
		line := m.given.Index.Centreline(l.run)
		for k := 1; k < len(line); k++ {
			a, b := line[k-1], line[k]
			if math.Abs(a[2]-b[2]) < 0.3 || a.Plan().Distance(b.Plan()) > 0.05 {
				continue
			}
			top := a
			if b[2] > a[2] {
				top = b
			}
			text, at := m.sheet.level(top[2]), m.mm(m.seen(top))
			if slices.ContainsFunc(done, func(d told) bool {
				return d.text == text && math.Hypot(d.at[0]-at[0], d.at[1]-at[1]) < apart
			}) {
				continue
			}
			pick := best(&m.field, []label{
				written(text, size, false, scene.Point{at[0], at[1] + 1.6}, "middle"),
				written(text, size, false, scene.Point{at[0] + 1.4, at[1] + 0.8}, "start"),
				written(text, size, false, scene.Point{at[0] - 1.4, at[1] + 0.8}, "end"),
				written(text, size, false, scene.Point{at[0] + 1.4, at[1] - 2.4}, "start"),
				written(text, size, false, scene.Point{at[0] - 1.4, at[1] - 2.4}, "end"),
			})
			if pick.cost > 1 {
				continue
			}
			m.field.take(pick.box)
			done = append(done, told{text, at})
			items = append(items, scene.Words(string(l.run.ID), text, m.metres(pick.at), scene.Point{}, size, pick.anchor, "soft"))
		}
	}
	return items
}
