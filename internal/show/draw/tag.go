package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// tag is what is written at a dial: letter and figure, and a word under them.
type tag struct {
	mark, figure string
	text, needs  string // letter and figure; the word under them
	words, under label
	taken        [2]int // its boxes on the field
	cost         float64
}

// settle writes the tags of all dials. Each is set once more when all the others
// have their place: the first ones then give way to those that came late. Those
// that found no free place go first in a second try.
func (p *planner) settle(tags []*tag, ways []drop, centres []scene.Point) {
	order := make([]int, len(tags))
	for i, t := range tags {
		order[i] = i
		t.taken = [2]int{len(p.field.boxes), len(p.field.boxes) + 1}
		p.field.boxes = append(p.field.boxes, box{}, box{})
	}
	clear := func(t *tag) {
		p.field.move(t.taken[0], box{})
		p.field.move(t.taken[1], box{})
	}
	for range 2 {
		for _, t := range tags {
			clear(t)
		}
		for range 3 {
			still := true
			for _, i := range order {
				was := tags[i].words
				clear(tags[i])
				p.write(tags[i], ways[i], centres[i])
				still = still && tags[i].words == was
			}
			if still { // and would stay so
				break
			}
		}
		slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(math.Floor(tags[b].cost/quiet), math.Floor(tags[a].cost/quiet)) })
		if len(order) == 0 || tags[order[0]].cost < quiet {
			return
		}
	}
	for _, i := range order {
		p.shorten(tags[i], ways[i], centres[i], clear)
	}
}

// shorten takes words from a tag that has no room for them, the least needed
// first: the word under it (its dial shows the same by a bold ring), then the
// figure. The letter stays.
func (p *planner) shorten(t *tag, d drop, c scene.Point, clear func(*tag)) {
	again := func() bool {
		clear(t)
		p.write(t, d, c) // others may have made room since
		return t.cost >= quiet && (t.needs != "" || t.figure != "")
	}
	for again() {
		if t.needs != "" {
			t.needs = ""
		} else {
			t.text, t.figure = t.mark, ""
		}
		p.hidden = true
	}
}

// write sets a tag on the freest side of its dial: the inner side where dials
// stand close in a row, so that the row stays even.
func (p *planner) write(t *tag, d drop, c scene.Point) {
	fall := 0.0
	if t.needs != "" {
		fall = p.gauge.under * 1.15
	}
	least := math.Inf(1)
	textWide, needsWide := scene.TextWidth(t.text, p.gauge.text, true), scene.TextWidth(t.needs, p.gauge.under, false)
	for k, start := range p.sides(d, c, fall, max(textWide, needsWide)) {
		cost := 0.6 * float64(k)
		if cost > least+slack {
			break // those behind cost no less
		}
		words := writtenWide(textWide, p.gauge.text, start, "start")
		under := writtenWide(needsWide, p.gauge.under, scene.Point{start[0], start[1] - fall}, "start")
		cost += p.field.costUpTo(words.box.grown(0.12), least-cost+slack)
		if k > 0 && p.dense {
			cost += 2
		}
		if t.needs != "" {
			cost += p.field.costUpTo(under.box.grown(0.12), least-cost+slack)
		}
		if cost < least {
			least, t.words, t.under, t.cost = cost, words, under, cost
		}
	}
	p.field.move(t.taken[0], t.words.box)
	if t.needs != "" {
		p.field.move(t.taken[1], t.under.box)
	}
}

// sides are where a tag may start about a dial centred at c, in the order of preference.
// The tag is w mm wide.
func (p *planner) sides(d drop, c scene.Point, fall, w float64) []scene.Point {
	r, gap := p.gauge.radius, p.gauge.radius*1.23+1 // the mark of the need stands out of the ring
	up, down := c[1]+gap+fall, c[1]-gap-p.gauge.text*0.75
	middle := c[1] - p.gauge.text*0.33 + fall/2
	right, left := scene.Point{c[0] + gap, middle}, scene.Point{c[0] - gap - w, middle}
	// Over and under the dial: in the middle, flush with a side, or to one side alone.
	over := []scene.Point{{c[0] - w/2, up}, {c[0] - r, up}, {c[0] + r - w, up}, {c[0] - 0.8, up}, {c[0] + 0.8 - w, up}}
	under := []scene.Point{{c[0] - w/2, down}, {c[0] - r, down}, {c[0] + r - w, down}, {c[0] - 0.8, down}, {c[0] + 0.8 - w, down}}
	slant := []scene.Point{{right[0] - 0.5, c[1] - r}, {right[0] - 0.5, c[1] + r*0.4}, {left[0] + 0.5, c[1] - r}, {left[0] + 0.5, c[1] + r*0.4}}
	step := p.gauge.text * 1.1
	far := []scene.Point{{c[0] - w/2, down - step}, {c[0] - w/2, up + step}, {right[0], middle - step}, {right[0], middle + step}, {left[0], middle - step}, {left[0], middle + step}}
	var first []scene.Point
	switch {
	case d.into[0] < -0.7:
		first = []scene.Point{left}
	case p.dense && d.into[1] > 0.7:
		first = over[:1]
	case p.dense && d.into[1] < -0.7:
		first = under[:1]
	}
	return slices.Concat(first, []scene.Point{right, left}, under, over, slant, far)
}

// tag is what is written at an outlet's dial.
func (p *planner) tag(o job.Outlet, index int) *tag {
	d := p.given.Dials[o.ID]
	mark := OutletMark(o, index)
	t := &tag{mark: mark, figure: p.figure(d), text: mark}
	if p.working() {
		t.text, t.figure = "", "" // the mark stands in the ring
		return t
	}
	if t.figure != "" {
		t.text += " " + t.figure
		if d.Short {
			t.needs = "short"
		}
	}
	return t
}

// figure is the reading at a dial, where it is told.
func (p *planner) figure(d Dial) string {
	if d.Flowing == nil || p.gauge.bare && !d.Short {
		return ""
	}
	return p.sheet.short(unit.KindGauge, float64(*d.Flowing))
}
