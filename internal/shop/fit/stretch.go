package fit

import (
	"errors"
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Stretch gives a side of a room, or a wall, another length: the gesture
// "stretch", a dimension typed over. The wall at the side's far end moves along
// the side, with the sides of all rooms that it divides; each other wall keeps
// its direction and grows or shrinks. What hugs the wall that moves comes along:
// points and corners of runs, obstacles that touch it. Openings keep their
// distance from the corner that they are nearer to; all else stays where it is.
type Stretch struct {
	did
	Room   job.ID      `json:"room,omitempty"`
	Side   *int        `json:"side,omitempty" min:"0" doc:"of the room: side n leads from corner n to the next; or:"`
	Wall   job.ID      `json:"wall,omitempty" doc:"its left end stays"`
	Length unit.Length `json:"length_m" above:"0" max:"4000"`
	Hold   string      `json:"hold,omitempty" enum:"from,to" doc:"of a side: the corner that stays, the first (from, the default) or the second"`
}

// Edit moves the wall.
func (g *Stretch) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	was, plan, title, err := g.target(ix)
	if err != nil {
		return nil, nil, err
	}
	if math.IsNaN(float64(g.Length)) || math.IsInf(float64(g.Length), 0) {
		return nil, nil, refuse("no-length", "length_m", "that is no length", "it is "+measured(ix, was)+" now")
	}
	try := func(long float64) (job.Edit, error) {
		edits, err := plan(long)
		if err != nil {
			return nil, err
		}
		return fits(job.AllOf(title+" "+measured(ix, long)+" long", edits...), ix)
	}
	e, err := try(float64(g.Length))
	if err != nil {
		return nil, nil, nearestLength(ix, err, was, float64(g.Length), try)
	}
	return e, nil, nil
}

// nearestLength adds to a refusal the length nearest to the one wanted that fits,
// to the centimetre.
func nearestLength(ix *job.Index, err error, was, want float64, try func(float64) (job.Edit, error)) error {
	var r *job.Refusal
	if !errors.As(err, &r) || len(r.Findings) == 0 {
		return err
	}
	good, bad := was, want
	for range 24 {
		mid := (good + bad) / 2
		if _, err := try(mid); err == nil {
			good = mid
		} else {
			bad = mid
		}
	}
	if want < was {
		good = math.Ceil(good*100) / 100
	} else {
		good = math.Floor(good*100) / 100
	}
	word := "shortest"
	if want > was {
		word = "longest"
	}
	f := r.Findings[0]
	return refuse(f.Code, "length_m", f.Read, fmt.Sprintf("the %s that fits is %s", word, measured(ix, good)), f.Where...)
}

// plan is the edits for a length.
type plan func(long float64) ([]job.Edit, error)

// target finds out what is to be stretched: how long it is, how it is done and
// how the title begins.
func (g *Stretch) target(ix *job.Index) (was float64, do plan, title string, err error) {
	if (g.Room == "") == (g.Wall == "") {
		return 0, nil, "", refuse("no-side", "room", "nothing to stretch is named, or both a room and a wall", "give room with side, or wall")
	}
	if g.Wall != "" {
		return g.wall(ix)
	}
	r := ix.Room(g.Room)
	if r == nil {
		return 0, nil, "", noRoom(ix, "room", g.Room)
	}
	if g.Side == nil || *g.Side < 0 || *g.Side >= len(r.Outline) {
		return 0, nil, "", refuse("no-side", "side", fmt.Sprintf("%s has sides 0 to %d", called(r.Name, r.ID), len(r.Outline)-1), "count the sides from the first corner", r.ID)
	}
	return ofSide(ix, r, *g.Side, g.Hold == "to")
}

// ofSide stretches a side of a room.
func ofSide(ix *job.Index, r *job.Room, n int, holdTo bool) (float64, plan, string, error) {
	s := sideOf(r, n)
	count := len(r.Outline)
	dir, moved := s.dir, (n+1)%count // along the side to the wall that moves
	if holdTo {
		dir, moved = s.dir.Times(-1), (n+count-1)%count
	}
	m := sideOf(r, moved)
	if math.Abs(dir.Dot(m.out)) < 0.1 {
		return 0, nil, "", refuse("in-line", "side", fmt.Sprintf("the next side of %s runs on in the same line", called(r.Name, r.ID)),
			"move the corner between them instead", r.ID)
	}
	do := func(long float64) ([]job.Edit, error) {
		return shiftSide(ix, r, moved, (long-s.length())*dir.Dot(m.out))
	}
	return s.length(), do, fmt.Sprintf("made the %s side of %s", compass(s.out), called(r.Name, r.ID)), nil
}

// wall stretches a wall: where it is the whole side of a room, that side.
func (g *Stretch) wall(ix *job.Index) (float64, plan, string, error) {
	w := ix.Wall(g.Wall)
	if w == nil {
		return 0, nil, "", noWall(ix, "wall", g.Wall)
	}
	for i := range ix.Job().Building.Rooms {
		r := &ix.Job().Building.Rooms[i]
		for n := range r.Outline {
			s := sideOf(r, n)
			switch {
			case w.From.Distance(s.b) <= near && w.To.Distance(s.a) <= near:
				return ofSide(ix, r, n, true)
			case w.From.Distance(s.a) <= near && w.To.Distance(s.b) <= near:
				return ofSide(ix, r, n, false)
			}
		}
	}
	was := w.Frame().Length()
	do := func(long float64) ([]job.Edit, error) {
		c := newChange(ix)
		after := *w
		after.To = tidyFlat(w.From.Plus(direction(w.From, w.To).Times(long)))
		c.walls[w.ID] = &after
		return c.edits()
	}
	return was, do, "made " + called(w.Name, w.ID), nil
}
