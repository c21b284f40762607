package fit

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Room draws a room with its walls: the gesture "room". The outline is the inner
// faces of its walls. Where a side meets the back of a neighbour's wall, that
// wall serves both rooms: the side is laid on the wall's far face, and no second
// wall is made there. A room given by corner and size keeps its size and moves,
// one that was drawn keeps its other sides. A side on the inner face of a wall
// (a booth in the corner of a hall) takes that wall too.
type Room struct {
	did
	Name    string            `json:"name"`
	Outline []geom.Flat       `json:"outline_m,omitempty" min:"-2000" max:"2000" doc:"corners in order; or:"`
	Corner  *geom.Flat        `json:"corner_m,omitempty" min:"-2000" max:"2000" doc:"the corner with the least x and y; with size_m"`
	Size    *geom.Flat        `json:"size_m,omitempty" min:"0" max:"4000" doc:"width along x and depth along y, inside"`
	Floor   unit.Length       `json:"floor_m,omitempty" min:"-100" max:"200"`
	Ceiling unit.Length       `json:"ceiling_m" min:"-100" max:"300" doc:"height above the datum"`
	Above   string            `json:"above,omitempty" enum:"open,boarded,tiled"`
	Void    unit.Length       `json:"void_m,omitempty" min:"0" max:"10"`
	Zone    job.ID            `json:"zone,omitempty" doc:"a zone that is there; or:"`
	Climate string            `json:"climate,omitempty" enum:"heated,unheated,outside" doc:"of a zone made for the room"`
	Winter  *unit.Temperature `json:"winter_C,omitempty" min:"-90" max:"60"`
	Summer  *unit.Temperature `json:"summer_C,omitempty" min:"-90" max:"70"`
	Walls   *RoomWalls        `json:"walls,omitempty" doc:"null: no walls are made"`
}

// RoomWalls is what the walls of a room are made like.
type RoomWalls struct {
	Thickness unit.Length `json:"thickness_m" min:"0" max:"5"`
	MadeOf    string      `json:"made_of,omitempty" enum:"brick,block,concrete,timber-frame,steel-frame,plasterboard,sheet"`
	Outside   *bool       `json:"outside,omitempty" doc:"default: outside where no room lies behind"`
}

// Edit adds the room, its walls and its zone.
func (g *Room) Edit(ix *job.Index, _ *catalog.Catalog) (job.Edit, []job.ID, error) {
	outline, err := g.outline(ix)
	if err != nil {
		return nil, nil, err
	}
	if g.Ceiling <= g.Floor {
		return nil, nil, refuse("upside-down", "ceiling_m", fmt.Sprintf("the ceiling at %s is not above the floor at %s", measured(ix, float64(g.Ceiling)), measured(ix, float64(g.Floor))),
			"give a height of room, "+measured(ix, float64(g.Floor)+3)+" for one that is "+measured(ix, 3)+" high")
	}
	n := newNames(ix)
	r := &job.Room{
		ID: n.fresh(idOf("room", g.Name, "room")), Name: g.Name, Outline: g.setBack(ix, outline),
		Floor: g.Floor, Ceiling: g.Ceiling, Above: g.Above, Void: g.Void, Zone: g.Zone,
	}
	if _, err := cleanOutline(r.Outline, "outline_m"); err != nil {
		return nil, nil, refuse("outline-flat", "outline_m", "between the walls of its neighbours no room is left", "draw it larger than the walls are thick")
	}
	made := []job.ID{r.ID}
	var edits []job.Edit
	zone, err := g.zone(ix, n)
	if err != nil {
		return nil, nil, err
	}
	if zone != nil {
		r.Zone = zone.ID
		edits = append(edits, job.AddOf(zone))
	}
	edits = append(edits, job.AddOf(r))
	for _, w := range g.walls(ix, n, r) {
		edits, made = append(edits, job.AddOf(w)), append(made, w.ID)
	}
	edits = append(edits, g.enclosed(ix, r)...)
	if zone != nil {
		made = append(made, zone.ID)
	}
	low, high, _ := geom.Bounds(r.Outline)
	title := fmt.Sprintf("drew room %q, %s by %s", g.Name, measured(ix, high[0]-low[0]), measured(ix, high[1]-low[1]))
	e, err := fits(job.AllOf(title, edits...), ix)
	return e, made, err
}

// outline is the room's outline as given, counterclockwise.
func (g *Room) outline(ix *job.Index) ([]geom.Flat, error) {
	switch {
	case len(g.Outline) > 0 && g.Corner == nil && g.Size == nil:
		return cleanOutline(g.Outline, "outline_m")
	case len(g.Outline) == 0 && g.Corner != nil && g.Size != nil:
		return rectangle(ix, *g.Corner, *g.Size, "size_m")
	case len(g.Outline) > 0:
		return nil, refuse("two-places", "outline_m", "the room is given twice", "give outline_m alone, or corner_m with size_m")
	}
	return nil, refuse("no-place", "outline_m", "the room has no outline", "give outline_m, or corner_m with size_m")
}

// zone is the zone made for the room; nil where it takes one that is there or none.
func (g *Room) zone(ix *job.Index, n *names) (*job.Zone, error) {
	if g.Zone != "" {
		if ix.Zone(g.Zone) == nil {
			var ids []string
			for i := range ix.Job().Building.Zones {
				ids = append(ids, string(ix.Job().Building.Zones[i].ID))
			}
			return nil, refuse("leads-nowhere", "zone", "there is no zone "+brief(string(g.Zone)), unit.Nearest(brief(string(g.Zone)), ids), g.Zone)
		}
		if g.Climate != "" || g.Winter != nil || g.Summer != nil {
			return nil, refuse("two-zones", "climate", "the room is given a zone and a climate of its own", "give one of them")
		}
		return nil, nil
	}
	if g.Climate == "" {
		if g.Winter != nil || g.Summer != nil {
			return nil, refuse("no-climate", "climate", "temperatures are given and no climate", "say heated, unheated or outside")
		}
		return nil, nil
	}
	return &job.Zone{ID: n.fresh(idOf("zone", g.Name, g.Climate)), Name: g.Name, Climate: g.Climate, Winter: g.Winter, Summer: g.Summer}, nil
}

// walls are the walls that the room needs beside those that are there.
func (g *Room) walls(ix *job.Index, n *names, r *job.Room) []*job.Wall {
	if g.Walls == nil {
		return nil
	}
	first := len(ix.Job().Building.Rooms) == 0
	var out []*job.Wall
	for i := range r.Outline {
		s := sideOf(r, i)
		for _, piece := range s.bare(ix.Job(), float64(g.Walls.Thickness)) {
			w := &job.Wall{
				From: tidyFlat(s.at(piece[1])), To: tidyFlat(s.at(piece[0])), Floor: r.Floor, Height: r.Ceiling - r.Floor,
				Thickness: g.Walls.Thickness, MadeOf: g.Walls.MadeOf,
			}
			way := compass(s.out)
			stem, name := r.Name+" "+way, fmt.Sprintf("%s, %s", r.Name, way)
			if first {
				stem, name = way, titled(way)+" wall"
			}
			w.ID, w.Name = n.fresh(idOf("wall", stem, way)), freeName(name, ix.Job().Building.Walls, out)
			behind := w.Frame().Out(w.Frame().Length()/2, float64(w.Height)/2, -float64(w.Thickness)-0.05)
			w.Outside = ix.RoomAt(behind) == nil
			if g.Walls.Outside != nil {
				w.Outside = *g.Walls.Outside
			}
			out = append(out, w)
		}
	}
	return out
}

// freeName is a name that no wall has: of two that look one way, as in an L, the second has a
// number, for a mark "on the east wall" has to be on one.
func freeName(name string, stand []job.Wall, made []*job.Wall) string {
	free := name
	for n := 2; slices.ContainsFunc(stand, func(w job.Wall) bool { return w.Name == free }) || slices.ContainsFunc(made, func(w *job.Wall) bool { return w.Name == free }); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// titled begins a word with a capital.
func titled(word string) string {
	if word == "" {
		return word
	}
	return string(word[0]-'a'+'A') + word[1:]
}

// setBack lays each side that meets a neighbour's wall on the wall's far face.
func (g *Room) setBack(ix *job.Index, outline []geom.Flat) []geom.Flat {
	r := &job.Room{Outline: outline, Floor: g.Floor, Ceiling: g.Ceiling}
	by, any := make([]float64, len(outline)), false
	for i := range outline {
		s := sideOf(r, i)
		by[i] = s.back(ix.Job())
		any = any || math.Abs(by[i]) > geom.Tiny
	}
	if !any {
		return outline
	}
	if g.Size != nil { // a typed size is kept: the opposite side comes along
		for i := range 2 {
			switch a, b := by[i], by[i+2]; {
			case a != 0 && b == 0:
				by[i+2] = -a
			case b != 0 && a == 0:
				by[i] = -b
			}
		}
	}
	return shiftedSides(outline, by)
}

// shiftedSides is a counterclockwise outline with each side moved inwards.
func shiftedSides(outline []geom.Flat, by []float64) []geom.Flat {
	n := len(outline)
	out := make([]geom.Flat, n)
	for i, c := range outline {
		k := (i + n - 1) % n // the side that ends at the corner
		d1, d2 := direction(outline[k], c), direction(c, outline[(i+1)%n])
		n1, n2 := geom.Flat{-d1[1], d1[0]}, geom.Flat{-d2[1], d2[0]} // inwards
		// The corner moves by v with v·n1 = by[k] and v·n2 = by[i].
		det := n1.Cross(n2)
		if math.Abs(det) < 0.02 {
			out[i] = tidyFlat(c.Plus(n2.Times(by[i])))
			continue
		}
		v := geom.Flat{(by[k]*n2[1] - by[i]*n1[1]) / det, (n1[0]*by[i] - n2[0]*by[k]) / det}
		out[i] = tidyFlat(c.Plus(v))
	}
	return out
}

func direction(a, b geom.Flat) geom.Flat {
	d := b.Minus(a)
	if l := d.Length(); l > 0 {
		return d.Times(1 / l)
	}
	return d
}

// enclosed tells walls that had the open behind them, and now wholly a room, that
// they are no outside walls any more.
func (g *Room) enclosed(ix *job.Index, r *job.Room) []job.Edit {
	if g.Climate == "outside" {
		return nil
	}
	if z := ix.Zone(g.Zone); z != nil && z.Climate == "outside" {
		return nil
	}
	var out []job.Edit
	for i := range ix.Job().Building.Walls {
		w := &ix.Job().Building.Walls[i]
		if !w.Outside {
			continue
		}
		for k := range r.Outline {
			s := sideOf(r, k)
			if m, ok := s.meets(w); ok && m.behind && m.hi-m.lo > w.Frame().Length()-float64(w.Thickness)-near {
				out = append(out, set(w.ID, "outside", nil))
				break
			}
		}
	}
	return out
}
