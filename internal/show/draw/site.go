package draw

import (
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// site is what one isometric drawing shows: a shop whole, or a part cut out of it, its places as
// they are or moved together where only straight line passes.
type site struct {
	given  Given
	whole  map[job.ID][]legged // by run, its straight stretches where they are not as the job has them
	breaks []lineBreak
	faint  []lineBreak // where edges of floors and walls are
	short  bool        // something is drawn shorter than it is
	ends   []lineEnd
	window *window // what was cut out by the plan
}

// legged is a straight stretch of a run: from where to where it is drawn, and how long it is.
type legged struct {
	a, b geom.Point
	true float64 // m
	cut  [2]bool // it was cut off at these ends, and is drawn in part
}

// lineBreak is where a stretch is drawn shorter than it is.
type lineBreak struct {
	run job.ID
	leg legged
	at  []geom.Point
}

// lineEnd is where a run is cut off, and which way it goes on.
type lineEnd struct {
	run     job.ID
	of      job.ID // as the job has it
	at, way geom.Point
}

// region is what is cut out of a shop; it has no hollows.
type region interface {
	// owns says whether a place belongs to it and to no other.
	owns(geom.Point) bool
	// clip is from what share to what share of a stretch is drawn with it.
	clip(a, b geom.Point) (t0, t1 float64, ok bool)
	// building is what is left of rooms and walls.
	building(job.Building) job.Building
}

// legs are the straight stretches of a run.
func (s *site) legs(r *job.Run) []legged {
	if all, ok := s.whole[r.ID]; ok {
		return all
	}
	line := s.given.Index.Centreline(r)
	var all []legged
	for k := 1; k < len(line); k++ {
		all = append(all, legged{a: line[k-1], b: line[k], true: line[k-1].Distance(line[k])})
	}
	return all
}

// within is what of a site lies in a region; runs end where it does.
func (s site) within(in region) site {
	old := s.given.Index
	j := *old.Job()
	out := site{given: s.given, whole: map[job.ID][]legged{}}
	j.Net.Points, j.Net.Runs, j.Outlets = nil, nil, nil
	for _, pt := range old.Job().Net.Points {
		if at, ok := old.Where(&pt); ok && in.owns(at) {
			pt.At, pt.On = &at, nil
			j.Net.Points = append(j.Net.Points, pt)
		}
	}
	placed := map[job.ID]bool{}
	for i := range j.Net.Points {
		placed[j.Net.Points[i].ID] = true
	}
	parts := map[job.ID][]job.ID{}
	for i := range old.Job().Net.Runs {
		r := &old.Job().Net.Runs[i]
		for n, c := range stretches(s.legs(r), in) {
			id := r.ID
			if n > 0 {
				id = job.ID(fmt.Sprintf("%s~%d", r.ID, n))
			}
			parts[r.ID] = append(parts[r.ID], id)
			out.add(&j, placed, *r, id, c)
		}
	}
	for _, o := range old.Job().Outlets {
		if at, ok := old.Where(old.Point(o.Point)); ok && in.owns(at) {
			j.Outlets = append(j.Outlets, o)
		}
	}
	for _, b := range s.breaks {
		var kept []geom.Point
		for _, at := range b.at {
			if in.owns(at) {
				kept = append(kept, at)
			}
		}
		if b.at = kept; len(kept) > 0 {
			out.breaks = append(out.breaks, b)
		}
	}
	j.Building = in.building(j.Building)
	out.given.Index = job.NewIndex(&j)
	out.given.Work = s.workIn(in, out.given.Index, parts)
	return out
}

// stretches are the parts of a run that lie in a region, each as its legs.
func stretches(legs []legged, in region) [][]legged {
	var all [][]legged
	going := false
	for _, l := range legs {
		t0, t1, ok := in.clip(l.a, l.b)
		if !ok || t1-t0 < 1e-9 {
			going = false
			continue
		}
		part := legged{a: mixed(l.a, l.b, t0), b: mixed(l.a, l.b, t1), true: l.true, cut: [2]bool{l.cut[0] || t0 > 1e-9, l.cut[1] || t1 < 1-1e-9}}
		if !going || t0 > 1e-9 {
			all = append(all, nil)
		}
		all[len(all)-1] = append(all[len(all)-1], part)
		going = t1 > 1-1e-9
	}
	return all
}

// add puts a stretch of a run into a job, with points where it is cut off.
func (s *site) add(j *job.Job, placed map[job.ID]bool, r job.Run, id job.ID, legs []legged) {
	first, last, of := legs[0], legs[len(legs)-1], r.ID
	stub := func(end *job.End, at, inner geom.Point, off bool, name string) {
		if !off && placed[end.Point] {
			return
		}
		*end = job.End{Point: job.ID(string(id) + name)}
		j.Net.Points = append(j.Net.Points, job.Point{ID: end.Point, At: &at})
		s.ends = append(s.ends, lineEnd{id, of, at, at.Minus(inner)})
	}
	stub(&r.From, first.a, first.b, first.cut[0], "~from")
	stub(&r.To, last.b, last.a, last.cut[1], "~to")
	r.ID, r.Path = id, nil
	for _, l := range legs[1:] {
		r.Path = append(r.Path, l.a)
	}
	s.whole[id] = legs
	j.Net.Runs = append(j.Net.Runs, r)
}

// workIn is what of cuts and joints belongs to a region; a piece goes with its middle, and lies
// on the part of its run that is nearest.
func (s *site) workIn(in region, ix *job.Index, parts map[job.ID][]job.ID) *Work {
	if s.given.Work == nil {
		return nil
	}
	work := *s.given.Work
	work.Cuts, work.Joints = nil, nil
	for _, n := range s.given.Work.Joints {
		if in.owns(n.At) {
			work.Joints = append(work.Joints, n)
		}
	}
	for _, c := range s.given.Work.Cuts {
		middle := s.middleOf(c)
		if !in.owns(middle) {
			continue
		}
		least := math.Inf(1)
		run := c.Run
		for _, id := range parts[c.Run] {
			if hit, ok := geom.NearestOnPath(middle, ix.Centreline(ix.Run(id))); ok && hit.Distance < least {
				least, run = hit.Distance, id
			}
		}
		c.Run = run
		work.Cuts = append(work.Cuts, c)
	}
	return &work
}

// middleOf is the middle of a piece along its run.
func (s *site) middleOf(c Cutting) geom.Point {
	r := s.given.Index.Run(c.Run)
	if r == nil {
		return mixed(c.A, c.B, 0.5)
	}
	line := s.given.Index.Centreline(r)
	from, ok := geom.NearestOnPath(c.A, line)
	to, _ := geom.NearestOnPath(c.B, line)
	if at, _, on := geom.OnPath(line, (from.Along+to.Along)/2); ok && on {
		return at
	}
	return mixed(c.A, c.B, 0.5)
}
