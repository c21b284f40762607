package fit

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Compose says what hangs at an outlet: the gesture "compose". It is the whole of
// what hangs there: a hose or a part that it does not name is taken off. With a
// point in place of an outlet a new outlet is made there.
type Compose struct {
	did
	Outlet job.ID     `json:"outlet,omitempty"`
	Point  job.ID     `json:"point,omitempty" doc:"for a new outlet there"`
	Name   *string    `json:"name,omitempty" doc:"left out, it stays"`
	Mark   *string    `json:"mark,omitempty" doc:"left out, it stays"`
	Kind   string     `json:"kind,omitempty" doc:"of what the outlet hangs at; left out, it stays"`
	Drain  string     `json:"drain,omitempty" doc:"kind of the drain to be set under it; left out, nothing is changed"`
	Hang   []job.Part `json:"hang,omitempty" doc:"from the line to the hand; parts that stay with their ids, or recognised by kind and row"`
	Hose   *Hose      `json:"hose,omitempty" doc:"null or left out: none"`
	Tools  []job.ID   `json:"tools,omitempty"`
}

// Edit composes the outlet.
func (g *Compose) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	if (g.Outlet == "") == (g.Point == "") {
		return nil, nil, refuse("no-place", "outlet", "it is not said which outlet", "give one of outlet and point")
	}
	o, title, err := g.outlet(s)
	if err != nil {
		return nil, nil, err
	}
	if g.Name != nil && *g.Name != "" {
		o.Name = *g.Name
	}
	if g.Mark != nil {
		if err := s.mark(o, *g.Mark); err != nil {
			return nil, nil, err
		}
	}
	if g.Kind != "" {
		if err := s.hangAt(o, g.Kind); err != nil {
			return nil, nil, err
		}
	}
	if g.Drain != "" {
		if err := s.drain(s.byPoint[o.Point], g.Drain, "drain"); err != nil {
			return nil, nil, err
		}
	}
	if err := s.compose(o, g.Hang, g.Hose, g.Tools, ""); err != nil {
		return nil, nil, err
	}
	if g.Point != "" {
		s.leadWith(o.ID)
	}
	return s.done(title)
}

// outlet is the outlet meant, or a new one, and what happens to it in words.
func (g *Compose) outlet(s *sketch) (*job.Outlet, string, error) {
	if g.Outlet != "" {
		o := s.outlet(g.Outlet)
		if o == nil {
			return nil, "", s.noSuch("outlet", g.Outlet, "outlet")
		}
		return o, fmt.Sprintf("changed what hangs at %q", o.Name), nil
	}
	n := s.byPoint[g.Point]
	if n == nil {
		return nil, "", s.noSuch("point", g.Point, "point")
	}
	name := n.Name
	if g.Name != nil {
		name = *g.Name
	}
	if name == "" {
		return nil, "", refuse("no-name", "name", "the outlet has no name", "call it by what is done there, as in \"Bench\"")
	}
	o, err := s.addOutlet(n, name, "")
	return o, fmt.Sprintf("made an outlet %q", name), err
}

// compose says what hangs at an outlet. A part with the id of one that hangs there
// is that part; one without an id that is of the same kind and row as one that hangs
// there is taken to be it, so that what stays keeps its id.
func (s *sketch) compose(o *job.Outlet, hang []job.Part, hose *Hose, tools []job.ID, path string) error {
	if err := s.known(hang, hose, tools, path); err != nil {
		return err
	}
	stem := string(o.ID[len("outlet."):])
	was := slices.Clone(o.Hang)
	claim := func(same func(job.Part) bool) job.ID {
		if i := slices.IndexFunc(was, same); i >= 0 {
			id := was[i].ID
			was = slices.Delete(was, i, i+1)
			return id
		}
		return ""
	}
	var parts []job.Part
	for _, p := range hang {
		if p.ID != "" {
			claim(func(w job.Part) bool { return w.ID == p.ID })
		}
		parts = append(parts, p)
	}
	for i := range parts {
		p := &parts[i]
		if p.ID == "" {
			p.ID = claim(func(w job.Part) bool { return w.ID != "" && w.Kind == p.Kind && w.Item == p.Item })
		}
		if p.ID == "" {
			p.ID = s.fresh(idOf("part", stem+" "+p.Kind, "part"))
		}
	}
	o.Hang, o.Tools = parts, slices.Clone(tools)
	if hose == nil {
		o.Hose = nil
		return nil
	}
	h := job.Hose(*hose)
	switch {
	case h.ID != "":
	case o.Hose != nil:
		h.ID = o.Hose.ID
	default:
		h.ID = s.fresh(idOf("hose", stem, "hose"))
	}
	o.Hose = &h
	return nil
}

// known refuses parts, hoses and tools that neither catalogue nor job knows.
func (s *sketch) known(hang []job.Part, hose *Hose, tools []job.ID, path string) error {
	for i := range hang {
		if err := s.knownPart(&hang[i], fmt.Sprintf("%shang[%d].", path, i)); err != nil {
			return err
		}
	}
	for i, t := range tools {
		at := fmt.Sprintf("%stools[%d]", path, i)
		if s.ix.Tool(t) == nil {
			return s.noSuch("tool", t, at)
		}
		if slices.Contains(tools[:i], t) {
			return refuse("named-twice", at, s.nameOf(t)+" is named twice", "name it once", t)
		}
	}
	if hose == nil {
		return nil
	}
	if _, ok := s.shelf.Hose(hose.Item); !ok {
		return s.unknown("hose", hose.Item, path+"hose.item", catalog.Hoses)
	}
	for _, end := range []struct{ key, item string }{{"plug", hose.Plug}, {"socket", hose.Socket}} {
		if _, ok := s.shelf.Coupler(end.item); !ok && end.item != "" {
			return s.unknown("coupler", end.item, path+"hose."+end.key, catalog.Couplers)
		}
	}
	return nil
}

// knownPart refuses a part of a kind or row that the catalogue does not have.
func (s *sketch) knownPart(p *job.Part, path string) error {
	if _, ok := s.shelf.Kind(p.Kind); !ok {
		return s.unknown("kind of part", p.Kind, path+"kind", catalog.Kinds)
	}
	if p.Item == "" {
		return nil
	}
	_, coupler := s.shelf.Coupler(p.Item)
	_, machine := s.shelf.Machine(p.Item)
	_, treat := s.shelf.Treat(p.Item)
	if coupler || machine || treat {
		return nil
	}
	return s.unknown("row", p.Item, path+"item", catalog.Treatments, catalog.Machines, catalog.Couplers)
}

// unknown refuses a name that no shelf has, with the nearest that one has.
func (s *sketch) unknown(what, name, path string, shelves ...string) error {
	for _, shelf := range shelves {
		if near := s.shelf.Nearest(shelf, name); near != "" {
			return refuse("unknown-"+strings.Fields(what)[0], path, fmt.Sprintf("the catalogue has no %s %q", what, brief(name)), "the nearest is "+near)
		}
	}
	return refuse("unknown-"+strings.Fields(what)[0], path, fmt.Sprintf("the catalogue has no %s %q", what, brief(name)), "")
}
