package hold

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// wallAt is the wall nearest to a place within reach of its face, or of its back, and
// the place on it; the earlier one of two as near.
func (s *shop) wallAt(p geom.Point) (w *job.Wall, at Place, off float64) {
	best := ruleReach.Value + geom.Tiny
	for i := range s.j.Building.Walls {
		wall := &s.j.Building.Walls[i]
		f := wall.Frame()
		along, up, out := f.In(p)
		const edge = 0.1 // m past an end or the top, where a bracket still reaches
		if along < -edge || along > f.Length()+edge || up < -edge || up > float64(wall.Height)+edge {
			continue
		}
		if past := along < -geom.Tiny || along > f.Length()+geom.Tiny; past && out < -geom.Tiny && out > -float64(wall.Thickness) {
			continue // beside the end of its body: at a corner that stands into the room
		}
		d := out
		if out < 0 {
			d = max(0, -out-float64(wall.Thickness))
		}
		if d < best-geom.Tiny {
			best, w = d, wall
			at = Place{wall.ID, unit.Length(along), unit.Length(up), unit.Length(out)}
		}
	}
	return w, at, best
}

// on is what a support or part at a place is fixed to, by how its line is said to be
// held: "hung" prefers the ceiling unless a wall is nearer.
func (s *shop) on(p geom.Point, support string) On {
	wall, at, off := s.wallAt(p)
	drop := math.Inf(1)
	o := On{What: "free"}
	room := s.ix.RoomAt(p)
	if room != nil {
		o.Room, drop = room.ID, max(0, float64(room.Ceiling)-p[2])
	}
	const flush = 0.1 // m, off a wall to which a clip reaches without a bracket
	switch {
	case support == "void":
		o.What, o.How = "void", "hanger"
	case wall != nil && (support != "hung" || off < drop):
		o.What, o.How, o.Place = "wall", "bracket", &at
		o.Opening = s.openingAt(&at)
		switch {
		case o.Opening != "":
			o.How = ""
		case at.Off < -geom.Tiny && at.Off > -wall.Thickness:
			o.How = "sleeve"
		case off <= flush+geom.Tiny:
			o.How = "clip"
		}
	case room != nil:
		o.What, o.How, o.Drop = "ceiling", "hanger", unit.Length(drop)
		if drop <= flush {
			o.How = "clip"
		}
	}
	return o
}

// openingAt is the opening in which a place on a wall lies; "" for none.
func (s *shop) openingAt(p *Place) job.ID {
	for i := range s.j.Building.Openings {
		o := &s.j.Building.Openings[i]
		if o.Wall == p.Wall && p.Along > o.Along && p.Along < o.Along+o.Width && p.Up > o.Sill && p.Up < o.Sill+o.Height {
			return o.ID
		}
	}
	return ""
}

// madeOf is what a wall is made of; "" where nobody stated it.
func (s *shop) madeOf(wall job.ID) string {
	if w := s.ix.Wall(wall); w != nil {
		return w.MadeOf
	}
	return ""
}
