package fit

import (
	"fmt"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Erase takes things away with what hangs only on them: the gesture "erase". A tee
// that loses its branch goes and its runs are one again; a part in a line leaves the
// line whole; an outlet takes its drop leg along; plant takes its drain and its
// relief valve. A line that still leads somewhere stays, with a loose end.
type Erase struct {
	did
	IDs []job.ID `json:"ids"`
}

// eraser is an erasing under way.
type eraser struct {
	*sketch
	tools map[job.ID]bool // tools that go
	lost  map[job.ID]bool // points that lost a line or an outlet by it
	freed map[job.ID]bool // points that lost a line and may be joined over
	more  []job.Edit      // of things that the sketch does not hold
}

// Edit erases the things.
func (g *Erase) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	if len(g.IDs) == 0 {
		return nil, nil, refuse("nothing-given", "ids", "nothing is chosen to be erased", "choose something first")
	}
	e := &eraser{sketch: sketchOf(ix, shelf), tools: map[job.ID]bool{}, lost: map[job.ID]bool{}, freed: map[job.ID]bool{}}
	for i, id := range g.IDs {
		if !ix.Has(id) {
			return nil, nil, e.noSuch("thing", id, fmt.Sprintf("ids[%d]", i))
		}
	}
	// Runs first: a point chosen together with its lines goes with them.
	ids := slices.Clone(g.IDs)
	order := []string{"line", "hose", "part", "outlet", "point", "tool"}
	slices.SortStableFunc(ids, func(a, b job.ID) int { return rank(order, a) - rank(order, b) })
	for _, id := range ids {
		if err := e.one(id); err != nil {
			return nil, nil, err
		}
	}
	e.dropTools()
	e.prune()
	e.rejoin()
	if err := e.makeTrue(); err != nil {
		return nil, nil, err
	}
	return e.edit(e.title(g.IDs), e.more...)
}

func rank(order []string, id job.ID) int {
	if i := slices.Index(order, id.Word()); i >= 0 {
		return i
	}
	return len(order)
}

// one erases one thing; what went along with another already is gone.
func (e *eraser) one(id job.ID) error {
	switch id.Word() {
	case "line":
		if r := e.byRun[id]; r != nil {
			e.run(r)
		}
	case "point":
		if n := e.byPoint[id]; n != nil {
			return e.point(n)
		}
	case "outlet":
		if o := e.outlet(id); o != nil {
			e.dropOutlet(o)
		}
	case "hose", "part":
		e.unhang(id)
	case "tool":
		e.tools[id] = true
	case "wall":
		e.wall(id)
	case "zone":
		e.zone(id)
	default:
		e.remove(id)
	}
	return nil
}

// run erases a run.
func (e *eraser) run(r *job.Run) {
	for _, p := range []job.ID{r.From.Point, r.To.Point} {
		e.lost[p], e.freed[p] = true, true
	}
	e.dropRun(r)
}

// point erases a point: of a part in a line the line closes over it, of a place where
// lines end the lines end loose.
func (e *eraser) point(n *node) error {
	k, ends := e.kind(&n.Part), slices.Clone(e.ends(n.ID))
	for _, o := range e.outletsAt(n.ID) {
		e.dropOutlet(o)
	}
	if e.byPoint[n.ID] == nil {
		return nil // it went with its outlet
	}
	if shaped(k) && len(ends) > 2 {
		return refuse("lines-meet", "ids", fmt.Sprintf("%d lines meet at %s", len(ends), called(n.Name, n.ID)), "erase the branch line: the fitting goes with it", n.ID)
	}
	for i := len(ends) - 1; i >= 0; i-- {
		if e.onlyHere(ends[i], n) {
			far := ends[i].other().Point
			e.run(ends[i].run)
			if m := e.byPoint[far]; m != nil && len(e.ends(far)) == 0 && len(e.outletsAt(far)) == 0 {
				e.dropPoint(m)
			}
			ends = slices.Delete(ends, i, i+1)
		}
	}
	e.freed[n.ID] = true
	switch {
	case len(ends) == 0:
		e.dropPoint(n)
	case len(ends) <= 2 && passes(k):
		n.Part, n.Name = job.Part{Kind: e.plain().Kind}, ""
		for _, x := range ends {
			x.at().Port = ""
		}
		e.dirty[n.ID], e.lost[n.ID] = true, true
	default:
		e.part(n, ends)
	}
	return nil
}

// passes says whether a line goes on through a part.
func passes(k catalog.Kind) bool {
	return len(k.Ports) == 2 || shaped(k) || k.Law.Name == "rated-loss" || k.Law.Name == "regulator"
}

// part leaves each line that came to a part with a loose end of its own.
func (e *eraser) part(n *node, ends []end) {
	for _, x := range ends {
		loose := e.addPoint(idOf("point", roleWord(x.run.Role)+" end", "end"), spot{at: n.where, on: n.On}, job.Part{Kind: e.plain().Kind}, x.run.State)
		loose.placed, e.lost[loose.ID] = n.placed, true
		if !n.placed {
			loose.At, loose.On = nil, nil
		}
		e.lead(x, job.End{Point: loose.ID})
	}
	e.dropPoint(n)
}

// onlyHere says whether a line leads from a part to what serves that part alone: a
// drain, a relief valve, a gauge, an end.
func (e *eraser) onlyHere(x end, n *node) bool {
	far := e.byPoint[x.other().Point]
	if far == nil || far == n || len(e.ends(far.ID)) != 1 || len(e.outletsAt(far.ID)) > 0 {
		return false
	}
	return e.kind(&far.Part).Law.Name == "end"
}

// dropOutlet erases an outlet, what its point is for, and the leg that leads there.
func (e *eraser) dropOutlet(o *job.Outlet) {
	e.outlets = slices.DeleteFunc(e.outlets, func(x *job.Outlet) bool { return x == o })
	e.notRunning(func(u job.InUse) bool { return u.Outlet == o.ID })
	e.lost[o.Point] = true
	e.dirty[o.Point] = true
}

// notRunning takes uses out of the sets; a set that is left with none goes.
func (e *eraser) notRunning(gone func(job.InUse) bool) {
	e.sets = slices.DeleteFunc(e.sets, func(t *job.Set) bool {
		before := len(t.Running)
		t.Running = slices.DeleteFunc(t.Running, gone)
		return before > 0 && len(t.Running) == 0
	})
}

// unhang takes a hose or a hanging part off.
func (e *eraser) unhang(id job.ID) {
	for _, o := range e.outlets {
		if o.Hose != nil && o.Hose.ID == id {
			o.Hose = nil
		}
		o.Hang = slices.DeleteFunc(slices.Clone(o.Hang), func(p job.Part) bool { return p.ID == id && id != "" })
		if len(o.Hang) == 0 {
			o.Hang = nil
		}
	}
}

// title tells what went.
func (e *eraser) title(ids []job.ID) string {
	if len(ids) == 1 {
		return "erased " + e.nameOf(ids[0])
	}
	return fmt.Sprintf("erased %d things", len(ids))
}

// nameOf is what people call a thing of the job.
func (s *sketch) nameOf(id job.ID) string {
	name := ""
	switch id.Word() {
	case "point":
		name = s.ix.Point(id).Name
	case "line":
		name = s.ix.Run(id).Name
	case "outlet":
		name = s.ix.Outlet(id).Name
	case "tool":
		name = s.ix.Tool(id).Name
	case "wall":
		name = s.ix.Wall(id).Name
	case "room":
		name = s.ix.Room(id).Name
	case "obstacle":
		name = s.ix.Obstacle(id).Name
	}
	return called(name, id)
}
