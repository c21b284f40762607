package hold

import (
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// fixings tells what is fixed to the building: supports by what they are on, outlets
// and reels with the pull that they take, parts that stand on a wall, floor or
// structure; and how to fix to the materials that the walls are of.
func (s *shop) fixings() {
	s.supportFixings()
	for i := range s.j.Outlets {
		o := &s.j.Outlets[i]
		n := s.ix.Point(o.Point)
		at, ok := s.ix.Where(n)
		if !ok {
			continue
		}
		f := s.fixing("outlet", o.ID, n, at, &rulePull)
		f.Loose = f.Onto.How == ""
		if o.Hose != nil && o.Hose.Reel {
			f.For, f.ID, f.Load, f.Rule = "reel", o.Hose.ID, new(ruleReel.Value), ruleReel.Name
		}
		s.a.Fixings = append(s.a.Fixings, f)
	}
	for i := range s.j.Net.Points {
		n := &s.j.Net.Points[i]
		if at, ok := s.ix.Where(n); ok && s.kindOf(&n.Part).FixesTo != "" && len(s.ix.OutletsAt(n.ID)) == 0 {
			s.a.Fixings = append(s.a.Fixings, s.fixing("part", n.ID, n, at, nil))
		}
	}
	s.anchors()
}

// fixing is a part at a point, fixed to what its kind says.
func (s *shop) fixing(what string, id job.ID, n *job.Point, at geom.Point, load *Rule) Fixing {
	f := Fixing{For: what, ID: id, At: &at, State: stateOf(n.State), Onto: On{What: "free"}}
	if load != nil {
		f.Load, f.Rule = new(load.Value), load.Name
	}
	switch s.kindOf(&n.Part).FixesTo {
	case "":
		return f
	case "floor":
		f.Onto = On{What: "floor", How: "stands"}
		if room := s.ix.RoomAt(at); room != nil {
			f.Onto.Room = room.ID
		}
	case "structure":
		f.Onto = s.on(at, "hung")
	default:
		f.Onto = s.on(at, "clipped")
	}
	if f.Onto.Place != nil {
		f.Wall = f.Onto.Place.Wall
	}
	f.MadeOf = s.madeOf(f.Wall)
	return f
}

// supportFixings counts the supports that are to be fixed, by what they are on.
func (s *shop) supportFixings() {
	type key struct {
		what, how, state string
		wall, room       job.ID
	}
	at := map[key]int{}
	for i := range s.a.Supports {
		p := &s.a.Supports[i]
		if p.State == "existing" {
			continue
		}
		k := key{what: p.On.What, how: p.On.How, state: p.State}
		if p.On.Place != nil {
			k.wall = p.On.Wall
		} else {
			k.room = p.On.Room
		}
		n, seen := at[k]
		if !seen {
			n = len(s.a.Fixings)
			at[k] = n
			f := Fixing{For: "supports", Onto: On{What: k.what, How: k.how, Room: k.room}, Wall: k.wall, State: p.State}
			f.MadeOf = s.madeOf(k.wall)
			s.a.Fixings = append(s.a.Fixings, f)
		}
		s.a.Fixings[n].Count++
	}
}

// anchors lists how to fix to the materials of the job's walls.
func (s *shop) anchors() {
	for _, a := range anchors() {
		if slices.ContainsFunc(s.j.Building.Walls, func(w job.Wall) bool { return w.MadeOf == a.MadeOf }) {
			s.a.Anchors = append(s.a.Anchors, a)
		}
	}
}
