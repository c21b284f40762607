package fit

import (
	"fmt"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Plant places a part: the gesture "plant". With into it is set into a line.
type Plant struct {
	did
	Kind    string  `json:"kind"`
	Item    string  `json:"item,omitempty" doc:"row of the catalogue that fills in its figures"`
	Name    string  `json:"name,omitempty"`
	At      *Place  `json:"at,omitempty" doc:"where it stands by itself"`
	Into    *Anchor `json:"into,omitempty" doc:"a run with along_m, or a loose point: it is set in there"`
	State   string  `json:"state,omitempty" enum:"existing,planned,stub"`
	Figures Figures `json:"figures,omitzero" doc:"what this one has stated: set_kPa_g, volume_L, compressor, …"`
}

// Edit places the part.
func (g *Plant) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	k, ok := s.shelf.Kind(g.Kind)
	if !ok || g.Kind == "" {
		near := s.shelf.Nearest(catalog.Kinds, g.Kind)
		if near != "" {
			near = "the nearest is " + near
		}
		return nil, nil, refuse("unknown-kind", "kind", fmt.Sprintf("the catalogue has no kind of part %q", brief(g.Kind)), near)
	}
	p := job.Part(g.Figures)
	p.ID, p.Kind = "", k.Kind
	if g.Item != "" {
		p.Item = g.Item
	}
	if err := s.knownPart(&p, ""); err != nil {
		return nil, nil, err
	}
	if g.Into != nil {
		return g.into(s, p, k)
	}
	at, err := g.At.find(ix, "at")
	if err != nil {
		return nil, nil, err
	}
	n := s.addPoint(idOf("point", firstOf(g.Name, k.Kind), "part"), at, p, g.State)
	n.Name = g.Name
	delete(s.dirty, n.ID) // it stands alone until a line comes
	return s.edit(fmt.Sprintf("placed %s", named(k, g.Name)))
}

// into sets the part into a line.
func (g *Plant) into(s *sketch, p job.Part, k catalog.Kind) (job.Edit, []job.ID, error) {
	if len(k.Ports) < 2 {
		return nil, nil, refuse("one-opening", "into", fmt.Sprintf("%s has one opening, and no air passes through it", article(k)), "run a short line to it off a tee")
	}
	if k.Has(catalog.Branches) {
		return nil, nil, refuse("not-in-line", "into", fmt.Sprintf("%s branches", article(k)), "draw the branch line from there: the fitting comes with it")
	}
	h, err := s.hold(*g.Into, "into")
	if err != nil {
		return nil, nil, err
	}
	n := h.node
	if g.Into.Run != "" {
		r := s.byRun[g.Into.Run]
		n = s.cutAt(r.ID, h.at, idOf("point", firstOf(g.Name, k.Kind), "part"), stateOr(g.State, r.State))
	}
	if n == nil || !shaped(s.kind(&n.Part)) || len(s.ends(n.ID)) != 2 || len(s.outletsAt(n.ID)) > 0 {
		return nil, nil, refuse("not-in-line", "into", "there is no room for it in the line here", "set it at least "+measured(s.ix, nearEnd)+" from what is there")
	}
	if turn, known := s.turnBetween(s.ends(n.ID)[0], s.ends(n.ID)[1]); known && turn > straightOn && !k.Has(catalog.Turns) {
		return nil, nil, refuse("not-in-line", "into", "the line turns here", "set it into a straight piece, "+measured(s.ix, 0.1)+" further along", n.ID)
	}
	s.setIn(n, p, k)
	n.State = stateOr(g.State, n.State)
	if g.Name != "" {
		n.Name = g.Name
	}
	if err := s.makeTrue(); err != nil {
		return nil, nil, err
	}
	s.leadWith(n.ID)
	return s.edit(fmt.Sprintf("set %s into the line", named(k, g.Name)))
}

func firstOf(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// named is a part as a sentence has it.
func named(k catalog.Kind, name string) string {
	if name != "" {
		return fmt.Sprintf("the %s %q", k.Name("en"), name)
	}
	return article(k)
}

// article is a kind with its article.
func article(k catalog.Kind) string {
	word := k.Name("en")
	if word != "" && (word[0] == 'a' || word[0] == 'e' || word[0] == 'i' || word[0] == 'o') {
		return "an " + word
	}
	return "a " + word
}
