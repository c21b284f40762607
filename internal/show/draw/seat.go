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
	drip  *job.Point  // the drain under it; nil for none, or too far away to be seen
	long  float64     // mm of leader that the parts take
	reach float64     // mm from the point to the dial's centre in its row
}

// drops finds the way down to every outlet and takes its parts off the lines.
func (p *planner) drops() map[job.ID]drop {
	p.onDrop = map[job.ID]bool{}
	all := map[job.ID]drop{}
	var feet []scene.Point // of drops whose dials stand in a level row
	var widest float64
	for i := range p.job.Outlets {
		o := &p.job.Outlets[i]
		place, ok := p.place(o.Point)
		if !ok {
			continue
		}
		flat := scene.Point{place[0], place[1]}
		d := drop{at: p.mm(p.shown(flat)), into: p.offWall(flat)}
		all[o.ID] = d
		if math.Abs(d.into[1]) > 0.7 {
			feet = append(feet, d.at)
		}
		widest = max(widest, scene.TextWidth(p.tag(*o, i).text, p.gauge.text, true))
	}
	p.dense = crowds(feet, 2.6*p.gauge.radius+2+widest, p.gauge.radius)
	for i := range p.job.Outlets {
		o := &p.job.Outlets[i]
		d, ok := all[o.ID]
		if ok && d.into != (scene.Point{}) {
			p.hang(&d, o.Point)
		}
		if ok {
			d.reach = p.gauge.radius + 2.8 + d.long
			all[o.ID] = d
		}
	}
	return all
}

// crowds says whether of some places in level rows two are closer than room.
func crowds(feet []scene.Point, room, same float64) bool {
	for i, c := range feet {
		for _, o := range feet[:i] {
			if math.Abs(o[1]-c[1]) < same && math.Abs(o[0]-c[0]) < room {
				return true
			}
		}
	}
	return false
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
		pt := p.given.Index.Point(queue[0])
		if at[2] >= foot[2]-1e-6 {
			above = append(above, high{pt, at[2]})
		} else if _, _, ok := p.symbolled(pt); ok {
			d.drip = pt
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
		if ok && tier == fitting {
			continue // the drip leg itself: its drain is drawn
		}
		if !ok || tier != machine && (p.gauge.bare || p.dense || p.sheet.Width < inHand) {
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
		if d.long == 0 {
			// In a corner two rows meet, and one dial may keep closer to its wall.
			reach := p.gauge.radius + 1.2
			all = append(all, spot{scene.Point{d.at[0] + d.into[0]*reach, d.at[1] + d.into[1]*reach}, 3})
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

// seats finds a place for every dial. All stand in their rows at first; then each
// looks again, with all the others in place: one of two rows that meet in a corner
// gives way, whichever can do so more cheaply.
func (p *planner) seats(ways []drop) []scene.Point {
	bodies, strokes := len(p.field.boxes), len(p.field.strokes)
	centres := make([]scene.Point, len(ways))
	for i, d := range ways {
		p.field.boxes, p.field.strokes = append(p.field.boxes, box{}), append(p.field.strokes, stroke{})
		centres[i] = p.spots(d)[0].centre
		if d.into == (scene.Point{}) {
			continue // in the open there is no row to keep
		}
		p.sit(d, centres[i], bodies+i, strokes+i)
	}
	for range 2 {
		for i, d := range ways {
			p.field.move(bodies+i, box{})
			p.field.redraw(strokes+i, stroke{})
			centres[i] = p.freest(d)
			p.sit(d, centres[i], bodies+i, strokes+i)
		}
	}
	return centres
}

// sit takes a dial's place and its leader's on the field.
func (p *planner) sit(d drop, c scene.Point, body, line int) {
	p.field.move(body, around(c[0], c[1], 2*p.gauge.radius+0.4, 2*p.gauge.radius+0.4))
	p.field.redraw(line, stroke{d.at, c, 0.2, leaderMinds})
}

// freest is the cheapest of the spots of a drop.
func (p *planner) freest(d drop) scene.Point {
	pick, least := scene.Point{}, math.Inf(1)
	for _, s := range p.spots(d) {
		body := around(s.centre[0], s.centre[1], 2*p.gauge.radius, 2*p.gauge.radius)
		way := minus(s.centre, d.at)
		far := math.Hypot(way[0], way[1])
		cost := s.dear + p.field.cost(body)*1.5 + 30*p.field.crossings(d.at, mix(d.at, s.centre, 1-p.gauge.radius/far))
		if cost < least {
			pick, least = s.centre, cost
		}
	}
	return pick
}
