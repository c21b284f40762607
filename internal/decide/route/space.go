package route

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// space is a room with the heights and the straight ways that lines may take in it.
type space struct {
	room    *job.Room
	faces   []geom.Flat // counterclockwise
	inset   []geom.Flat // the corners that lines turn at
	floor   float64
	ceiling float64
	off     float64 // of lines from the faces of the walls
	main    float64 // height of mains along walls
	under   float64 // height under what hangs in the way of mains; 0: nothing does
	top     float64 // height of lines under the ceiling
	columns []column
	rails   []rail
}

// rail is a straight level way.
type rail struct {
	a, b    geom.Flat
	z       float64
	ceiling bool // hung; else along a wall
}

// column is a place on the plan where a line may go up or down.
type column struct {
	at     geom.Flat
	z      []float64 // heights wanted beside those of the rails
	exempt []int     // blocks that do not count here: what is wanted stands in them
}

// spacesOf are the rooms of a building.
func spacesOf(b *job.Building, across bool, feet []foot) []space {
	var out []space
	for i := range b.Rooms {
		r := &b.Rooms[i]
		if len(r.Outline) < 3 {
			continue
		}
		s := space{room: r, faces: slices.Clone(r.Outline), floor: float64(r.Floor), ceiling: float64(r.Ceiling)}
		if geom.Area(s.faces) < 0 {
			slices.Reverse(s.faces)
		}
		s.off = s.usualOff(feet)
		s.inset = fit.Inset(s.faces, s.off)
		s.top = s.ceiling - underTop
		s.main = math.Min(s.top, s.floor+handReach)
		s.under = s.hanging(b)
		for _, z := range s.heights() {
			if z <= s.main || across || s.tall(b) {
				s.walls(z)
			}
		}
		out = append(out, s)
	}
	return out
}

// usualOff is how far off the walls lines run: as far as most of the outlets there, so
// that legs come down to them in the plane of the main.
func (s *space) usualOff(feet []foot) float64 {
	most, off := 0, offWall
	n := map[int]int{}
	for i := range feet {
		least := math.Inf(1)
		for k, a := range s.faces {
			h := geom.NearestOnSegment(feet[i].at.Plan().At(0), a.At(0), s.faces[(k+1)%len(s.faces)].At(0))
			least = math.Min(least, h.Distance)
		}
		if mm := int(math.Round(1000 * least)); mm >= 30 && mm <= 200 && geom.Contains(s.faces, feet[i].at.Plan()) {
			if n[mm]++; n[mm] > most || n[mm] == most && float64(mm)/1000 < off {
				most, off = n[mm], float64(mm)/1000
			}
		}
	}
	return off
}

// heights are those that lines run at: that of the mains, and under the ceiling.
func (s *space) heights() []float64 {
	out := []float64{s.main}
	if s.under > 0 {
		out = []float64{s.under, s.main}
	}
	if s.top-s.main > 0.1 {
		out = append(out, s.top)
	}
	return out
}

// hanging is the height at which lines pass under the lowest beam, or what else hangs
// over heads at the height of the mains; 0 where nothing does.
func (s *space) hanging(b *job.Building) float64 {
	low := math.Inf(1)
	for i := range b.Obstacles {
		o := &b.Obstacles[i]
		inside := slices.ContainsFunc(o.Outline, func(p geom.Flat) bool { return geom.Contains(s.faces, p) })
		if z := float64(o.Bottom) - clearSide - underRoom; inside && z > s.floor+lowest-0.2 && z < s.main && float64(o.Top)+clearSide > s.main-underRoom {
			low = math.Min(low, z)
		}
	}
	if math.IsInf(low, 1) {
		return 0
	}
	return low
}

// tall says whether a door or window of the room's walls stands higher than the mains.
func (s *space) tall(b *job.Building) bool {
	for i := range b.Openings {
		o := &b.Openings[i]
		k := slices.IndexFunc(b.Walls, func(w job.Wall) bool { return w.ID == o.Wall })
		if k < 0 {
			continue
		}
		f := b.Walls[k].Frame()
		at := f.Out(float64(o.Along+o.Width/2), 0, 0).Plan()
		if _, _, off := s.nearest(at); off < wallThick && f.Floor+float64(o.Sill+o.Height)+2*clearHead > s.main {
			return true
		}
	}
	return false
}

// walls adds the ways along all walls at a height.
func (s *space) walls(z float64) {
	n := len(s.inset)
	for i, a := range s.inset {
		if b := s.inset[(i+1)%n]; a.Distance(b) > 2*s.off {
			s.rails = append(s.rails, rail{a: a, b: b, z: z})
			s.column(a)
			s.column(b)
		}
	}
}

// nearest is the place on the way along a wall that is nearest to a place, by its side,
// and how far off it is.
func (s *space) nearest(p geom.Flat) (at geom.Flat, side int, off float64) {
	off = math.Inf(1)
	n := len(s.inset)
	for i, a := range s.inset {
		if h := geom.NearestOnSegment(p.At(0), a.At(0), s.inset[(i+1)%n].At(0)); h.Distance < off {
			at, side, off = h.At.Plan(), i, h.Distance
		}
	}
	return at, side, off
}

// column is a column of the room at a place, made where there is none.
func (s *space) column(at geom.Flat) int {
	if k := slices.IndexFunc(s.columns, func(c column) bool { return c.at.Distance(at) < merge }); k >= 0 {
		return k
	}
	s.columns = append(s.columns, column{at: at})
	return len(s.columns) - 1
}

// beside makes columns on both sides of what stands in the way of a line, so that it can
// step over, or under it, there.
func (s *space) beside(all []block) {
	for _, r := range s.rails {
		long := r.a.Distance(r.b)
		if long < merge {
			continue
		}
		d := r.b.Minus(r.a).Times(1 / long)
		for i := range all {
			if !all[i].hits(r.a.At(r.z), r.b.At(r.z)) {
				continue
			}
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, p := range all[i].outline {
				t := p.Minus(r.a).Dot(d)
				lo, hi = math.Min(lo, t), math.Max(hi, t)
			}
			for _, t := range []float64{lo - all[i].clear - 0.05, hi + all[i].clear + 0.05} {
				if t > 0 && t < long {
					s.column(r.a.Plus(d.Times(t)))
				}
			}
		}
	}
}

// axes are the two directions of the room, the first along its longest wall.
func (s *space) axes() [2]geom.Flat {
	best, long := geom.Flat{1, 0}, 0.0
	for i, a := range s.faces {
		d := s.faces[(i+1)%len(s.faces)].Minus(a)
		if l := d.Length(); l > long+geom.Tiny {
			best, long = d.Times(1/l), l
		}
	}
	return [2]geom.Flat{best, {-best[1], best[0]}}
}

// across adds the ways under the ceiling through a place, in the directions of the room,
// from wall to wall.
func (s *space) across(at geom.Flat, z float64, dirs ...geom.Flat) {
	for _, d := range dirs {
		r := rail{a: at.Plus(d.Times(-s.free(at, d.Times(-1)))), b: at.Plus(d.Times(s.free(at, d))), z: z, ceiling: true}
		if r.a.Distance(r.b) < 2*merge || slices.ContainsFunc(s.rails, func(o rail) bool { return o.covers(r) }) {
			continue
		}
		s.rails = append(s.rails, r)
		s.column(r.a)
		s.column(r.b)
	}
}

// free is how far a way goes from a place in a direction to the line along a wall; 0 where
// that leads out of the room.
func (s *space) free(at, d geom.Flat) float64 {
	far := math.Inf(1)
	n := len(s.inset)
	for i, a := range s.inset {
		e := s.inset[(i+1)%n].Minus(a)
		c := d.Cross(e)
		if math.Abs(c) < 1e-9 {
			continue
		}
		t, u := a.Minus(at).Cross(e)/c, a.Minus(at).Cross(d)/c
		if t > merge && u > -1e-9 && u < 1+1e-9 {
			far = math.Min(far, t)
		}
	}
	if math.IsInf(far, 1) || !geom.Contains(s.inset, at.Plus(d.Times(far/2))) {
		return 0
	}
	return far
}

// covers says whether a way is part of another.
func (r rail) covers(o rail) bool {
	if math.Abs(r.z-o.z) > merge {
		return false
	}
	on := func(p geom.Flat) bool { _, ok := r.at(p); return ok }
	return on(o.a) && on(o.b)
}

// at is how far along a way a place lies on it.
func (r rail) at(p geom.Flat) (along float64, on bool) {
	h := geom.NearestOnSegment(p.At(0), r.a.At(0), r.b.At(0))
	return h.Along, h.Distance < merge/2
}

// holds says whether a place on the plan lies in the room or just outside it.
func (s *space) holds(p geom.Point) (off float64, ok bool) {
	if p[2] < s.floor-0.5 || p[2] > s.ceiling+float64(s.room.Void)+0.3 {
		return 0, false
	}
	if geom.Contains(s.faces, p.Plan()) {
		return 0, true
	}
	_, _, off = s.nearest(p.Plan())
	return off, off < atWall/2
}

// spaceAt is the room that a place is in, the smallest of several; −1 for none.
func spaceAt(all []space, p geom.Point) int {
	best := -1
	least, area := math.Inf(1), 0.0
	for i := range all {
		off, ok := all[i].holds(p)
		a := math.Abs(geom.Area(all[i].faces))
		if ok && (off < least || off == least && a < area) {
			best, least, area = i, off, a
		}
	}
	return best
}
