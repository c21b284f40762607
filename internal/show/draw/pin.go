package draw

import (
	"math"
	"slices"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// pin is an outlet with its foot on a drawing that is not a plan.
type pin struct {
	outlet *job.Outlet
	index  int
	foot   scene.Point // mm
	within box         // where its dial should stand, mm
	rowed  bool        // it stands in a close row: dials and words all keep to one pattern
	under  string      // words under its letter, such as its height; left out where there is no room
}

// pinned draws dials beside their feet with their letters and figures, those that
// are short first.
func (p *planner) pinned(pins []pin) (leaders, items []scene.Item) {
	order := make([]int, len(pins))
	for i := range pins {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return p.rank(pins[a]) - p.rank(pins[b]) })
	drawn := make([][]scene.Item, len(pins))
	for _, i := range order {
		lead, its := p.pin(pins[i])
		leaders = append(leaders, lead...)
		drawn[i] = its
	}
	return leaders, slices.Concat(drawn...)
}

func (p *planner) rank(n pin) int {
	if p.given.Dials[n.outlet.ID].Short {
		return 0
	}
	return 1
}

// about are the places for a dial round its foot, in the order of preference.
func (p *planner) about(foot scene.Point) []spot {
	var all []spot
	for i, more := range []float64{1.6, 4.5, 8} {
		for k, deg := range []float64{0, 180, 270, 315, 225, 45, 135, 90} {
			sin, cos := math.Sincos(deg * math.Pi / 180)
			reach := p.gauge.radius + more
			all = append(all, spot{scene.Point{foot[0] + reach*cos, foot[1] + reach*sin}, 3*float64(i) + 0.5*float64(k)})
		}
	}
	return all
}

// pin draws one dial on the freest place about its foot.
func (p *planner) pin(n pin) (leaders, items []scene.Item) {
	t := p.tag(*n.outlet, n.index)
	if n.rowed {
		t.needs = "" // the bold ring tells
	}
	r := p.gauge.radius
	centre, least := scene.Point{}, math.Inf(1)
	var words label
	for _, s := range p.about(n.foot) {
		if n.rowed {
			s.dear *= 2
		}
		if s.centre[0]-r < n.within.x0 || s.centre[0]+r > n.within.x1 || s.centre[1]-r < n.within.y0 || s.centre[1]+r > n.within.y1 {
			s.dear += 30
		}
		if s.dear >= least {
			continue
		}
		cost := s.dear + 1.5*p.field.cost(around(s.centre[0], s.centre[1], 2*r, 2*r))
		if cost < least {
			cost += 8 * p.field.crossings(n.foot, s.centre)
		}
		if cost >= least {
			continue
		}
		pick := best(&p.field, p.tagged(t, n, s.centre))
		if cost += pick.cost; cost < least {
			centre, least, words = s.centre, cost, pick
		}
	}
	p.field.take(around(centre[0], centre[1], 2*r+0.4, 2*r+0.4))
	p.field.draw(n.foot, centre, 0.15, leaderMinds)
	far := math.Hypot(centre[0]-n.foot[0], centre[1]-n.foot[1])
	foot := scene.Path{D: "M-0.7 0A0.7 0.7 0 1 0 0.7 0A0.7 0.7 0 1 0 -0.7 0Z", Fill: "ink"}
	leaders = []scene.Item{
		scene.Polyline("", "", scene.Solid(0.25, "ink"), p.metres(n.foot), p.metres(mix(n.foot, centre, 1-r/far))),
		{Mark: &scene.Mark{At: p.metres(n.foot), Parts: []scene.Path{foot}}},
	}
	return leaders, p.faced(n, t, centre, words)
}

// tagged are the places for an outlet's words about its dial.
func (p *planner) tagged(t *tag, n pin, c scene.Point) []label {
	w := max(scene.TextWidth(t.text, p.gauge.text, true), scene.TextWidth(t.needs, p.gauge.under, false))
	if p.working() {
		w = max(w, scene.TextWidth(n.under, p.gauge.under, false))
	}
	fall := 0.0
	if t.needs != "" || n.under != "" {
		fall = p.gauge.under * 1.15
	}
	r, gap := p.gauge.radius, p.gauge.radius*1.23+1
	middle := c[1] - p.gauge.text*0.33 + fall/2
	starts := []scene.Point{
		{c[0] + gap, middle},
		{c[0] - gap - w, middle},
		{c[0] - w/2, c[1] - gap - p.gauge.text*0.75},
		{c[0] - w/2, c[1] + gap + fall},
		{n.foot[0] + 1.5, c[1] + gap + fall},
		{n.foot[0] - 1.5 - w, c[1] + gap + fall},
		{c[0] + gap - 0.5, c[1] - r},
		{c[0] - gap - w + 0.5, c[1] - r},
	}
	step := 0.6
	if n.rowed {
		starts[0], starts[4], step = starts[4], starts[0], 1.5
	}
	var tried []label
	for k, at := range starts {
		l := written(t.text, p.gauge.text, true, at, "start")
		if fall > 0 {
			l.box.y0 -= fall
		}
		l.box.x1 = l.box.x0 + w
		l.cost = step * float64(k)
		tried = append(tried, l)
	}
	return tried
}

// faced is a dial with its words; words that lie badly give way, the letter last.
func (p *planner) faced(n pin, t *tag, centre scene.Point, words label) []scene.Item {
	d := p.given.Dials[n.outlet.ID]
	ink, tone := "ink", "soft"
	if d.Short {
		ink = "alarm"
	}
	if d.InUse {
		tone = ink
	}
	id, at := string(n.outlet.ID), p.metres(centre)
	items := []scene.Item{{
		ID: id, Title: p.tip(n.outlet.ID, "outlet "+t.mark+", "+n.outlet.Name),
		Mark: &scene.Mark{At: at, Parts: p.dialParts(d)},
	}}
	figure, under, tint := t.figure, or(t.needs, n.under), "soft"
	if p.working() {
		items = p.ring(n.outlet, t.mark, at)
		low := scene.Point{words.at[0], words.at[1] - p.gauge.under*1.15}
		if p.field.cost(written(n.under, p.gauge.under, false, low, "start").box) > 0.3 {
			under = ""
		}
	}
	if t.needs != "" {
		tint = "alarm"
	}
	mark := written(t.mark, p.gauge.text, true, words.at, "start")
	if words.cost > quiet+3 {
		figure, under = "", ""
		p.hidden = true
		if p.field.cost(mark.box) > quiet+3 {
			return items // its title tells
		}
		words.box = mark.box
	}
	p.field.take(words.box)
	off := minus(words.at, centre)
	if !p.working() {
		items = append(items, bold(scene.Words(id, t.mark, at, off, p.gauge.text, "start", ink)))
	}
	if figure != "" {
		shift := scene.TextWidth(t.mark+" ", p.gauge.text, true)
		items = append(items, scene.Words(id, figure, at, scene.Point{off[0] + shift, off[1]}, p.gauge.text, "start", tone))
	}
	if under != "" {
		items = append(items, scene.Words(id, under, at, scene.Point{off[0], off[1] - p.gauge.under*1.15}, p.gauge.under, "start", tint))
	}
	return items
}
