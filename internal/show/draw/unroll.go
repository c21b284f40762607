package draw

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// panel is one side of a room as one sees it standing before it: along runs from
// left to right, up from the floor.
type panel struct {
	geom.Frame
	name  string
	long  float64
	walls []stand     // the walls on it
	at    scene.Point // of along 0 on the floor, in the scene
	next  int         // the panel that its right edge meets in a corner; −1 for none
	bare  bool        // a side without a wall
}

// stand is a wall on a panel: where its two ends are along the panel, and whether
// it is seen from behind, its own along running to the left.
type stand struct {
	wall     *job.Wall
	from, to float64 // along the panel, of the wall's own start and end
	flip     bool
}

// span is the part of the panel that the wall covers.
func (s stand) span(long float64) (low, high float64) {
	return max(min(s.from, s.to), 0), min(max(s.from, s.to), long)
}

// busiest is the room with the greatest length of lines in it; the first of
// equals, nil where there is no room.
func busiest(ix *job.Index) *job.Room {
	j := ix.Job()
	metres := map[job.ID]float64{}
	for i := range j.Net.Runs {
		line := ix.Centreline(&j.Net.Runs[i])
		for k := 1; k < len(line); k++ {
			if r := ix.RoomAt(line[k-1].Plus(line[k]).Times(0.5)); r != nil {
				metres[r.ID] += line[k].Distance(line[k-1])
			}
		}
	}
	var best *job.Room
	for i := range j.Building.Rooms {
		if r := &j.Building.Rooms[i]; best == nil || metres[r.ID] > metres[best.ID]+1e-9 {
			best = r
		}
	}
	return best
}

// panels are the sides of a room in walking order, as one turns to the right
// inside it, beginning at the first wall that was drawn; without a room the walls
// themselves, unrolled.
func panels(j *job.Job, room *job.Room) []panel {
	if room == nil {
		return loose(j)
	}
	outline := clockwise(room.Outline)
	var all []panel
	for i, c := range outline {
		f := geom.Frame{From: c, To: outline[(i+1)%len(outline)], Floor: float64(room.Floor)}
		p := panel{Frame: f, long: f.Length()}
		if p.long < 0.01 {
			continue
		}
		p.stand(j)
		all = append(all, p)
	}
	all = begun(all, j)
	for i := range all {
		all[i].next = (i + 1) % len(all)
		all[i].call(i)
	}
	return append(all, inner(j, room, all)...)
}

// clockwise is an outline in the order in which one sees its sides from left to
// right; corners that are no number are passed over.
func clockwise(outline []geom.Flat) []geom.Flat {
	var out []geom.Flat
	for _, c := range outline {
		if c.Finite() {
			out = append(out, c)
		}
	}
	if geom.Area(out) > 0 {
		for i, k := 0, len(out)-1; i < k; i, k = i+1, k-1 {
			out[i], out[k] = out[k], out[i]
		}
	}
	return out
}

// begun turns the order so that the wall drawn first comes first.
func begun(all []panel, j *job.Job) []panel {
	for i := range j.Building.Walls {
		for k, p := range all {
			for _, s := range p.walls {
				if s.wall == &j.Building.Walls[i] && !s.flip {
					return append(append([]panel{}, all[k:]...), all[:k]...)
				}
			}
		}
	}
	return all
}

// call names a panel after the walls on it, or by its number.
func (p *panel) call(i int) {
	for _, s := range p.walls {
		if s.wall.Name != "" && (p.name == "" || !s.flip) {
			p.name = s.wall.Name
		}
	}
	p.bare = len(p.walls) == 0
	switch {
	case p.name == "" && p.bare:
		p.name = "Side " + trim(float64(i+1)) + ", no wall drawn"
	case p.name == "":
		p.name = "Wall " + trim(float64(i+1))
	}
}

// flush is how far a wall's face may be off a room's side and still stand on it,
// beyond its own thickness, in metres.
const flush = 0.06

// stand finds the walls on a panel: along it, with their face or their back on it.
func (p *panel) stand(j *job.Job) {
	for i := range j.Building.Walls {
		w := &j.Building.Walls[i]
		if !w.From.Finite() || !w.To.Finite() || w.Frame().Length() < 0.01 {
			continue
		}
		a, _, da := p.In(w.From.At(0))
		b, _, db := p.In(w.To.At(0))
		reach := float64(max(w.Thickness, 0)) + flush
		// Only a wall behind the side may be a thickness away.
		if math.Abs(da-db) > 0.02*math.Abs(b-a)+0.005 || da > flush || da < -reach {
			continue
		}
		s := stand{wall: w, from: a, to: b, flip: b < a}
		if low, high := s.span(p.long); high-low > 0.05 {
			p.walls = append(p.walls, s)
		}
	}
}

// inner are walls that stand free within a room, seen from their inside.
func inner(j *job.Job, room *job.Room, sides []panel) []panel {
	on := map[*job.Wall]bool{}
	for _, p := range sides {
		for _, s := range p.walls {
			on[s.wall] = true
		}
	}
	var all []panel
	for i := range j.Building.Walls {
		w := &j.Building.Walls[i]
		f := w.Frame()
		if on[w] || !w.From.Finite() || !w.To.Finite() || f.Length() < 0.3 || !geom.Contains(room.Outline, w.From.Plus(w.To).Times(0.5)) {
			continue
		}
		f.Floor = float64(room.Floor)
		all = append(all, alone(w, f, len(sides)+len(all)))
	}
	return all
}

func alone(w *job.Wall, f geom.Frame, i int) panel {
	p := panel{Frame: f, long: f.Length(), next: -1, walls: []stand{{wall: w, to: f.Length()}}}
	p.call(i)
	return p
}

// loose are all walls of a shop without rooms, unrolled in walking order.
func loose(j *job.Job) []panel {
	var frames []geom.Frame
	var walls []*job.Wall
	for i := range j.Building.Walls {
		w := &j.Building.Walls[i]
		if f := w.Frame(); w.From.Finite() && w.To.Finite() && f.Length() > 0.01 {
			frames, walls = append(frames, f), append(walls, w)
		}
	}
	strip := geom.Unroll(frames, 0)
	var all []panel
	for i, k := range strip.Order {
		all = append(all, alone(walls[k], strip.Frames[i], i))
		if n := len(all); n > 1 && all[n-2].To.Distance(all[n-1].From) <= geom.Tiny*10 {
			all[n-2].next = n - 1
		}
	}
	if n := len(all); n > 2 && all[n-1].To.Distance(all[0].From) <= geom.Tiny*10 {
		all[n-1].next = 0
	}
	return all
}

// tallest is the height over the floor of a room with its void, or of the walls.
func tallest(j *job.Job, room *job.Room) (ceiling, top float64) {
	if room != nil {
		ceiling = float64(room.Ceiling - room.Floor)
		top = ceiling + float64(room.Void)
	} else {
		for _, w := range j.Building.Walls {
			ceiling = max(ceiling, float64(w.Height))
		}
		top = ceiling
	}
	if !finite(top) || ceiling < 0.2 {
		return 2.5, 2.5 // a drawing needs some height to stand on
	}
	return ceiling, top
}

// overlaps is how much of an obstacle stands before the panel within reach of it.
func (p *panel) before(o job.Obstacle, reach unit.Length) (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	near := math.Inf(1)
	for _, c := range o.Outline {
		along, _, deep := p.In(c.At(0))
		low, high = min(low, along), max(high, along)
		if deep > -0.3 {
			near = min(near, max(deep, 0))
		}
	}
	low, high = max(low, 0), min(high, p.long)
	return low, high, high-low > 0.02 && near <= float64(reach)
}
