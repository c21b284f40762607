package fit

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// building moves a thing of the building and pulls along what belongs to it: with a
// wall what stands on it, with a room its own walls and all that is in it.
func (p *puller) building(id job.ID, by geom.Point, walls map[job.ID]bool) []job.Edit {
	out := []job.Edit{&job.Move{ID: id, By: &by}}
	switch id.Word() {
	case "wall":
		if walls[id] {
			return nil
		}
		p.withWall(id, by, walls)
	case "room":
		j := p.ix.Job()
		room := p.ix.Room(id)
		for i := range j.Building.Walls {
			if w := &j.Building.Walls[i]; !walls[w.ID] && p.onlyOf(w, room) {
				out = append(out, &job.Move{ID: w.ID, By: &by})
				p.withWall(w.ID, by, walls)
			}
		}
		for i := range j.Building.Obstacles {
			if o := &j.Building.Obstacles[i]; geom.Contains(room.Outline, geom.Centre(o.Outline)) {
				out = append(out, &job.Move{ID: o.ID, By: &by})
			}
		}
		p.inside(room, by)
	}
	return out
}

// withWall pulls what stands on a wall along.
func (p *puller) withWall(id job.ID, by geom.Point, walls map[job.ID]bool) {
	walls[id] = true
	for _, n := range p.points {
		if n.On != nil && n.On.Wall == id {
			p.pull(by, spotKey{point: n.ID})
			p.serving(n, by)
		}
	}
}

// inside pulls all that is in a room along.
func (p *puller) inside(room *job.Room, by geom.Point) {
	in := func(at geom.Point) bool { r := p.ix.RoomAt(at); return r != nil && r.ID == room.ID }
	for _, n := range p.points {
		if n.placed && in(n.where) {
			p.pull(by, spotKey{point: n.ID})
		}
	}
	for _, r := range p.runs {
		for i, at := range r.Path {
			if in(at) {
				p.pull(by, spotKey{run: r.ID, i: i})
			}
		}
	}
}

// atWall is how near the outline of a room runs to a wall that is its own.
const atWall = 0.4

// onlyOf says whether a wall stands along the outline of a room and of no other.
func (p *puller) onlyOf(w *job.Wall, room *job.Room) bool {
	rooms := p.ix.Job().Building.Rooms
	if !along(w, room.Outline) {
		return false
	}
	return !slices.ContainsFunc(rooms, func(r job.Room) bool { return r.ID != room.ID && along(w, r.Outline) })
}

// along says whether a wall stands along an edge of an outline.
func along(w *job.Wall, outline []geom.Flat) bool {
	f := w.Frame()
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		s1, _, o1 := f.In(a.At(float64(w.Floor)))
		s2, _, o2 := f.In(b.At(float64(w.Floor)))
		if math.Abs(o1) < atWall && math.Abs(o2) < atWall && math.Min(math.Max(s1, s2), f.Length())-math.Max(math.Min(s1, s2), 0) > atWall {
			return true
		}
	}
	return false
}
