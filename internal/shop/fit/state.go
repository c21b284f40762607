package fit

import (
	"fmt"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// State says of things whether they stand, are planned, or are for later: the
// gesture "state". A fitting between runs that are all so is so too.
type State struct {
	did
	IDs   []job.ID `json:"ids" doc:"points, runs, outlets"`
	State string   `json:"state" enum:"existing,planned,stub"`
}

// planned is the state of what states none.
const planned = "planned"

// Edit states it.
func (g *State) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	if len(g.IDs) == 0 || g.State == "" {
		return nil, nil, refuse("nothing-given", "ids", "it is not said what is to be how", "choose things, and one of existing, planned, stub")
	}
	give := func(state *string) {
		if stateOr(*state, planned) != g.State {
			*state = g.State
		}
	}
	for i, id := range g.IDs {
		n, r := s.pointOf(id), s.byRun[id]
		switch {
		case n != nil:
			give(&n.State)
		case r != nil:
			give(&r.State)
		case !ix.Has(id):
			return nil, nil, s.noSuch("thing", id, fmt.Sprintf("ids[%d]", i))
		default:
			return nil, nil, refuse("no-state", fmt.Sprintf("ids[%d]", i), s.nameOf(id)+" is neither line nor part", "choose lines, parts and outlets", id)
		}
	}
	for _, id := range g.IDs {
		r := s.byRun[id]
		if r == nil {
			continue
		}
		for _, p := range []job.ID{r.From.Point, r.To.Point} {
			n := s.byPoint[p]
			if n == nil || !shaped(s.kind(&n.Part)) {
				continue
			}
			if !slices.ContainsFunc(s.ends(p), func(e end) bool { return stateOr(e.run.State, planned) != g.State }) {
				give(&n.State)
			}
		}
	}
	what := fmt.Sprintf("%d things", len(g.IDs))
	if len(g.IDs) == 1 {
		what = s.nameOf(g.IDs[0])
	}
	words := map[string]string{"existing": "as standing already", planned: "as planned", "stub": "for later"}
	return s.edit(fmt.Sprintf("marked %s %s", what, words[g.State]))
}
