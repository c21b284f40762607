package fit

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Stock makes runs of another stock or size: the gesture "stock". Sizes that the
// fittings between them state follow; where the size now changes in line a reducer
// comes, and where it no longer does it goes.
type Stock struct {
	did
	Runs  []job.ID `json:"runs"`
	Stock string   `json:"stock,omitempty" doc:"left out, it stays"`
	Size  string   `json:"size,omitempty" doc:"left out, it stays where the stock comes in it"`
}

// Edit changes the runs.
func (g *Stock) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	s := sketchOf(ix, shelf)
	if len(g.Runs) == 0 {
		return nil, nil, refuse("nothing-given", "runs", "no line is chosen", "choose one first")
	}
	was := map[job.ID]job.Run{}
	var now job.Run
	for i, id := range g.Runs {
		r := s.byRun[id]
		if r == nil {
			return nil, nil, s.noSuch("run", id, fmt.Sprintf("runs[%d]", i))
		}
		was[id] = *r
		now = job.Run{Stock: firstOf(g.Stock, r.Stock), Size: firstOf(g.Size, r.Size)}
		if err := s.stockOf(&now); err != nil {
			return nil, nil, err
		}
		r.Stock, r.Size = now.Stock, now.Size
		s.moved(r)
	}
	s.sizesFollow(was)
	what := called(ix.Run(g.Runs[0]).Name, g.Runs[0])
	if len(g.Runs) > 1 {
		what = fmt.Sprintf("%d runs", len(g.Runs))
	}
	return s.done(fmt.Sprintf("made %s of %s %s", what, now.Stock, now.Size))
}

// sizesFollow renews the sizes that parts between changed runs state, where no run
// of the old size comes there any more.
func (s *sketch) sizesFollow(was map[job.ID]job.Run) {
	for _, n := range s.points {
		if n.Part.Size == "" && n.Part.Size2 == "" || !byStock(s.kind(&n.Part)) {
			continue
		}
		ends := s.ends(n.ID)
		for _, e := range ends {
			old, changed := was[e.run.ID]
			if !changed || slices.ContainsFunc(ends, func(x end) bool { return x.run.Size == old.Size && x.run.Stock == old.Stock }) {
				continue
			}
			if n.Part.Size == old.Size {
				n.Part.Size = e.run.Size
			}
			if n.Part.Size2 == old.Size {
				n.Part.Size2 = e.run.Size
			}
		}
	}
}

// stepAt is how far from a valve the line changes its size: room for a fitting.
const stepAt = 0.1

// step sets a reducer beside a valve or union whose two lines are not of one size:
// such a part has one size, the larger, and the line steps down next to it.
func (s *sketch) step(n *node, k catalog.Kind, ends []end) {
	if !byStock(k) || len(k.Ports) != 2 || len(ends) != 2 || ends[0].run.Stock != ends[1].run.Stock || ends[0].run.Size == ends[1].run.Size || n.Part.Size != "" {
		return
	}
	sorted := slices.Clone(ends)
	s.largerFirst(sorted)
	large, e := sorted[0].run.Size, sorted[1]
	small := e.run.Size
	way := slices.Clone(s.way(e.run))
	if way == nil {
		return
	}
	if e.atTo {
		slices.Reverse(way)
	}
	leg := way[1].Distance(way[0])
	if leg < 4*nearEnd {
		return // the step is taken at the part itself
	}
	at, _, _ := geom.OnPath(way, math.Min(stepAt, leg/2))
	run := e.run
	m := s.cutAt(run.ID, at, idOf("point", "step", "step"), run.State)
	if m == nil {
		return
	}
	for _, x := range s.ends(m.ID) {
		x.run.Size = small
		if x.other().Point == n.ID {
			x.run.Size = large
		}
	}
	delete(s.dirty, n.ID)
}
