package fit

import (
	"fmt"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Line walks a line from one place to another: the gesture "line".
type Line struct {
	did
	From     Anchor      `json:"from"`
	Via      []Place     `json:"via,omitempty" doc:"corners on the way"`
	To       Anchor      `json:"to"`
	Stock    string      `json:"stock,omitempty" doc:"left out, that of the line it begins or ends at"`
	Size     string      `json:"size,omitempty"`
	Role     string      `json:"role,omitempty" enum:"main,ring,branch,drop,drip,stub,link" doc:"left out, branch"`
	State    string      `json:"state,omitempty" enum:"existing,planned,stub"`
	Corners  string      `json:"corners,omitempty" enum:"elbow,sweep" doc:"left out, corners stay in the run, made as its stock makes them; elbow: each a point of its own; sweep: gentle bends"`
	Slope    *unit.Ratio `json:"slope,omitempty" min:"-1" max:"1" doc:"fall from its beginning to its end"`
	Flexible bool        `json:"flexible,omitempty" doc:"with a flexible link near its beginning"`
}

// Edit walks the line.
func (g *Line) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	from, err := s.hold(g.From, "from")
	if err != nil {
		return nil, nil, err
	}
	to, err := s.hold(g.To, "to")
	if err != nil {
		return nil, nil, err
	}
	path, err := g.path(ix)
	if err != nil {
		return nil, nil, err
	}
	like := job.Run{Stock: g.Stock, Size: g.Size, Role: g.Role, State: g.State, Slope: g.Slope}
	if like.Role == "" {
		like.Role = "branch"
	}
	if err := s.stockOf(&like, from, to); err != nil {
		return nil, nil, err
	}
	r, err := s.draw(from, to, path, like)
	if err != nil {
		return nil, nil, err
	}
	long := geom.Length(s.way(r))
	id, err := s.finish(r, g.Corners, g.Flexible)
	if err != nil {
		return nil, nil, err
	}
	s.leadWith(id)
	title := fmt.Sprintf("ran %s of %s%s", measured(ix, long), roleName(like.Role), s.alongWall(from.at, path, to.at))
	return s.edit(title)
}

// path works out the corners.
func (g *Line) path(ix *job.Index) ([]geom.Point, error) {
	var out []geom.Point
	for i := range g.Via {
		p, err := g.Via[i].find(ix, fmt.Sprintf("via[%d]", i))
		if err != nil {
			return nil, err
		}
		out = append(out, p.at)
	}
	return out, nil
}

// stockOf settles what a new line is of: as asked, else as the line that it joins.
func (s *sketch) stockOf(like *job.Run, hs ...held) error {
	if near := s.runNear(hs...); near != nil {
		if like.Stock == "" {
			like.Stock = near.Stock
		}
		if like.Size == "" && like.Stock == near.Stock {
			like.Size = near.Size
		}
	}
	row, ok := s.shelf.Stock(like.Stock)
	switch {
	case like.Stock == "":
		return refuse("no-stock", "stock", "it is not said what the line is of", "choose a stock and a size")
	case !ok:
		near := s.shelf.Nearest(catalog.Stocks, like.Stock)
		if near != "" {
			near = "the nearest is " + near
		}
		return refuse("unknown-stock", "stock", fmt.Sprintf("the catalogue has no stock %q", brief(like.Stock)), near)
	}
	size, ok := row.Size(like.Size)
	if !ok {
		return refuse("unknown-size", "size", fmt.Sprintf("%s does not come in the size %q", row.Words, brief(like.Size)), "it comes in "+either(row.Names()))
	}
	like.Stock, like.Size = row.Stock, size.Size
	return nil
}

// draw adds the line between two anchors.
func (s *sketch) draw(from, to held, path []geom.Point, like job.Run) (*job.Run, error) {
	way := append(append([]geom.Point{from.at}, path...), to.at)
	for i := 1; i < len(way); i++ {
		if way[i].Distance(way[i-1]) < nearEnd {
			return nil, refuse("no-length", "to", fmt.Sprintf("the line would be of no length at its %s leg", ordinal(i)), "carry on for at least "+measured(s.ix, nearEnd))
		}
	}
	a, err := s.land(from, false, like)
	if err != nil {
		return nil, err
	}
	b, err := s.land(to, true, like)
	if err != nil {
		return nil, err
	}
	if a.Point == b.Point {
		return nil, refuse("run-in-itself", "to", "the line would end where it begins", "end it at another place", a.Point)
	}
	// Where an anchor on a run is taken to be the run's end, the line ends there.
	return s.addRun(idOf("line", roleWord(like.Role), "line"), like, a, b, path), nil
}

// finish makes a new run's corners and ends true and gives the id of the run that
// it became: where it goes on from a loose end of the same line they are one.
func (s *sketch) finish(r *job.Run, corners string, flexible bool) (job.ID, error) {
	if flexible {
		if err := s.flex(r); err != nil {
			return "", err
		}
	}
	if err := s.corners(r, corners); err != nil {
		return "", err
	}
	id := r.ID
	if corners == "" {
		id = s.goOn(r)
	}
	if err := s.makeTrue(); err != nil {
		return "", err
	}
	return id, s.oddCorners()
}

// goOn joins a new run to the loose ends that it goes on from, at either end.
func (s *sketch) goOn(r *job.Run) job.ID {
	id := r.ID
	for _, e := range []end{{run: r}, {run: r, atTo: true}} {
		n := s.byPoint[e.at().Point]
		if n == nil {
			continue
		}
		ends := s.ends(n.ID)
		if s.ix.Point(n.ID) == nil || !s.merge(n, true) {
			continue
		}
		for _, x := range ends {
			if s.byRun[x.run.ID] != nil {
				id, r = x.run.ID, x.run
			}
		}
		e.run = r
	}
	return id
}

// leadWith puts an id first among those made.
func (s *sketch) leadWith(id job.ID) {
	out := []job.ID{id}
	for _, m := range s.made {
		if m != id {
			out = append(out, m)
		}
	}
	s.made = out
}

func ordinal(n int) string {
	switch n {
	case 1:
		return "first"
	case 2:
		return "second"
	case 3:
		return "third"
	}
	return fmt.Sprintf("%dth", n)
}

// roleName is a role as a sentence has it.
func roleName(role string) string {
	switch role {
	case "ring":
		return "ring main"
	case "drop":
		return "drop leg"
	case "drip":
		return "drip leg"
	case "link":
		return "link line"
	}
	return role
}
