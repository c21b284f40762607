package draw

import (
	"math"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// pipe is how a run is drawn, wherever it is seen.
type pipe struct {
	id, title string
	width     float64    // mm
	ends      [2]float64 // Pa
	known     bool
	stub      bool
	work      *scene.Stroke // on a drawing to build from
}

// pipe gathers what is known of a run.
func (p *planner) pipe(r *job.Run) pipe {
	q := pipe{
		id: string(r.ID), title: p.tip(r.ID, or(r.Name, r.Role)+" "+r.Size+" "+r.Stock),
		width: p.pen(*r), stub: r.State == "stub",
	}
	if ends, ok := p.given.Ends[r.ID]; ok && p.ramp.Known {
		q.ends, q.known = [2]float64{float64(ends[0]), float64(ends[1])}, true
	}
	if p.working() {
		stroke := p.workStroke(r, q.width)
		q.work = &stroke
	}
	return q
}

// part is the stretch of a run between two shares of its length.
func (q pipe) part(t0, t1 float64) pipe {
	a, b := q.ends[0], q.ends[1]
	q.ends = [2]float64{a + t0*(b-a), a + t1*(b-a)}
	return q
}

// laid draws a pipe along a course: a stub dashed, a known one banded by
// pressure, else plain.
func (p *planner) laid(q pipe, course []scene.Point) []scene.Item {
	if len(course) < 2 {
		return nil
	}
	if q.stub {
		return []scene.Item{scene.Polyline(q.id, q.title, scene.Stroke{Width: q.width, Color: "soft", Dash: []float64{2, 1.4}}, course...)}
	}
	if q.work != nil {
		return []scene.Item{scene.Polyline(q.id, q.title, *q.work, course...)}
	}
	if !q.known {
		return []scene.Item{scene.Polyline(q.id, q.title, scene.Stroke{Width: q.width, Color: "line", Round: true}, course...)}
	}
	at, band := p.ramp.cut(q.ends[0], q.ends[1])
	var items []scene.Item
	for i, b := range band {
		end := 1.0
		if i+1 < len(at) {
			end = at[i+1]
		}
		part := course
		if len(band) > 1 {
			part = between(course, at[i], end)
		}
		if len(part) < 2 {
			continue
		}
		items = append(items, scene.Polyline(q.id, q.title, scene.Stroke{Width: q.width, Color: rampColor(b), Round: true}, part...))
		if core := hollow(b); core != nil {
			items = append(items, scene.Polyline("", "", scene.Stroke{Width: q.width * 0.38, Color: "floor", Dash: core}, part...))
		}
	}
	return items
}

// strand is a stretch of a run as it is seen on a drawing, with the points at its
// ends; "" where the drawing cuts it off.
type strand struct {
	run    *job.Run
	course []scene.Point // mm of paper
	ends   [2]job.ID
}

// threads joins strands that follow one another, straight on where a line
// branches, so that symbols can be lined up on them.
func (p *planner) threads(strands []strand) []chain {
	at := map[job.ID][]int{} // strand·2 + end
	for i, s := range strands {
		for e, id := range s.ends {
			if id != "" {
				at[id] = append(at[id], 2*i+e)
			}
		}
	}
	used := make([]bool, len(strands))
	var all []chain
	for i := range strands {
		if used[i] || len(strands[i].course) < 2 {
			continue
		}
		used[i] = true
		way := []int{2 * i} // strands in order, by the end they begin at
		for next := onwards(strands, at, used, way[0]); next >= 0; next = onwards(strands, at, used, way[len(way)-1]) {
			way, used[next/2] = append(way, next), true
		}
		var back []int
		for next := onwards(strands, at, used, way[0]^1); next >= 0; next = onwards(strands, at, used, back[len(back)-1]) {
			back, used[next/2] = append(back, next), true
		}
		var whole []int
		for k := len(back) - 1; k >= 0; k-- {
			whole = append(whole, back[k]^1)
		}
		all = append(all, p.strung(strands, append(whole, way...)))
	}
	return all
}

// from is a strand's course beginning at one of its ends.
func from(s strand, end int) []scene.Point {
	if end == 0 {
		return s.course
	}
	out := make([]scene.Point, 0, len(s.course))
	for k := len(s.course) - 1; k >= 0; k-- {
		out = append(out, s.course[k])
	}
	return out
}

// onwards is the strand, by the end it begins at, that goes on with the least
// turn where one that began at an end ends; -1 for none.
func onwards(strands []strand, at map[job.ID][]int, used []bool, begun int) int {
	s := strands[begun/2]
	came := from(s, begun%2)
	id := s.ends[1-begun%2]
	if id == "" {
		return -1
	}
	best, least := -1, math.Inf(1)
	a, b := came[len(came)-2], came[len(came)-1]
	for _, k := range at[id] {
		if used[k/2] || len(strands[k/2].course) < 2 {
			continue
		}
		c := from(strands[k/2], k%2)
		if math.Hypot(c[0][0]-b[0], c[0][1]-b[1]) > 0.01 {
			continue // it goes on elsewhere on the sheet
		}
		if turn := 1 - cosine(a, b, c[0], c[1]); turn < least-1e-9 {
			best, least = k, turn
		}
	}
	return best
}

// strung makes one chain of strands in order.
func (p *planner) strung(strands []strand, way []int) chain {
	var c chain
	along := 0.0
	stop := func(id job.ID) {
		if pt := p.given.Index.Point(id); pt != nil {
			c.stops = append(c.stops, bead{point: pt, want: along})
		}
	}
	for i, k := range way {
		s := strands[k/2]
		if i == 0 {
			stop(s.ends[k%2])
		}
		for _, q := range from(s, k%2) {
			if n := len(c.course); n > 0 {
				d := math.Hypot(q[0]-c.course[n-1][0], q[1]-c.course[n-1][1])
				if d < 1e-6 {
					continue
				}
				along += d
			}
			c.course = append(c.course, q)
		}
		stop(s.ends[1-k%2])
	}
	return c
}
