package draw

import (
	"math"

	"dropleg/internal/show/scene"
)

// scaled draws a chain: its line with a tick at every mark, thin lines from the wall to them,
// and lengths.
func (p *planner) scaled(r *ruler) []scene.Item {
	long := r.marks[len(r.marks)-1]
	items := []scene.Item{p.thin(r.on(0, r.base), r.on(long, r.base))}
	for i, m := range r.marks {
		end := r.base + 1
		if r.whole && (i == 0 || i+1 == len(r.marks)) {
			end = r.beyond() + 1
		}
		items = append(items, p.thin(r.on(m, r.ground), r.on(m, end)), p.tick(r, m, r.base))
	}
	for _, t := range r.told {
		if t.level > 0 {
			to := r.baseline(t.level) - 0.4
			if r.outward() < 0 {
				to -= rulerHigh
			}
			items = append(items, p.thin(r.on(t.middle, r.base), r.on(t.middle, to)))
		}
		it := p.length(t.text, r.on(t.at, r.baseline(t.level)), r.dir)
		if t.level == 0 {
			it.Text.Span = p.span(r, t.from, t.to, r.base)
		}
		items = append(items, it)
	}
	if r.whole {
		sum := p.length(r.sum, r.on(long/2, r.beyond()+r.outward()*rulerRise), r.dir)
		sum.Text.Span = p.span(r, 0, long, r.beyond())
		items = append(items, p.thin(r.on(0, r.beyond()), r.on(long, r.beyond())), p.tick(r, 0, r.beyond()), p.tick(r, long, r.beyond()), sum)
	}
	words, line := r.bodies()
	p.takeAll(words)
	p.takeAll(line)
	return items
}

// span is a stretch of a chain, off its face.
func (p *planner) span(r *ruler, from, to, off float64) [2]scene.Point {
	return [2]scene.Point{p.metres(r.on(from, off)), p.metres(r.on(to, off))}
}

func (p *planner) takeAll(boxes []box) {
	for _, b := range boxes {
		p.field.take(b)
	}
}

func (p *planner) thin(a, b scene.Point) scene.Item {
	return scene.Polyline("", "", scene.Solid(0.15, "soft"), p.metres(a), p.metres(b))
}

func (p *planner) tick(r *ruler, along, off float64) scene.Item {
	return p.slash(r.on(along, off), r.dir)
}

// slash is the stroke at the end of a dimension, aslant to its line.
func (p *planner) slash(at, dir scene.Point) scene.Item {
	return scene.Item{Mark: &scene.Mark{At: p.metres(at), Turn: degrees(dir), Parts: []scene.Path{{D: "M-0.8 -0.8L0.8 0.8", Stroke: &scene.Stroke{Width: 0.3, Color: "ink"}}}}}
}

// length writes a length with the middle of its baseline at a place.
func (p *planner) length(text string, at, dir scene.Point) scene.Item {
	it := scene.Words("", text, p.metres(at), scene.Point{}, rulerType, "middle", "ink")
	it.Text.Turn = degrees(dir)
	return it
}

// degrees is the turn of a direction, to a tenth.
func degrees(dir scene.Point) float64 {
	return math.Round(math.Atan2(dir[1], dir[0])*1800/math.Pi) / 10
}

// outlying draws how far from the wall a line ends, beside it on the freer side.
func (p *planner) outlying(s spur) []scene.Item {
	face, end := p.mm(s.face), p.mm(s.end)
	long := math.Hypot(end[0]-face[0], end[1]-face[1])
	dir := scene.Point{(end[0] - face[0]) / long, (end[1] - face[1]) / long}
	text := p.sheet.between(0, long/p.scale)
	if wideOf(text) > long-2 {
		return nil
	}
	side := scene.Point{-dir[1], dir[0]}
	read := dir
	if dir[0] < -1e-6 || math.Abs(dir[0]) <= 1e-6 && dir[1] < 0 {
		read = scene.Point{-dir[0], -dir[1]}
	}
	up := scene.Point{-read[1], read[0]}
	beside := func(q scene.Point, off float64) scene.Point {
		return scene.Point{q[0] + side[0]*off, q[1] + side[1]*off}
	}
	best, least := 0.0, 30.0
	var taken []box
	for _, off := range []float64{5, -5, 6.5, -6.5, 8, -8, 10, -10, 13, -13} {
		a, b := beside(face, off), beside(end, off)
		m := mix(a, b, 0.5)
		boxes := slanted(scene.Point{m[0] + up[0]*rulerRise, m[1] + up[1]*rulerRise}, read, wideOf(text), rulerType)
		cost := 0.2 * math.Abs(off)
		for _, q := range boxes {
			cost += 3 * p.field.cost(q.grown(0.2))
		}
		n := max(int(long/3), 1)
		for i := range n {
			c := mix(a, b, (float64(i)+0.5)/float64(n))
			boxes = append(boxes, around(c[0], c[1], 2, 2))
			cost += 0.15 * min(p.field.cost(around(c[0], c[1], 2, 2)), 5)
		}
		if cost < least {
			best, least, taken = off, cost, boxes
		}
	}
	if best == 0 {
		p.hidden = true
		return nil
	}
	p.takeAll(taken)
	a, b := beside(face, best), beside(end, best)
	m := mix(a, b, 0.5)
	gap := math.Copysign(1.5, best)
	return []scene.Item{
		p.thin(a, b), p.thin(beside(end, gap), beside(end, best+math.Copysign(1, best))), p.slash(a, dir), p.slash(b, dir),
		p.length(text, scene.Point{m[0] + up[0]*rulerRise, m[1] + up[1]*rulerRise}, read),
	}
}
