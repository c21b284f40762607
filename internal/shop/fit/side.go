package fit

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// side is one side of a room's outline: edge n leads from corner n to the next.
type side struct {
	a, b        geom.Flat
	dir, out    geom.Flat // unit: along from a to b, and out of the room
	floor, roof float64
}

// sideOf is the n-th side of a room.
func sideOf(r *job.Room, n int) side {
	a, b := r.Outline[n], r.Outline[(n+1)%len(r.Outline)]
	d := direction(a, b)
	s := side{a: a, b: b, dir: d, out: geom.Flat{d[1], -d[0]}, floor: float64(r.Floor), roof: float64(r.Ceiling)}
	if geom.Area(r.Outline) < 0 {
		s.out = s.out.Times(-1)
	}
	return s
}

func (s side) length() float64 { return s.a.Distance(s.b) }

// at is the place on the side t metres from its first corner.
func (s side) at(t float64) geom.Flat { return s.a.Plus(s.dir.Times(t)) }

// meeting is how a wall lies on a side.
type meeting struct {
	lo, hi float64 // m along the side, the stretch that they share
	off    float64 // m, how far out of the side the wall's face lies
	thick  float64
	behind bool // the wall's face looks away from this room: its back is turned here
}

// meets says whether a wall lies on a side, within the wall's thickness, and shares
// a stretch of it at some height.
func (s side) meets(w *job.Wall) (meeting, bool) {
	f := w.Frame()
	face := f.Normal()
	m := meeting{off: w.From.Minus(s.a).Dot(s.out), thick: float64(w.Thickness)}
	// Half a degree: what is drawn along a wall is along it.
	if math.Abs(face.Cross(s.out)) > 0.01 || s.length() == 0 {
		return m, false
	}
	m.behind = face.Dot(s.out) > 0
	lo, hi := m.off, m.off+m.thick // the wall's body
	if m.behind {
		lo, hi = m.off-m.thick, m.off
	}
	if lo > near || hi < -near {
		return m, false
	}
	if math.Min(s.roof, float64(w.Floor+w.Height))-math.Max(s.floor, float64(w.Floor)) < near {
		return m, false
	}
	t1, t2 := w.From.Minus(s.a).Dot(s.dir), w.To.Minus(s.a).Dot(s.dir)
	m.lo, m.hi = math.Max(0, math.Min(t1, t2)), math.Min(s.length(), math.Max(t1, t2))
	return m, m.hi-m.lo > near
}

// back is how far a side has to move inwards to lie on the far face of the
// thickest neighbour's wall that it meets; 0 where it meets none.
func (s side) back(j *job.Job) float64 {
	best, thick := 0.0, -1.0
	for i := range j.Building.Walls {
		m, ok := s.meets(&j.Building.Walls[i])
		if ok && m.behind && m.thick > thick {
			// The wall's face lies off metres out; its back, thick nearer.
			best, thick = m.thick-m.off, m.thick
		}
	}
	if math.Abs(best) <= geom.Tiny {
		return 0
	}
	return best
}

// bare is the stretches of a side on which no wall stands. What is left between
// walls that is no longer than a wall is thick is a corner and needs none.
func (s side) bare(j *job.Job, thick float64) [][2]float64 {
	var taken [][2]float64
	least := thick
	for i := range j.Building.Walls {
		if m, ok := s.meets(&j.Building.Walls[i]); ok {
			taken, least = append(taken, [2]float64{m.lo, m.hi}), math.Max(least, m.thick)
		}
	}
	if taken == nil {
		return [][2]float64{{0, s.length()}}
	}
	slices.SortFunc(taken, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var out [][2]float64
	at := 0.0
	for _, t := range append(taken, [2]float64{s.length(), s.length()}) {
		if t[0]-at > least+near {
			out = append(out, [2]float64{at, t[0]})
		}
		at = math.Max(at, t[1])
	}
	return out
}

// Inset is the way inside a counterclockwise outline at a distance from all its
// sides: where lines run along walls. Corners between sides in one line stay on them.
func Inset(outline []geom.Flat, by float64) []geom.Flat {
	all := make([]float64, len(outline))
	for i := range all {
		all[i] = by
	}
	return shiftedSides(outline, all)
}
