package draw

import (
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// ruler is a chain of dimensions along a wall, from corner to corner, to scale as all of the
// plan is: a plan has no break lines, they would contradict its scale.
type ruler struct {
	wall    face
	origin  scene.Point // mm, the wall's end that the chain is read from, on the face it stands off
	dir, up scene.Point // the way it is read, and what is above for the reader
	out     scene.Point // off the wall
	marks   []float64   // mm along it, rising, the ends of the wall with them
	told    []tape
	levels  int  // of words that stand beyond the chain because they have no room in it
	inside  bool // it stands in the room
	whole   bool // the length of the wall stands beyond it
	base    float64
	ground  float64 // mm off the face that witness lines begin at
	sum     string  // the length of the whole
}

// tape is the length of a stretch with its place along the chain.
type tape struct {
	text       string
	from, to   float64 // mm along
	middle, at float64 // of the stretch and of its words
	level      int
}

// Measures of a chain in mm: its type, above the line, from row to row.
const (
	rulerType = 2.5
	rulerHigh = 0.8 * rulerType
	rulerRise = 0.7
	rulerRow  = rulerHigh + 1.1
	mostRows  = 4
)

// between is a stretch as it stands in a chain: both ends rounded from the corner, so that a
// chain adds up to its whole.
func (s Sheet) between(a, b float64) string {
	one := 0.01
	if s.Units == unit.US {
		one = 0.0254
	}
	return s.dimension((math.Round(b/one) - math.Round(a/one)) * one)
}

// ruled is the chain of a wall with its stations, standing off one of its faces.
func (p *planner) ruled(w face, along []station, inside bool) *ruler {
	r := &ruler{wall: w, inside: inside, sum: p.sheet.between(0, w.length), out: scene.Point{-w.into[0], -w.into[1]}}
	r.dir = scene.Point{(w.to[0] - w.from[0]) / w.length, (w.to[1] - w.from[1]) / w.length}
	from, thick := p.mm(w.from), w.thick*p.scale
	all := []float64{0}
	for _, s := range along {
		all = append(all, s.along)
	}
	all = append(all, w.length)
	if r.dir[0] < -1e-6 || math.Abs(r.dir[0]) <= 1e-6 && r.dir[1] < 0 {
		r.dir = scene.Point{-r.dir[0], -r.dir[1]} // read from below or from the right
		from = p.mm(w.to)
		slices.Reverse(all)
		for i := range all {
			all[i] = w.length - all[i]
		}
	}
	if inside {
		r.out, thick = w.into, 0
	}
	r.origin = scene.Point{from[0] + thick*r.out[0], from[1] + thick*r.out[1]}
	r.up = scene.Point{-r.dir[1], r.dir[0]}
	for i, a := range all {
		r.marks = append(r.marks, a*p.scale)
		if i > 0 {
			r.told = append(r.told, tape{text: p.sheet.between(all[i-1], a), from: all[i-1] * p.scale, to: a * p.scale, middle: (a + all[i-1]) / 2 * p.scale})
		}
	}
	r.letter()
	r.stand(0)
	return r
}

// letter gives every length its place: in its stretch, or beyond the chain on the first row that
// is free there; one that finds none is left out.
func (r *ruler) letter() {
	var kept []tape
	long, over := r.marks[len(r.marks)-1], 6.0
	if r.inside {
		over = -off - 2.5 // clear of the walls that it ends at, and of lines along them
	}
	var rest []tape
	for i, t := range r.told {
		half := wideOf(t.text) / 2
		if t.at = t.middle; 2*half <= r.marks[i+1]-r.marks[i]-1.2 && t.middle-half >= -over && t.middle+half <= long+over {
			kept = append(kept, t)
		} else {
			rest = append(rest, t)
		}
	}
	within := len(kept)
	for _, t := range rest {
		if t.lift(kept[within:], -over, long+over) {
			kept = append(kept, t)
			r.levels = max(r.levels, t.level)
		}
	}
	r.told = kept
}

func wideOf(text string) float64 { return scene.TextWidth(text, rulerType, false) }

// lift finds a row for words that have no room in their stretch, over the end of their leader.
func (t *tape) lift(others []tape, low, high float64) bool {
	half := wideOf(t.text) / 2
	for level := 1; level <= mostRows; level++ {
		for _, shift := range []float64{0, half - 0.5, 0.5 - half, half + 2, -half - 2} {
			t.at, t.level = t.middle+shift, level
			if t.at-half >= low && t.at+half <= high && !slices.ContainsFunc(others, func(o tape) bool { return t.hits(o) || o.hits(*t) }) {
				return true
			}
		}
	}
	return false
}

// hits says whether words lie on others of their row, or on the leader of some further out.
func (t tape) hits(o tape) bool {
	half := wideOf(t.text)/2 + 0.6
	switch {
	case t.level == o.level:
		return math.Abs(t.at-o.at) < half+wideOf(o.text)/2
	case t.level < o.level:
		return math.Abs(t.at-o.middle) < half
	}
	return false
}

// outward is 1 where words stand on the far side of their line, -1 where towards the wall.
func (r *ruler) outward() float64 {
	if r.up[0]*r.out[0]+r.up[1]*r.out[1] > 0 {
		return 1
	}
	return -1
}

// stand puts the chain so far off its face, at the least as far as its words need.
func (r *ruler) stand(off float64) {
	r.base, r.ground = max(off, 3.2), 0.8
	if r.outward() < 0 {
		r.base = max(off, 1.4+rulerRise+rulerHigh)
	}
	if r.inside {
		r.ground = r.base - 2
	}
}

// top is how far off the face the chain with its words reaches, without the whole.
func (r *ruler) top() float64 {
	if r.outward() > 0 {
		return r.base + rulerRise + rulerHigh + float64(r.levels)*rulerRow
	}
	return r.base + float64(r.levels)*rulerRow + 0.8
}

// beyond is where the whole stands.
func (r *ruler) beyond() float64 {
	if r.outward() > 0 {
		return r.top() + 1.1
	}
	return r.top() + rulerRise + rulerHigh + 0.5
}

// reach is how far off the face all of it reaches.
func (r *ruler) reach() float64 {
	switch {
	case !r.whole:
		return r.top()
	case r.outward() > 0:
		return r.beyond() + rulerRise + rulerHigh
	}
	return r.beyond() + 1
}

// on is a place along the chain and off its face, on paper.
func (r *ruler) on(along, off float64) scene.Point {
	return scene.Point{r.origin[0] + along*r.dir[0] + off*r.out[0], r.origin[1] + along*r.dir[1] + off*r.out[1]}
}

// baseline is how far off the face words stand.
func (r *ruler) baseline(level int) float64 {
	switch {
	case r.outward() > 0:
		return r.base + rulerRise + float64(level)*rulerRow
	case level == 0:
		return r.base - rulerRise
	}
	return r.base + float64(level)*rulerRow + 0.3
}

// bodies are small boxes over the words of the chain, and thin ones along its line.
func (r *ruler) bodies() (words, line []box) {
	for _, t := range r.told {
		words = append(words, slanted(r.on(t.at, r.baseline(t.level)), r.dir, wideOf(t.text), rulerType)...)
	}
	long := r.marks[len(r.marks)-1]
	if r.whole {
		text := wideOf(r.sum)
		off := r.beyond() + r.outward()*rulerRise
		words = append(words, slanted(r.on(long/2, off), r.dir, text, rulerType)...)
	}
	n := max(int(long/3), 1)
	for i := range n {
		c := r.on((float64(i)+0.5)/float64(n)*long, r.base)
		line = append(line, around(c[0], c[1], 2, 2))
	}
	return words, line
}
