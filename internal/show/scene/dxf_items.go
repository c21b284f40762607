package scene

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// colours of the roles by the index of DXF: 7 is black on white and white on black.
var dxfColors = map[string]int{"faint": 9, "soft": 8, "thing": 9, "accent": 1, "alarm": 1, "good": 3}

func (p *dxfWriter) item(it *Item) {
	switch {
	case !it.places():
	case it.Line != nil:
		p.polyline(it.Line.Points, false, &it.Line.Stroke)
	case it.Area != nil:
		p.area(it.Area)
	case it.Arc != nil:
		p.arc(it.Arc)
	case it.Text != nil:
		t := it.Text
		p.words(t.At, t.Offset, t.Size, t.Turn, t.Anchor, t.Color, t.Text)
	case it.Mark != nil:
		p.mark(it.Mark)
	}
}

// style is layer, line type and colour of an entity.
func (p *dxfWriter) style(color string, dash []float64) {
	p.pair(8, p.layer)
	if i := slices.Index(p.dashes, dashName(dash)); len(dash) > 0 && i >= 0 {
		p.pair(6, "DASH"+strconv.Itoa(i+1))
	}
	n, ok := dxfColors[color]
	if !ok {
		n = 7
	}
	p.pair(62, n)
}

func (p *dxfWriter) polyline(points []Point, closed bool, s *Stroke) {
	if s == nil || s.Color == "none" || len(points) < 2 {
		return
	}
	flags := 0
	if closed {
		flags = 1
	}
	p.pair(0, "POLYLINE")
	p.style(s.Color, s.Dash)
	p.pairs(66, 1, 10, 0.0, 20, 0.0, 30, 0.0, 70, flags, 40, s.Width*p.perMM, 41, s.Width*p.perMM)
	for _, q := range points {
		p.pairs(0, "VERTEX", 8, p.layer, 10, q[0]*unitsPerMetre, 20, q[1]*unitsPerMetre, 30, 0.0)
	}
	p.pairs(0, "SEQEND", 8, p.layer)
}

func (p *dxfWriter) area(a *Area) {
	p.polyline(a.Points, true, a.Stroke)
	if a.Hatch == "" {
		return
	}
	for _, falling := range hatchWays(a.Hatch) {
		for _, s := range hatch(a.Points, hatchStep*p.perMM/unitsPerMetre, falling) {
			p.pair(0, "LINE")
			p.style("faint", nil)
			p.pairs(10, s[0][0]*unitsPerMetre, 20, s[0][1]*unitsPerMetre, 30, 0.0, 11, s[1][0]*unitsPerMetre, 21, s[1][1]*unitsPerMetre, 31, 0.0)
		}
	}
}

func (p *dxfWriter) arc(a *Arc) {
	if a.Stroke.Color == "none" || a.Radius <= 0 {
		return
	}
	p.pair(0, "ARC")
	p.style(a.Stroke.Color, a.Stroke.Dash)
	p.pairs(10, a.Centre[0]*unitsPerMetre, 20, a.Centre[1]*unitsPerMetre, 30, 0.0, 40, a.Radius*unitsPerMetre, 50, a.From, 51, a.To)
}

// words is a text; capitals of most faces are 0.7 of the size that the scene speaks of.
func (p *dxfWriter) words(at, offset Point, size, turn float64, anchor, color, text string) {
	k := p.perMM / unitsPerMetre
	place := Point{at[0] + offset[0]*k, at[1] + offset[1]*k}
	if text == "" || size <= 0 {
		return
	}
	p.pair(0, "TEXT")
	p.style(color, nil)
	x, y := place[0]*unitsPerMetre, place[1]*unitsPerMetre
	p.pairs(10, x, 20, y, 30, 0.0, 40, 0.7*size*p.perMM, 1, escaped(text))
	if turn != 0 {
		p.pair(50, turn)
	}
	if side := slices.Index([]string{"start", "middle", "end"}, anchor); side > 0 {
		p.pairs(72, side, 11, x, 21, y, 31, 0.0)
	}
}

// escaped writes signs beyond ASCII as release 12 readers take them, and no controls.
func escaped(text string) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r < ' ' || r == 0x7f:
			b.WriteByte(' ')
		case r > 0xffff:
			b.WriteByte('?')
		case r > 0x7e:
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

func (p *dxfWriter) mark(m *Mark) {
	k := p.perMM / unitsPerMetre
	for _, part := range m.Parts {
		stroke := part.Stroke
		if stroke == nil { // a filled sign without an edge: its outline tells where it is
			edge := Solid(0, part.Fill)
			stroke = &edge
		}
		for _, s := range outlines(part.D, chordal) {
			for i, q := range s.points {
				q = turn(q, m.Turn)
				s.points[i] = Point{m.At[0] + q[0]*k, m.At[1] + q[1]*k}
			}
			p.polyline(s.points, s.closed, stroke)
		}
	}
}
