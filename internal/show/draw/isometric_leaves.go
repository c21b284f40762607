package draw

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/show/scene"
)

// IsometricLeaf is one leaf of an isometric drawing to build from. One unit of its scene is one
// mm of paper.
type IsometricLeaf struct {
	Scene scene.Scene
	Title string // of a part; "" where the whole has room
	Whole bool   // the shop is on it as it is, and the signs are not
	Says  IsometricSays
	// Left are the joints and true lengths that found no room.
	Left []string
}

// IsometricSays is what signs have to say of a drawing.
type IsometricSays struct {
	Broken bool // lines are drawn shorter than they are
	Parted bool // lines go on on other leaves
	Rings  bool // places are drawn larger
}

// IsometricPaper is the paper that an isometric drawing is laid out for.
type IsometricPaper struct {
	Whole, Open Sheet   // the room on a leaf with its signs under it, and with them on it
	Most        float64 // mm of paper to the metre, no more
	Working     float64 // and no less, if parts help
	// Signs are what explains it, for a corner of its first leaf; in mm.
	Signs func(IsometricSays) scene.Scene
}

// leafer is what the leaves of one shop are made of.
type leafer struct {
	given  Given
	paper  IsometricPaper
	sheet  Sheet // its size is the room on a leaf, mm
	parts  []shopPart
	letter int // of the next ring
	spilt  []inset
	across [2][]float64 // where lines run along the other axis of the plan
}

// shopPart is what stands on one leaf.
type shopPart struct {
	own   window
	seen  window // what of it is drawn
	site  site   // as it is
	drawn site   // as it is drawn
	scale float64
	told  map[int]string
}

// IsometricLeaves draws the whole piping on leaves. A shop that has room is drawn whole and as it
// is; else what is only straight line is drawn shorter where that helps, and then the shop comes
// in parts. What is crowded is drawn larger beside it.
func IsometricLeaves(given Given, paper IsometricPaper) []IsometricLeaf {
	l := &leafer{given: given, paper: paper, sheet: paper.Whole}
	if whole := (site{given: given}); l.fit(whole) >= paper.Working {
		l.parts = []shopPart{{own: everywhere(), site: whole, drawn: whole, scale: l.fit(whole)}}
		leaf := l.leaf(0, nil)
		leaf.Whole = true
		return append([]IsometricLeaf{leaf}, l.rest()...)
	}
	l.sheet = paper.Open
	l.split()
	l.tell()
	says := IsometricSays{Parted: len(l.parts) > 1, Rings: true}
	for i := range l.parts {
		says.Broken = says.Broken || l.parts[i].drawn.short
	}
	signs := paper.Signs(says)
	more := []inset{{layers: signs.Layers, box: box{signs.Min[0], signs.Min[1], signs.Max[0], signs.Max[1]}, ring: scene.Point{-1e4, -1e4}, first: true}}
	leaves := make([]IsometricLeaf, 0, len(l.parts))
	for i := range l.parts {
		leaf := l.leaf(i, more)
		leaves, more = append(leaves, leaf), nil
	}
	return append(leaves, l.rest()...)
}

// mostParts is how many leaves a shop is shared among at most; a vast one takes a smaller scale.
const mostParts = 30

// split shares the shop among leaves until each part can be worked from.
func (l *leafer) split() {
	l.parts = []shopPart{l.part(everywhere(), true)}
	var lines standing
	_, legs := l.parts[0].standing()
	for _, g := range legs {
		lines.line(g.a, g.b)
	}
	for k := range 2 {
		l.across[k] = slices.Compact(slices.Sorted(slices.Values(lines[k].across)))
	}
	if l.parts[0].scale >= l.paper.Working || l.slice() {
		return
	}
	for done := map[window]bool{}; len(l.parts) < mostParts; {
		worst := -1
		for i, p := range l.parts {
			if p.scale < l.paper.Working && !done[p.own] && (worst < 0 || p.scale < l.parts[worst].scale) {
				worst = i
			}
		}
		if worst < 0 {
			return
		}
		own := l.parts[worst].own
		a, b, ok := l.halves(&l.parts[worst])
		if !ok {
			done[own] = true
			continue
		}
		two := []shopPart{l.part(a, false), l.part(b, false)}
		l.parts = append(l.parts[:worst:worst], append(two, l.parts[worst+1:]...)...)
	}
}

// tail is how far a line is drawn on past the last thing of a part, m.
func (l *leafer) tail() float64 { return 9 / l.paper.Working }

// part is what lies in a window, drawn as large as it may be: as it is if that is enough to work
// from, or if there is little to be had by drawing it shorter.
func (l *leafer) part(own window, whole bool) shopPart {
	p := shopPart{own: own, seen: own, site: site{given: l.given}}
	if !whole {
		p.seen = l.reach(own)
		p.site = p.site.within(parted{own, p.seen})
		p.site.window = &p.seen
	}
	p.drawn, p.scale = p.site, l.fit(p.site)
	if p.scale >= l.paper.Working {
		return p
	}
	k, unbroken := l.paper.Working, p.scale
	for range 6 {
		f := plotted(p.site.given, k)
		if len(f[0].slabs)+len(f[1].slabs) == 0 {
			break
		}
		short := p.site.moved(&f)
		next := l.fit(short)
		if next >= worthBreaks*unbroken && next > p.scale {
			p.drawn, p.scale = short, next
		}
		if next >= l.paper.Working {
			break // it need be no larger
		}
		if math.Abs(next/k-1) < 0.01 {
			break
		}
		k = (k + next) / 2
	}
	return p
}

// worthBreaks is how much larger a drawing must come out for its lines to be broken.
const worthBreaks = 1.1

// fit is the scale at which a site has room on a leaf.
func (l *leafer) fit(s site) float64 {
	m := &isometer{eye: geom.Isometric(0)}
	low, high := m.extent(s.given)
	return min(l.sheet.Width/max(high[0]-low[0], 0.1), l.sheet.Height/max(high[1]-low[1], 0.1), l.paper.Most)
}

// reach is how much of a part's window is drawn: what stands in it, and lines a little farther.
func (l *leafer) reach(own window) window {
	far := math.Inf(1)
	low, high := geom.Flat{far, far}, geom.Flat{-far, -far}
	grow := func(p geom.Point, by float64) {
		for k := range 2 {
			low[k], high[k] = min(low[k], p[k]-by), max(high[k], p[k]+by)
		}
	}
	all := site{given: l.given}
	j := l.given.Index.Job()
	for i := range j.Net.Points {
		if at, ok := l.given.Index.Where(&j.Net.Points[i]); ok && own.holds(at.Plan()) {
			grow(at, l.tail())
		}
	}
	if w := l.given.Work; w != nil {
		for _, n := range w.Joints {
			if own.holds(n.At.Plan()) {
				grow(n.At, l.tail())
			}
		}
	}
	for i := range j.Net.Runs {
		for _, g := range all.legs(&j.Net.Runs[i]) {
			passes := true
			for _, q := range []geom.Point{g.a, g.b} {
				if own.holds(q.Plan()) {
					passes = false
					grow(q, l.tail())
				}
			}
			if t0, t1, ok := own.clip(g.a, g.b); ok && passes {
				grow(mixed(g.a, g.b, t0), 0)
				grow(mixed(g.a, g.b, t1), 0)
			}
		}
	}
	for k := range 2 {
		low[k], high[k] = max(low[k], own.low[k]), min(high[k], own.high[k])
	}
	return window{low, high}
}

// tell gives every line that is cut off the letter and the part at which it goes on.
func (l *leafer) tell() {
	letters := map[string]string{}
	for i := range l.parts {
		p := &l.parts[i]
		p.told = map[int]string{}
		for n, e := range p.site.ends {
			to := l.onward(i, e)
			if to < 0 {
				continue
			}
			key := fmt.Sprint(e.of, min(i, to), max(i, to))
			if letters[key] == "" {
				letters[key] = lowerLetter(len(letters))
			}
			p.told[n] = fmt.Sprintf("%s, part %d", letters[key], to+1)
		}
	}
}

// onward is the part on which a line goes on; −1 for none.
func (l *leafer) onward(i int, e lineEnd) int {
	const step, most = 0.1, 4000
	way := e.way.Unit().Times(step)
	at := e.at
	for range most {
		at = at.Plus(way)
		if l.parts[i].own.holds(at.Plan()) {
			continue
		}
		for k := range l.parts {
			if l.parts[k].own.holds(at.Plan()) {
				return k
			}
		}
	}
	return -1
}

// lowerLetter is a, b … z, aa, ab …
func lowerLetter(n int) string {
	if n < 26 {
		return string(rune('a' + n))
	}
	return lowerLetter(n/26-1) + string(rune('a'+n%26))
}

// upperLetter is the letter of a ring, from the end of the alphabet as is usual for details and
// so that it is not that of an outlet.
func (l *leafer) upperLetter() string {
	taken := map[string]bool{}
	j := l.given.Index.Job()
	for i := range j.Outlets {
		taken[OutletMark(j.Outlets[i], i)] = true
	}
	for {
		n := l.letter
		l.letter++
		word := string(rune('Z' - n%26))
		if n >= 26 {
			word += trim(float64(n / 26))
		}
		if !taken[word] {
			return word
		}
	}
}
