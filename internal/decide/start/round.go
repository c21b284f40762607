package start

import (
	"math"
	"strings"

	"dropleg/engine/geom"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// round is the way round a room along its walls. A place on it is t, metres from
// the first corner, counterclockwise.
type round struct {
	room  *job.Room
	faces []geom.Flat // corners
	begin []float64   // t of each corner
	total float64
	walls []*job.Wall // of each side
	doors []span      // t where doors are, with their tops
}

// span is a stretch of the round.
type span struct{ lo, hi, top float64 }

// roundOf is the way round the only room of a job.
func roundOf(j *job.Job) *round {
	r := &round{room: &j.Building.Rooms[0]}
	r.faces = r.room.Outline
	r.walls = make([]*job.Wall, len(r.faces))
	for i, c := range r.faces {
		next := r.faces[(i+1)%len(r.faces)]
		r.begin = append(r.begin, r.total)
		r.total += c.Distance(next)
		for k := range j.Building.Walls {
			if w := &j.Building.Walls[k]; w.From.Distance(next) < geom.Tiny && w.To.Distance(c) < geom.Tiny {
				r.walls[i] = w
			}
		}
	}
	for i := range j.Building.Openings {
		o := &j.Building.Openings[i]
		for k, w := range r.walls {
			if w == nil || w.ID != o.Wall {
				continue
			}
			end := r.begin[k] + r.long(k)
			r.doors = append(r.doors, span{end - float64(o.Along+o.Width), end - float64(o.Along), float64(o.Sill + o.Height)})
		}
	}
	return r
}

// long is the length of a side.
func (r *round) long(i int) float64 { return r.faces[i].Distance(r.faces[(i+1)%len(r.faces)]) }

// wrap brings t into the round.
func (r *round) wrap(t float64) float64 {
	t = math.Mod(t, r.total)
	if t < 0 {
		t += r.total
	}
	return t
}

// side is the side that t lies on, and how far from its first corner.
func (r *round) side(t float64) (i int, s float64) {
	t = r.wrap(t)
	for i = len(r.begin) - 1; i > 0 && r.begin[i] > t; i-- {
	}
	return i, t - r.begin[i]
}

// at is the place off metres in front of t, at height z over the floor.
func (r *round) at(t, off, z float64) geom.Point {
	i, s := r.side(t)
	a, b := r.faces[i], r.faces[(i+1)%len(r.faces)]
	d := b.Minus(a).Times(1 / a.Distance(b))
	p := a.Plus(d.Times(s)).Plus(geom.Flat{-d[1], d[0]}.Times(off))
	return p.At(float64(r.room.Floor) + z)
}

// on is t as a place on a wall, off its face and up from its floor.
func (r *round) on(t, off, up float64) fit.Place {
	i, s := r.side(t)
	if r.walls[i] == nil {
		at := r.at(t, off, up)
		return fit.Place{At: &at}
	}
	along, height := length(math.Max(0, r.long(i)-s)), length(up)
	return fit.Place{Wall: r.walls[i].ID, Along: &along, Up: &height, Off: length(off)}
}

// find is the t of a place on a wall; ok is false where there is no such wall, or
// the place is not on it.
func (r *round) find(wall string, along float64) (t, long float64, ok bool) {
	for i, w := range r.walls {
		if w == nil || string(w.ID) != "wall."+strings.ToLower(strings.TrimSpace(wall)) {
			continue
		}
		long = r.long(i)
		return r.begin[i] + long - along, long, along <= long+geom.Tiny
	}
	return 0, 0, false
}

// words lists the walls as the questions call them.
func (r *round) words() []string {
	var out []string
	for _, w := range r.walls {
		if w != nil {
			out = append(out, strings.TrimPrefix(string(w.ID), "wall."))
		}
	}
	return out
}

// ahead is how far one goes from t to another place in a direction.
func (r *round) ahead(t, to, dir float64) float64 {
	u := r.wrap((to - t) * dir)
	if r.total-u < geom.Tiny {
		return 0
	}
	return u
}
