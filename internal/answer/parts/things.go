package parts

import (
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// stack adds to each line of stock the pieces that it is cut into.
func (c *counter) stack(a *Answer) {
	at := map[string]*Line{}
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Group == Stock {
			at[string(l.State)+" "+l.Article] = l
		}
	}
	for i, p := range c.cuts {
		a.Pieces[i] = *p
		l := at[string(p.State)+" "+p.Stock+" "+p.Size]
		if l == nil || p.Cut == nil {
			continue
		}
		l.Cuts++
		l.Cut = long(float64(lengthOf(l.Cut) + *p.Cut + p.Allowance))
	}
	for _, l := range at {
		if l.Cut != nil {
			*l.Cut = unit.Length(rounded(float64(*l.Cut), 1e6))
		}
	}
}

// ThingOf is the thing of the drawing that a thing within it belongs to: "line.main-2" of
// "line.main-2/corner-1".
func ThingOf(id string) job.ID {
	whole, _, _ := strings.Cut(id, "/")
	return job.ID(whole)
}

// link leads from each thing to all that was counted from it.
func (a *Answer) link() {
	a.ByThing = map[string]Uses{}
	add := func(id string, put func(*Uses)) {
		whole, _, within := strings.Cut(id, "/")
		u := a.ByThing[id]
		put(&u)
		a.ByThing[id] = u
		if within {
			u = a.ByThing[whole]
			put(&u)
			a.ByThing[whole] = u
		}
	}
	for _, lines := range [][]Line{a.Lines, a.Implied} {
		for i := range lines {
			for _, from := range lines[i].From {
				add(from, func(u *Uses) { u.Lines = addOnce(u.Lines, &lines[i]) })
			}
		}
	}
	for i := range a.Pieces {
		p := &a.Pieces[i]
		put := func(u *Uses) { u.Pieces = addOnce(u.Pieces, p) }
		add(p.ID, put)
		for _, span := range p.Spans {
			add(string(span.Run), put)
		}
		for _, b := range p.Bends {
			add(b.ID, put)
		}
	}
	for i := range a.Joints {
		j := &a.Joints[i]
		for _, side := range j.Sides {
			add(side.Thing, func(u *Uses) { u.Joints = addOnce(u.Joints, j) })
		}
	}
}

// addOnce adds what is not there; what comes twice comes close together.
func addOnce[T any](list []*T, one *T) []*T {
	if slices.Contains(list, one) {
		return list
	}
	return append(list, one)
}
