package fit

import (
	"fmt"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Split makes two runs of one: the gesture "split". The piece upstream keeps the id.
type Split struct {
	did
	Run   job.ID      `json:"run"`
	Along unit.Length `json:"along_m" min:"0" max:"5000" doc:"from its From end"`
	Part  *job.Part   `json:"part,omitempty" doc:"what sits there; left out, a plain joint"`
}

// Edit splits the run.
func (g *Split) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	if g.Part != nil {
		along := g.Along
		at := &Plant{Kind: g.Part.Kind, Figures: Figures(*g.Part), Into: &Anchor{Run: g.Run, Along: &along}}
		if at.Kind == "" {
			return nil, nil, refuse("unknown-kind", "part.kind", "it is not said what part sits there", "leave part out for a plain joint")
		}
		return at.Edit(ix, shelf)
	}
	s := sketchOf(ix, shelf)
	at, err := s.placeOn(g.Run, float64(g.Along), "")
	if err != nil {
		return nil, nil, err
	}
	r := s.byRun[g.Run]
	n := s.cutAt(r.ID, at, idOf("point", roleWord(r.Role)+" joint", "joint"), r.State)
	if n == nil || n.ID == r.From.Point || len(s.made) == 0 {
		return nil, nil, refuse("off-run", "along_m", "that is an end of "+called(r.Name, r.ID), "split it at least "+measured(ix, nearEnd)+" from its ends", r.ID)
	}
	if err := s.makeTrue(); err != nil {
		return nil, nil, err
	}
	s.leadWith(n.ID)
	return s.edit(fmt.Sprintf("split %s at %s", called(r.Name, r.ID), measured(ix, float64(g.Along))))
}

// Join makes one run of the two that meet at a point: the gesture "join".
type Join struct {
	did
	Point job.ID `json:"point"`
}

// Edit joins the runs.
func (g *Join) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	n := s.byPoint[g.Point]
	if n == nil {
		return nil, nil, s.noSuch("point", g.Point, "point")
	}
	name := called(n.Name, n.ID)
	ends := s.ends(n.ID)
	if len(ends) != 2 || len(s.outletsAt(n.ID)) > 0 {
		return nil, nil, refuse("not-two-lines", "point", fmt.Sprintf("%d lines end at %s; two are joined", len(ends), name), "choose a place where one line goes on as another", n.ID)
	}
	if !passes(s.kind(&n.Part)) || stands(s.kind(&n.Part)) {
		return nil, nil, refuse("not-to-join", "point", name+" is set up there", "erase it first", n.ID)
	}
	n.Part, n.Name = job.Part{Kind: s.plain().Kind}, ""
	if !s.merge(n, true) {
		return nil, nil, s.notAlike(n, ends[0].run, ends[1].run)
	}
	if err := s.makeTrue(); err != nil {
		return nil, nil, err
	}
	return s.edit("joined two runs at " + name)
}

// notAlike says why two runs are not to be one.
func (s *sketch) notAlike(n *node, a, b *job.Run) error {
	why, near := "they differ in how they are fixed or where they lie", "make them alike first"
	switch {
	case a.Length != nil || b.Length != nil:
		why, near = "one of them states its length and is not drawn", "draw it first"
	case a.Stock != b.Stock || a.Size != b.Size:
		why = fmt.Sprintf("%s is %s %s and %s is %s %s", called(a.Name, a.ID), a.Stock, a.Size, called(b.Name, b.ID), b.Stock, b.Size)
		near = "give both one stock and size first"
	case a.Role != b.Role:
		why = fmt.Sprintf("one is a %s and one is a %s", roleName(a.Role), roleName(b.Role))
	case a.State != b.State:
		why = "one stands already and one does not"
	case a == b || s.far(a, n.ID) == s.far(b, n.ID):
		why, near = "they would be a ring of one run, and a run has two ends", "leave the joint"
	}
	return refuse("not-alike", "point", "the runs cannot be one: "+why, near, n.ID, a.ID, b.ID)
}

// far is the end of a run that is not at a point.
func (s *sketch) far(r *job.Run, at job.ID) job.ID {
	if r.From.Point == at {
		return r.To.Point
	}
	return r.From.Point
}
