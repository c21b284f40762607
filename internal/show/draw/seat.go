package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// drop is an outlet with what hangs over it, folded down into the plan: from the
// line a leader goes square off the wall, through the parts of the drop in the
// order of the air, to the dial.
type drop struct {
	at    scene.Point // mm, where the drop leaves the line
	into  scene.Point // unit vector off the wall; zero for an outlet in the open
	parts []seated    // on the leader, without a place yet
	long  float64     // mm of leader that the parts take
	reach float64     // mm from the point to the dial's centre in its row
}

// drops finds the way down to every outlet and takes its parts off the lines.
func (p *planner) drops() map[job.ID]drop {
	p.onDrop = map[job.ID]bool{}
	all := map[job.ID]drop{}
	for i := range p.job.Outlets {
		o := &p.job.Outlets[i]
		place, ok := p.place(o.Point)
		if !ok {
			continue
		}
		flat := scene.Point{place[0], place[1]}
		d := drop{at: p.mm(p.shown(flat)), into: p.offWall(flat)}
		if d.into != (scene.Point{}) {
			p.hang(&d, o.Point)
		}
		d.reach = p.gauge.radius + max(2.8, 2.8+d.long)
		all[o.ID] = d
	}
	return all
}

// offWall is the direction off the wall that a place is at; zero in the open.
func (p *planner) offWall(at scene.Point) scene.Point {
	out, least := scene.Point{}, near
	for _, w := range p.walls {
		along, deep := w.seen(at)
		if along < 0 || along > w.length {
			continue
		}
		gap, into := deep, w.into
		if deep < 0 {
			gap, into = -deep-w.thick, scene.Point{-w.into[0], -w.into[1]}
		}
		if gap >= -1e-9 && gap < least {
			out, least = into, gap
		}
	}
	return out
}

// hang gathers the parts straight over an outlet's point, the highest first.
func (p *planner) hang(d *drop, from job.ID) {
	foot, _ := p.place(from)
	type high struct {
		point *job.Point
		z     float64
	}
	var above []high
	seen := map[job.ID]bool{from: true}
	for queue := []job.ID{from}; len(queue) > 0; queue = queue[1:] {
		at, ok := p.place(queue[0])
		if !ok || math.Hypot(at[0]-foot[0], at[1]-foot[1]) > 0.02 {
			continue
		}
		// What hangs below an outlet is its drip; that is not on the way of the air.
		if at[2] >= foot[2]-1e-6 {
			above = append(above, high{p.given.Index.Point(queue[0]), at[2]})
		}
		p.onDrop[queue[0]] = true
		for _, e := range p.given.Index.Ends(queue[0]) {
			next := link{e.Run, e.AtTo}.end()
			if !seen[next] {
				seen[next] = true
				queue = append(queue, next)
			}
		}
	}
	slices.SortStableFunc(above, func(a, b high) int { return cmp.Compare(b.z, a.z) })
	for _, a := range above {
		kind, tier, ok := p.symbolled(a.point)
		if !ok || tier != machine && p.gauge.bare || tier == fitting {
			p.hidden = p.hidden || ok
			continue
		}
		size := extentOf(kind.Symbol)
		half := (size.x1 - size.x0) / 2 * p.grow(kind)
		d.parts = append(d.parts, seated{point: a.point, tier: tier, at: scene.Point{d.long + 1 + half, 0}})
		d.long += 2*half + 0.5
	}
}

// spot is a place for a dial that is tried.
type spot struct {
	centre scene.Point // mm, on paper
	dear   float64     // what it costs against the first choice
}

// spots are the places for a dial in the order of preference: its place in the
// row along its wall, then rows further in; in the open, round the point.
func (p *planner) spots(d drop) []spot {
	var all []spot
	if d.into != (scene.Point{}) {
		row := 2*p.gauge.radius + p.gauge.text + 1.5
		for i := range 4 {
			reach := d.reach + float64(i)*row
			all = append(all, spot{scene.Point{d.at[0] + d.into[0]*reach, d.at[1] + d.into[1]*reach}, 9 * float64(i)})
		}
		return all
	}
	for turn := range 8 {
		for i, more := range []float64{2.7, 5.1, 8.6, 13} {
			sin, cos := math.Sincos(float64(turn) * math.Pi / 4)
			reach := p.gauge.radius + more
			all = append(all, spot{scene.Point{d.at[0] + reach*cos, d.at[1] + reach*sin}, 2.5*float64(i) + 0.4*float64(turn%2)})
		}
	}
	return all
}

// seat looks for the freest place for a dial and takes it.
func (p *planner) seat(d drop) scene.Point {
	pick, least := scene.Point{}, math.Inf(1)
	for _, s := range p.spots(d) {
		body := around(s.centre[0], s.centre[1], 2*p.gauge.radius, 2*p.gauge.radius)
		way := minus(s.centre, d.at)
		far := math.Hypot(way[0], way[1])
		cost := s.dear + p.field.cost(body)*1.5 + 12*p.field.crossings(d.at, mix(d.at, s.centre, 1-p.gauge.radius/far))
		if cost < least {
			pick, least = s.centre, cost
		}
	}
	p.field.take(around(pick[0], pick[1], 2*p.gauge.radius+0.4, 2*p.gauge.radius+0.4))
	p.field.draw(d.at, pick, 0.2, leaderMinds)
	return pick
}

// tag is what is written at a dial: letter and figure, and a word under them.
type tag struct {
	text, needs  string
	words, under label
	taken        [2]int // its boxes on the field
}

// settle writes the tags of all dials. Each is set once more when all the others
// have their place: the first ones then give way to those that came late.
func (p *planner) settle(tags []*tag, ways []drop, centres []scene.Point) {
	for i, t := range tags {
		t.taken = [2]int{len(p.field.boxes), len(p.field.boxes) + 1}
		p.field.boxes = append(p.field.boxes, box{}, box{})
		p.write(t, ways[i], centres[i])
	}
	for range 2 {
		for i, t := range tags {
			p.field.boxes[t.taken[0]], p.field.boxes[t.taken[1]] = box{}, box{}
			p.write(t, ways[i], centres[i])
		}
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
	for k, start := range p.sides(t, d, c, fall) {
		words := written(t.text, p.gauge.text, true, start, "start")
		under := written(t.needs, p.gauge.under, false, scene.Point{start[0], start[1] - fall}, "start")
		cost := 0.6*float64(k) + p.field.cost(words.box.grown(0.3))
		if t.needs != "" {
			cost += p.field.cost(under.box.grown(0.3))
		}
		if cost < least {
			least, t.words, t.under = cost, words, under
		}
	}
	p.field.boxes[t.taken[0]] = t.words.box
	if t.needs != "" {
		p.field.boxes[t.taken[1]] = t.under.box
	}
}

// sides are where a tag may start about a dial centred at c, in the order of preference.
func (p *planner) sides(t *tag, d drop, c scene.Point, fall float64) []scene.Point {
	w := max(scene.TextWidth(t.text, p.gauge.text, true), scene.TextWidth(t.needs, p.gauge.under, false))
	r, gap := p.gauge.radius, p.gauge.radius*1.23+1 // the mark of the need stands out of the ring
	up, down := c[1]+gap+fall, c[1]-gap-p.gauge.text*0.75
	middle := c[1] - p.gauge.text*0.33 + fall/2
	right, left := scene.Point{c[0] + gap, middle}, scene.Point{c[0] - gap - w, middle}
	// Over and under the dial: in the middle, or flush with one of its sides.
	over := []scene.Point{{c[0] - w/2, up}, {c[0] - r, up}, {c[0] + r - w, up}}
	under := []scene.Point{{c[0] - w/2, down}, {c[0] - r, down}, {c[0] + r - w, down}}
	slant := []scene.Point{{right[0] - 0.5, c[1] - r}, {right[0] - 0.5, c[1] + r*0.4}, {left[0] + 0.5, c[1] - r}, {left[0] + 0.5, c[1] + r*0.4}}
	var first []scene.Point
	switch {
	case d.into[0] < -0.7:
		first = []scene.Point{left}
	case p.dense && d.into[1] > 0.7:
		first = over[:1]
	case p.dense && d.into[1] < -0.7:
		first = under[:1]
	}
	return slices.Concat(first, []scene.Point{right, left}, under, over, slant)
}
