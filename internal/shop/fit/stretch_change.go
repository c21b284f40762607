package fit

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// change gathers what becomes of the building, and brings along what stands on it.
type change struct {
	ix        *job.Index
	outlines  map[job.ID][]geom.Flat
	walls     map[job.ID]*job.Wall
	obstacles map[job.ID][]geom.Flat
	moved     *shift // nil where no line moves
}

func newChange(ix *job.Index) *change {
	return &change{ix: ix, outlines: map[job.ID][]geom.Flat{}, walls: map[job.ID]*job.Wall{}, obstacles: map[job.ID][]geom.Flat{}}
}

// edits are the edits of all that changes, in the order of the document.
func (c *change) edits() ([]job.Edit, error) {
	var out []job.Edit
	b := &c.ix.Job().Building
	for i := range b.Rooms {
		if o, ok := c.outlines[b.Rooms[i].ID]; ok {
			out = append(out, set(b.Rooms[i].ID, "outline_m", o))
		}
	}
	for i := range b.Walls {
		was := &b.Walls[i]
		now, ok := c.walls[was.ID]
		if !ok {
			continue
		}
		if now.To.Minus(now.From).Dot(direction(was.From, was.To)) < math.Min(leastSide, was.Frame().Length())-geom.Tiny {
			return nil, refuse("too-short", "length_m", called(was.Name, was.ID)+" would be too short", "", was.ID)
		}
		if now.From != was.From {
			out = append(out, set(was.ID, "from_m", now.From))
		}
		if now.To != was.To {
			out = append(out, set(was.ID, "to_m", now.To))
		}
	}
	openings, err := c.openings()
	if err != nil {
		return nil, err
	}
	out = append(out, openings...)
	for i := range b.Obstacles {
		if o, ok := c.obstacles[b.Obstacles[i].ID]; ok {
			out = append(out, set(b.Obstacles[i].ID, "outline_m", o))
		}
	}
	points, err := c.points()
	if err != nil {
		return nil, err
	}
	return append(append(out, points...), c.paths()...), nil
}

// openings keeps each opening's distance from the corner that it is nearer to.
func (c *change) openings() ([]job.Edit, error) {
	var out []job.Edit
	j := c.ix.Job()
	for i := range j.Building.Walls {
		was := &j.Building.Walls[i]
		now, ok := c.walls[was.ID]
		if !ok {
			continue
		}
		before, after := was.Frame().Length(), now.Frame().Length()
		on := openingsOn(j, was.ID)
		moved := make([]*job.Opening, len(on))
		for k, o := range on {
			p := *o
			if float64(o.Along+o.Width/2) > before/2 {
				p.Along = tidy(float64(o.Along) + after - before)
			}
			if moved[k] = &p; p.Along != o.Along {
				out = append(out, set(o.ID, "along_m", p.Along))
			}
			if float64(p.Along) < -geom.Tiny || float64(p.Along+p.Width) > after+geom.Tiny {
				return nil, refuse("shorter-than-openings", "length_m", called(o.Name, o.ID)+" would reach beyond the end of "+called(was.Name, was.ID), "", was.ID, o.ID)
			}
		}
		for k, o := range moved {
			if p := clashes(o, moved); p != nil && clashes(on[k], on) == nil {
				return nil, refuse("shorter-than-openings", "length_m", called(o.Name, o.ID)+" and "+called(p.Name, p.ID)+" would overlap on "+called(was.Name, was.ID), "", was.ID, o.ID, p.ID)
			}
		}
	}
	return out, nil
}

// points moves what hugs the line that moves and keeps the rest where it is: a
// place along a wall whose start moves is counted anew.
func (c *change) points() ([]job.Edit, error) {
	var out []job.Edit
	net := &c.ix.Job().Net
	for i := range net.Points {
		p := &net.Points[i]
		at, ok := c.ix.Where(p)
		if !ok {
			continue
		}
		if p.On == nil {
			if c.moved != nil && c.moved.follows(at) {
				out = append(out, set(p.ID, "at_m", tidyPoint(at.Plus(c.moved.by.At(0)))))
			}
			continue
		}
		now, changed := c.walls[p.On.Wall]
		if !changed {
			continue
		}
		if c.moved != nil && (c.moved.walls[p.On.Wall] || c.moved.follows(at)) {
			at = at.Plus(c.moved.by.At(0))
		}
		along, _, _ := now.Frame().In(at)
		if along < -geom.Tiny || along > now.Frame().Length()+geom.Tiny {
			return nil, refuse("off-wall", "length_m", called(p.Name, p.ID)+" would hang beyond the end of "+called(now.Name, now.ID), "", p.ID, now.ID)
		}
		if math.Abs(along-float64(p.On.Along)) > 1e-7 {
			out = append(out, set(p.ID, "on.along_m", max(unit.Length(0), tidy(along))))
		}
	}
	return out, nil
}

// paths moves the corners of runs that hug the line that moves.
func (c *change) paths() []job.Edit {
	var out []job.Edit
	if c.moved == nil {
		return nil
	}
	net := &c.ix.Job().Net
	for i := range net.Runs {
		r := &net.Runs[i]
		path, changed := make([]geom.Point, len(r.Path)), false
		for k, p := range r.Path {
			path[k] = p
			if c.moved.follows(p) {
				path[k], changed = tidyPoint(p.Plus(c.moved.by.At(0))), true
			}
		}
		if changed {
			out = append(out, set(r.ID, "path_m", path))
		}
	}
	return out
}
