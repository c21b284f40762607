package hold

import (
	"cmp"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// marks tells each wall in walking order with what is to be marked on it: supports,
// outlets, turns of lines and the parts on them, by their distance along the wall.
func (s *shop) marks() {
	walls := s.j.Building.Walls
	frames := make([]geom.Frame, len(walls))
	for i := range walls {
		frames[i] = walls[i].Frame()
	}
	at := map[job.ID]int{}
	for _, i := range geom.Unroll(frames, 0).Order {
		w := &walls[i]
		at[w.ID] = len(s.a.Walls)
		s.a.Walls = append(s.a.Walls, Wall{ID: w.ID, MadeOf: w.MadeOf, Length: unit.Length(frames[i].Length()), Marks: []Mark{}})
	}
	mark := func(what, id string, p Place) {
		if i, ok := at[p.Wall]; ok {
			s.a.Walls[i].Marks = append(s.a.Walls[i].Marks, Mark{what, id, p})
		}
	}
	for i := range s.a.Supports {
		if p := &s.a.Supports[i]; p.On.Place != nil && p.State != "existing" {
			mark("support", p.ID, *p.On.Place)
		}
	}
	for _, n := range s.order {
		if p, ok := s.placeOf(n); ok {
			mark(n.word(), n.id, p)
		}
	}
	for i := range s.a.Walls {
		slices.SortStableFunc(s.a.Walls[i].Marks, func(a, b Mark) int {
			return cmp.Or(cmp.Compare(a.Along, b.Along), cmp.Compare(b.Up, a.Up))
		})
	}
}

// placeOf is a node's place on a wall: as its point states, else on the wall in reach.
func (s *shop) placeOf(n *node) (Place, bool) {
	if n.point != nil && n.point.On != nil {
		on := n.point.On
		return Place{on.Wall, on.Along, on.Up, on.Off}, true
	}
	w, p, _ := s.wallAt(n.at)
	return p, w != nil
}

// word is what a node is to whoever marks a wall.
func (n *node) word() string {
	switch {
	case n.outlet:
		return "outlet"
	case n.corner > 0 || len(n.ends) == 2 && len(n.pairs) == 0:
		return "turn"
	}
	return "part"
}
