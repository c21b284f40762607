package draw

import (
	"math"

	"dropleg/internal/show/scene"
)

// box is a rectangle on paper in mm.
type box struct{ x0, y0, x1, y1 float64 }

func around(x, y, w, h float64) box { return box{x - w/2, y - h/2, x + w/2, y + h/2} }

func (b box) grown(d float64) box { return box{b.x0 - d, b.y0 - d, b.x1 + d, b.y1 + d} }

func (b box) overlap(c box) float64 {
	w := min(b.x1, c.x1) - max(b.x0, c.x0)
	h := min(b.y1, c.y1) - max(b.y0, c.y0)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

// stretch is the length of the segment pq inside b (Liang and Barsky's clip).
func (b box) stretch(p, q scene.Point) float64 {
	t0, t1 := 0.0, 1.0
	d := scene.Point{q[0] - p[0], q[1] - p[1]}
	for _, e := range [4][2]float64{{-d[0], p[0] - b.x0}, {d[0], b.x1 - p[0]}, {-d[1], p[1] - b.y0}, {d[1], b.y1 - p[1]}} {
		switch {
		case e[0] == 0 && e[1] < 0:
			return 0
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		case e[0] > 0:
			t1 = min(t1, e[1]/e[0])
		}
	}
	if t1 <= t0 {
		return 0
	}
	return (t1 - t0) * math.Hypot(d[0], d[1])
}

// stroke is a drawn segment that labels keep off, with how much that matters.
type stroke struct {
	p, q   scene.Point
	half   float64 // half its width in mm
	weight float64
}

// field is what is taken on the paper so far, in mm.
type field struct {
	sheet   box // labels outside it cost dearly
	boxes   []box
	strokes []stroke
}

func (f *field) take(b box) { f.boxes = append(f.boxes, b) }

func (f *field) draw(p, q scene.Point, half, weight float64) {
	f.strokes = append(f.strokes, stroke{p, q, half, weight})
}

// cost is how badly a label in b would sit; 0 is free paper.
func (f *field) cost(b box) float64 {
	sum := 0.0
	for _, t := range f.boxes {
		sum += 10 * b.overlap(t)
	}
	for _, s := range f.strokes {
		sum += s.weight * b.grown(s.half).stretch(s.p, s.q)
	}
	inside := b.overlap(f.sheet)
	sum += 6 * ((b.x1-b.x0)*(b.y1-b.y0) - inside)
	return sum
}

// crossings counts the drawn segments that a leader from p to q cuts through,
// not counting those it starts on.
func (f *field) crossings(p, q scene.Point) float64 {
	sum := 0.0
	for _, s := range f.strokes {
		if s.weight >= leaderMinds && cross(p, q, s.p, s.q) {
			sum++
		}
	}
	return sum
}

// leaderMinds is the weight from which on a segment counts as a line that a
// leader should not cross.
const leaderMinds = 4

// cross says whether two segments cut each other away from the start of the first.
func cross(p, q, a, b scene.Point) bool {
	d := scene.Point{q[0] - p[0], q[1] - p[1]}
	e := scene.Point{b[0] - a[0], b[1] - a[1]}
	den := d[0]*e[1] - d[1]*e[0]
	if math.Abs(den) < 1e-9 {
		return false
	}
	w := scene.Point{a[0] - p[0], a[1] - p[1]}
	t := (w[0]*e[1] - w[1]*e[0]) / den
	u := (w[0]*d[1] - w[1]*d[0]) / den
	return t > 0.08 && t < 1 && u > -0.01 && u < 1.01
}

// label is one place tried for a text: its box and where the text starts.
type label struct {
	box    box
	at     scene.Point // mm, on the baseline
	anchor string
	cost   float64
}

// written gives the box of a text whose baseline starts at at.
func written(text string, size float64, bold bool, at scene.Point, anchor string) label {
	w := scene.TextWidth(text, size, bold)
	x := at[0]
	switch anchor {
	case "middle":
		x -= w / 2
	case "end":
		x -= w
	}
	return label{box: box{x, at[1] - 0.25*size, x + w, at[1] + 0.8*size}, at: at, anchor: anchor}
}

// best picks the cheapest; the first wins among equals, so order is preference.
func best(f *field, tried []label) label {
	pick := label{cost: math.Inf(1)}
	for _, t := range tried {
		t.cost += f.cost(t.box.grown(0.5))
		if t.cost < pick.cost-1e-9 {
			pick = t
		}
	}
	return pick
}
