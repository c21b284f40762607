package route

import (
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// floor is the plan as a hose lies on it: squares that are free or not, and the sides of
// what is worked on.
type floor struct {
	spaces []space
	low    geom.Flat
	wide   int
	deep   int
	free   []bool
	sides  []workSide
}

// workSide is one side of an obstacle: the places where somebody stands at it.
type workSide struct {
	name   string
	at     []geom.Flat
	missed bool
}

// place is where an outlet may hang, or one that does.
type place struct {
	at       geom.Point
	wall     job.ID // "" where none is known
	overhead bool
	stands   string  // name of the outlet that is there
	covers   []int   // sides
	far      float64 // m of hose to all of them
}

// cell is the side of a square, standOff where one stands from what one works on, and
// inFront how deep before a door no hose lies; metres.
const (
	cell     = 0.2
	standOff = 0.4
	inFront  = 0.9
)

// floorOf marks the squares and lists the sides that somebody can stand at.
func floorOf(ix *job.Index, work []*job.Obstacle) *floor {
	b := &ix.Job().Building
	f := &floor{spaces: spacesOf(b, false, nil)}
	var all []geom.Flat
	for i := range f.spaces {
		all = append(all, f.spaces[i].faces...)
	}
	low, high, _ := geom.Bounds(all)
	f.low, f.wide, f.deep = low, int((high[0]-low[0])/cell)+1, int((high[1]-low[1])/cell)+1
	f.free = make([]bool, f.wide*f.deep)
	stands := doorways(ix)
	for i := range b.Obstacles {
		if o := &b.Obstacles[i]; float64(o.Bottom) < handUp {
			stands = append(stands, o.Outline)
		}
	}
	for c := range f.free {
		p := f.middle(c)
		f.free[c] = f.room(p) >= 0
		for _, o := range stands {
			if f.free[c] && geom.Contains(o, p) {
				f.free[c] = false
			}
		}
	}
	for _, o := range work {
		f.around(o)
	}
	return f
}

// doorways are the places in front of doors and gates, on both sides.
func doorways(ix *job.Index) [][]geom.Flat {
	var out [][]geom.Flat
	for i := range ix.Job().Building.Openings {
		o := &ix.Job().Building.Openings[i]
		w := ix.Wall(o.Wall)
		if w == nil || o.Sill > 0.5 {
			continue // a window
		}
		var outline []geom.Flat
		a, b := float64(o.Along), float64(o.Along+o.Width)
		for _, c := range [][2]float64{{a, -inFront - float64(w.Thickness)}, {b, -inFront - float64(w.Thickness)}, {b, inFront}, {a, inFront}} {
			outline = append(outline, w.Frame().Out(c[0], 0, c[1]).Plan())
		}
		out = append(out, outline)
	}
	return out
}

func (f *floor) middle(c int) geom.Flat {
	return geom.Flat{f.low[0] + (float64(c%f.wide)+0.5)*cell, f.low[1] + (float64(c/f.wide)+0.5)*cell}
}

// square is the square of a place; −1 outside.
func (f *floor) square(p geom.Flat) int {
	x, y := int(math.Floor((p[0]-f.low[0])/cell)), int(math.Floor((p[1]-f.low[1])/cell))
	if x < 0 || y < 0 || x >= f.wide || y >= f.deep {
		return -1
	}
	return y*f.wide + x
}

// room is the room that a place on the plan lies in; −1 for none.
func (f *floor) room(p geom.Flat) int {
	for i := range f.spaces {
		if geom.Contains(f.spaces[i].faces, p) {
			return i
		}
	}
	return -1
}

// around adds the sides of an obstacle at which somebody can stand, by the points of the
// compass, north along y.
func (f *floor) around(o *job.Obstacle) {
	words := [4]string{"east side", "north side", "west side", "south side"}
	var at [4][]geom.Flat
	n := len(o.Outline)
	area := geom.Area(o.Outline)
	for i, a := range o.Outline {
		b := o.Outline[(i+1)%n]
		d := b.Minus(a)
		l := d.Length()
		if l < geom.Tiny {
			continue
		}
		out := geom.Flat{d[1] / l, -d[0] / l}
		if area < 0 {
			out = out.Times(-1)
		}
		q := (int(math.Round(math.Atan2(out[1], out[0])/(math.Pi/2))) + 4) % 4
		for _, t := range []float64{0.1, 0.5, 0.9} {
			p := a.Plus(d.Times(t)).Plus(out.Times(standOff))
			if c := f.square(p); c >= 0 && f.free[c] {
				at[q] = append(at[q], p)
			}
		}
	}
	for q := range at {
		if at[q] != nil {
			f.sides = append(f.sides, workSide{name: fmt.Sprintf("%s, %s", named(o.Name, o.Kind, "the "), words[q]), at: at[q]})
		}
	}
}

// places lists where outlets may hang: those that do, along the walls, and overhead.
func (f *floor) places(ix *job.Index, shelf *catalog.Catalog, ceiling bool) []place {
	var out []place
	for i := range ix.Job().Outlets {
		o := &ix.Job().Outlets[i]
		if p, ok := ix.Where(ix.Point(o.Point)); ok {
			x := place{at: p, stands: o.Name}
			k, _ := shelf.Kind(ix.Point(o.Point).Part.Kind)
			x.overhead = k.FixesTo == "structure"
			out = append(out, x)
		}
	}
	clear := blocks(&ix.Job().Building, ix.Wall, 0)
	for i := range f.spaces {
		s := &f.spaces[i]
		for k, a := range s.inset {
			b := s.inset[(k+1)%len(s.inset)]
			l := a.Distance(b)
			for t := fromCorner; t <= l-fromCorner+geom.Tiny; t += everySpot {
				p := a.Plus(b.Minus(a).Times(t / l)).At(s.floor + outletUp)
				if !f.stoodIn(clear, p) {
					out = append(out, place{at: p, wall: wallBeside(ix, p)})
				}
			}
		}
		if ceiling {
			out = append(out, f.overhead(i)...)
		}
	}
	return out
}

// stoodIn says whether something stands where an outlet would hang, or a door is beside it.
func (f *floor) stoodIn(all []block, p geom.Point) bool {
	for i := range all {
		b := all[i]
		b.clear = math.Max(b.clear, fromDoor)
		if b.high > p[2] && b.holds(p) {
			return true
		}
	}
	return false
}

// overhead are places under the ceiling of a room, over where one can walk.
func (f *floor) overhead(room int) []place {
	var out []place
	const each = int(1.0 / cell)
	for y := 2; y < f.deep; y += each {
		for x := 2; x < f.wide; x += each {
			if c := y*f.wide + x; f.free[c] && f.room(f.middle(c)) == room {
				out = append(out, place{at: f.middle(c).At(f.spaces[room].top - legLeast), overhead: true})
			}
		}
	}
	return out
}

// wallBeside is the wall that a place is on.
func wallBeside(ix *job.Index, p geom.Point) job.ID {
	walls := ix.Job().Building.Walls
	best, off := job.ID(""), math.Inf(1)
	for i := range walls {
		if h := geom.NearestOnSegment(p.Plan().At(0), walls[i].From.At(0), walls[i].To.At(0)); h.Distance < off {
			best, off = walls[i].ID, h.Distance
		}
	}
	return best
}
