package fit

import (
	"fmt"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Reroute leads a run another way between its two ends: the gesture "reroute".
type Reroute struct {
	did
	Run job.ID  `json:"run"`
	Via []Place `json:"via,omitempty" doc:"its corners in order; none: straight"`
}

// Edit reroutes the run.
func (g *Reroute) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	r := s.byRun[g.Run]
	if r == nil {
		return nil, nil, s.noSuch("run", g.Run, "run")
	}
	if s.way(r) == nil {
		return nil, nil, refuse("not-drawn", "run", called(r.Name, r.ID)+" states its length and is not drawn", "place its ends and take its length away first", r.ID)
	}
	r.Path = nil
	for i := range g.Via {
		p, err := g.Via[i].find(ix, fmt.Sprintf("via[%d]", i))
		if err != nil {
			return nil, nil, err
		}
		r.Path = append(r.Path, p.at)
	}
	way := s.way(r)
	for i := 1; i < len(way); i++ {
		if way[i].Distance(way[i-1]) < nearEnd {
			return nil, nil, refuse("no-length", "via", fmt.Sprintf("the %s leg would be of no length", ordinal(i)), "carry on for at least "+measured(ix, nearEnd), r.ID)
		}
	}
	s.moved(r)
	return s.done(fmt.Sprintf("led %s another way, now %s", called(r.Name, r.ID), measured(ix, geom.Length(way))))
}
