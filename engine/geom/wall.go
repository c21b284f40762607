package geom

import "math"

// Frame is a straight upright wall as a frame of its own: along it, up it, and
// off its inner face. Seen from inside, along runs from left to right, so the
// room lies on the right of the way from From to To.
type Frame struct {
	From, To Flat
	Floor    float64 // m, height of the wall's foot
}

// Length is the wall's length in metres.
func (f Frame) Length() float64 { return f.From.Distance(f.To) }

// axis is the direction along the wall; x where the wall has no length.
func (f Frame) axis() Flat {
	if l := f.Length(); l > 0 {
		return f.To.Minus(f.From).Times(1 / l)
	}
	return Flat{1, 0}
}

// Normal is the direction off the face, into the room.
func (f Frame) Normal() Flat {
	a := f.axis()
	return Flat{a[1], -a[0]}
}

// Out is the place in space that is along, up and off in metres on the wall.
func (f Frame) Out(along, up, off float64) Point {
	p := f.From.Plus(f.axis().Times(along)).Plus(f.Normal().Times(off))
	return p.At(f.Floor + up)
}

// In is where a place in space lies on the wall: the inverse of Out.
func (f Frame) In(p Point) (along, up, off float64) {
	d := p.Plan().Minus(f.From)
	return d.Dot(f.axis()), p[2] - f.Floor, d.Dot(f.Normal())
}

// Strip is walls unrolled side by side onto one sheet.
type Strip struct {
	Frames []Frame
	Order  []int     // index of each frame in the list given, in walking order
	Start  []float64 // m, where each frame begins on the strip
	Length float64   // m
}

// Unroll puts walls in walking order: from the first one given on to the wall
// whose start lies nearest to the last one's end, each once, the one given
// earlier where two are as near. gap in metres is left where two do not meet.
func Unroll(walls []Frame, gap float64) Strip {
	s := Strip{}
	used := make([]bool, len(walls))
	next := 0
	for range walls {
		f := walls[next]
		used[next] = true
		if n := len(s.Frames); n > 0 && s.Frames[n-1].To.Distance(f.From) > Tiny {
			s.Length += gap
		}
		s.Frames, s.Order, s.Start = append(s.Frames, f), append(s.Order, next), append(s.Start, s.Length)
		s.Length += f.Length()
		best := math.Inf(1)
		for i, w := range walls {
			if d := f.To.Distance(w.From); !used[i] && d < best {
				best, next = d, i
			}
		}
	}
	return s
}

// On is where a place on the i-th frame of the strip lies on the sheet.
func (s Strip) On(i int, along, up float64) Flat {
	if i < 0 || i >= len(s.Frames) {
		return Flat{}
	}
	return Flat{s.Start[i] + along, s.Frames[i].Floor + up}
}

// Nearest is the frame of the strip whose face is nearest to p, and where p
// lies on the sheet; ok is false without walls.
func (s Strip) Nearest(p Point) (i int, at Flat, ok bool) {
	best := math.Inf(1)
	for k, f := range s.Frames {
		h := NearestOnSegment(p.Plan().At(0), f.From.At(0), f.To.At(0))
		if h.Distance < best {
			along, up, _ := f.In(p)
			best, i, at, ok = h.Distance, k, s.On(k, along, up), true
		}
	}
	return i, at, ok
}
