package draw

import (
	"math"

	"dropleg/internal/show/scene"
)

// box is a rectangle on paper in mm.
type box struct{ x0, y0, x1, y1 float64 }

func around(x, y, w, h float64) box { return box{x - w/2, y - h/2, x + w/2, y + h/2} }

func (b box) grown(d float64) box { return box{b.x0 - d, b.y0 - d, b.x1 + d, b.y1 + d} }

func (b box) holds(p scene.Point) bool {
	return p[0] >= b.x0 && p[0] <= b.x1 && p[1] >= b.y0 && p[1] <= b.y1
}

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

// extent holds the stroke with its width, and the little beyond its ends that
// counts where a leader crosses it.
func (s stroke) extent() box {
	over := 0.011*(math.Abs(s.q[0]-s.p[0])+math.Abs(s.q[1]-s.p[1])) + s.half
	return box{
		min(s.p[0], s.q[0]) - over, min(s.p[1], s.q[1]) - over,
		max(s.p[0], s.q[0]) + over, max(s.p[1], s.q[1]) + over,
	}
}

// field is what is taken on the paper so far, in mm. Boxes and strokes have a
// number each and may be moved; an empty one is none.
type field struct {
	sheet   box // labels outside it cost dearly
	boxes   []box
	strokes []stroke
	where   grid // of the boxes
	drawn   grid // of the strokes
}

func (f *field) take(b box) {
	f.boxes = append(f.boxes, box{})
	f.move(len(f.boxes)-1, b)
}

// move takes another place for a box.
func (f *field) move(i int, b box) {
	if f.where.cells == nil {
		f.where.over(f.sheet)
	}
	f.boxes[i] = b
	f.where.put(i, b)
}

func (f *field) draw(p, q scene.Point, half, weight float64) {
	f.strokes = append(f.strokes, stroke{})
	f.redraw(len(f.strokes)-1, stroke{p, q, half, weight})
}

// redraw takes another place for a stroke.
func (f *field) redraw(i int, s stroke) {
	if f.drawn.cells == nil {
		f.drawn.over(f.sheet)
	}
	f.strokes[i] = s
	if s == (stroke{}) {
		f.drawn.put(i, box{})
		return
	}
	f.drawn.put(i, s.extent())
}

// cost is how badly a label in b would sit; 0 is free paper.
func (f *field) cost(b box) float64 { return f.costUpTo(b, math.Inf(1)) }

// costUpTo is cost where it is no more than most, else anything above that: what
// loses against a place found already need not be weighed to the end.
func (f *field) costUpTo(b box, most float64) float64 {
	sum := 0.0
	for _, i := range f.where.near(b) {
		if sum += 10 * b.overlap(f.boxes[i]); sum > most {
			return sum
		}
	}
	for _, i := range f.drawn.near(b) {
		s := &f.strokes[i]
		if sum += s.weight * b.grown(s.half).stretch(s.p, s.q); sum > most {
			return sum
		}
	}
	inside := b.overlap(f.sheet)
	sum += 6 * ((b.x1-b.x0)*(b.y1-b.y0) - inside)
	return sum
}

// crossings counts the drawn segments that a leader from p to q cuts through,
// not counting those it starts on.
func (f *field) crossings(p, q scene.Point) float64 {
	sum := 0.0
	for _, i := range f.drawn.near((stroke{p: p, q: q}).extent()) {
		if s := &f.strokes[i]; s.weight >= leaderMinds && cross(p, q, s.p, s.q) {
			sum++
		}
	}
	return sum
}

// over is the length of a leader from p to q over what stands there already, mm; not counting
// what it starts in.
func (f *field) over(p, q scene.Point) float64 {
	sum := 0.0
	for _, i := range f.where.near((stroke{p: p, q: q}).extent()) {
		if b := f.boxes[i]; !b.grown(0.5).holds(p) {
			sum += b.stretch(p, q)
		}
	}
	return sum
}

// lined says whether a line of the net is drawn at a place, or a sign of one.
func (f *field) lined(at scene.Point) bool {
	const near = 1.5 // mm
	b := around(at[0], at[1], 2*near, 2*near)
	for _, i := range f.drawn.near(b) {
		if s := &f.strokes[i]; s.weight >= lineMinds && b.stretch(s.p, s.q) > 0 {
			return true
		}
	}
	for _, i := range f.where.near(b) {
		if f.boxes[i].holds(at) {
			return true
		}
	}
	return false
}

// lineMinds is the weight of a line of the net.
const lineMinds = 5

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
	return writtenWide(scene.TextWidth(text, size, bold), size, at, anchor)
}

// writtenWide is written for a text of a known width.
func writtenWide(w, size float64, at scene.Point, anchor string) label {
	x := at[0]
	switch anchor {
	case "middle":
		x -= w / 2
	case "end":
		x -= w
	}
	return label{box: box{x, at[1] - 0.25*size, x + w, at[1] + 0.8*size}, at: at, anchor: anchor}
}

// slack is more than sums of costs differ by for being rounded on the way.
const slack = 1e-6

// best picks the cheapest; the first wins among equals, so order is preference.
func best(f *field, tried []label) label {
	pick := label{cost: math.Inf(1)}
	for _, t := range tried {
		t.cost += f.costUpTo(t.box.grown(0.5), pick.cost-t.cost+slack)
		if t.cost < pick.cost-1e-9 {
			pick = t
		}
	}
	return pick
}
