package fit

import (
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// prune takes away what the erasing left without a use: parts with no line at them,
// outlet fittings without an outlet, and legs that lead nowhere any more.
func (e *eraser) prune() {
	for changed := true; changed; {
		changed = false
		for _, n := range slices.Clone(e.points) {
			if e.lost[n.ID] && e.byPoint[n.ID] != nil && e.useless(n) {
				changed = true
			}
		}
	}
}

// useless takes a point away, and the leg to it, if nothing depends on it.
func (e *eraser) useless(n *node) bool {
	k, ends := e.kind(&n.Part), e.ends(n.ID)
	if len(e.outletsAt(n.ID)) > 0 {
		return false
	}
	if len(ends) == 0 {
		if stands(k) {
			return false
		}
		e.dropPoint(n)
		return true
	}
	live := slices.DeleteFunc(slices.Clone(ends), func(x end) bool { return e.onlyHere(x, n) })
	if len(live) > 1 || stands(k) {
		return false
	}
	if len(live) == 1 && live[0].run.Role != "drop" && live[0].run.Role != "drip" {
		return false // it may be meant to go on from here
	}
	if len(live) == 1 && len(ends) == 1 && k.Law.Name == "end" {
		return false // it was there for its own sake: a stub, a gauge
	}
	if len(live) == 0 && k.Group == catalog.Valve {
		return false
	}
	for _, x := range slices.Clone(ends) {
		e.run(x.run)
	}
	e.dropPoint(n)
	return true
}

// stands says whether a kind is worth keeping without a line: plant and treatment,
// which people set up and state figures for.
func stands(k catalog.Kind) bool { return k.Group == catalog.Plant || k.Group == catalog.Treatment }

// rejoin makes one run of two where a tee lost its branch or a part went.
func (e *eraser) rejoin() {
	ids := make([]job.ID, 0, len(e.freed))
	for id := range e.freed {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for _, id := range ids {
		n := e.byPoint[id]
		if n == nil || len(e.ends(id)) != 2 {
			continue
		}
		if k := e.kind(&n.Part); k.Has(catalog.Branches) || k.Kind == e.plain().Kind {
			e.merge(n, k.Kind == e.plain().Kind)
		}
	}
}

// dropTools takes tools out of the shop: from the outlets, the sets and the tools
// that name them.
func (e *eraser) dropTools() {
	if len(e.tools) == 0 {
		return
	}
	gone := func(x job.ID) bool { return e.tools[x] }
	for _, o := range e.outlets {
		o.Tools = slices.DeleteFunc(o.Tools, gone)
	}
	e.notRunning(func(u job.InUse) bool { return e.tools[u.Tool] })
	tools := e.ix.Job().Tools
	for i := range tools {
		t := tools[i]
		t.With = slices.DeleteFunc(slices.Clone(t.With), gone)
		t.NotWith = slices.DeleteFunc(slices.Clone(t.NotWith), gone)
		e.more = append(e.more, changes(t.ID, &tools[i], &t, "with", "not_with")...) // those that go may name each other
	}
	for i := range tools {
		if e.tools[tools[i].ID] {
			e.remove(tools[i].ID)
		}
	}
}

// wall takes a wall with its openings; points that stood on it keep their place.
func (e *eraser) wall(id job.ID) {
	for _, n := range e.points {
		if n.On != nil && n.On.Wall == id {
			at := tidyPoint(n.where)
			n.At, n.On = &at, nil
		}
	}
	openings := e.ix.Job().Building.Openings
	for i := range openings {
		if o := &openings[i]; o.Wall == id {
			e.remove(o.ID)
		}
	}
	e.remove(id)
}

// zone takes a zone; rooms and runs that were in it are in none.
func (e *eraser) zone(id job.ID) {
	rooms := e.ix.Job().Building.Rooms
	for i := range rooms {
		if r := rooms[i]; r.Zone == id {
			r.Zone = ""
			e.more = append(e.more, changes(r.ID, &rooms[i], &r, "zone")...)
		}
	}
	for _, r := range e.runs {
		if r.Zone == id {
			r.Zone = ""
		}
	}
	e.remove(id)
}

// remove takes a thing away once, however often it is named.
func (e *eraser) remove(id job.ID) {
	gone := func(x job.Edit) bool {
		r, ok := x.(*job.Remove)
		return ok && r.ID == id
	}
	if !slices.ContainsFunc(e.more, gone) {
		e.more = append(e.more, &job.Remove{ID: id})
	}
}
