package check

import (
	"context"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var noIsolatingValve = Check{
	Code:   "no-isolating-valve",
	Title:  "a valve at the receiver, at each branch and at each drop",
	Why:    "With a valve there, a leak is mended while the rest of the shop runs.",
	Limit:  "one valve between the receiver and the first branch, one in each branch that serves two outlets or more, one in each drop",
	Source: custom("one valve per drop, one per branch, one at the tank"),
	Run:    runNoIsolatingValve,
}

func runNoIsolatingValve(_ context.Context, c *Case) error {
	c.receiverValves()
	var bare []job.ID
	for _, s := range c.net.sections(branches, mains) {
		if len(s.from) > 0 && c.served(c.openEnds(s)) > 1 {
			bare = append(bare, s.runs[0].ID)
		}
	}
	if len(bare) > 0 {
		c.report(job.Finding{
			Severity: job.Caution, Where: bare,
			Title: sentence("%s cannot be shut off: no valve stands between the main and the outlets.", c.names(bare)),
		})
	}
	c.dropValves()
	return nil
}

// receiverValves looks from each receiver for a way to a fork without a valve.
func (c *Case) receiverValves() {
	for _, r := range c.net.with(catalog.Stores) {
		open := c.net.reach([]int{r}, func(i int) bool {
			return c.net.has(i, catalog.Isolates) || c.net.has(i, catalog.Supplies) || c.net.has(i, catalog.Stores)
		})
		for i := range open {
			if i == r || !open[i] || c.net.has(i, catalog.Isolates) || !c.forksOn(i) {
				continue
			}
			c.report(job.Finding{
				Severity: job.Fault, Where: []job.ID{c.net.spots[r].point.ID},
				Title: sentence("no valve stands between %s and the first branch of the line.", c.named(c.net.spots[r].point.ID)),
				Why:   "Without it the receiver must be emptied before anything on the line is mended.",
			})
			break
		}
	}
}

// forksOn: the line parts here towards outlets, or serves one.
func (c *Case) forksOn(i int) bool {
	s := &c.net.spots[i]
	if s.kind.Has(catalog.Supplies) || s.kind.Has(catalog.Stores) {
		return false
	}
	return len(s.outlets) > 0 || c.net.forks(i) > 2
}

// openEnds lists outlets and places where drops leave that air reaches within a
// section from the lines above it without passing a valve.
func (c *Case) openEnds(s section) []int {
	within := map[int]bool{}
	for _, i := range s.points {
		within[i] = true
	}
	// A valve where the section leaves the line above isolates it as well.
	start := slices.DeleteFunc(slices.Clone(s.from), func(i int) bool { return c.net.has(i, catalog.Isolates) })
	open := c.net.reach(start, func(i int) bool { return !within[i] || c.net.has(i, catalog.Isolates) })
	var ends []int
	for _, i := range s.points {
		if !open[i] || slices.Contains(s.from, i) || c.net.has(i, catalog.Isolates) {
			continue
		}
		if len(c.net.spots[i].outlets) > 0 || c.net.touches(i, drops) {
			ends = append(ends, i)
		}
	}
	return ends
}

// served counts the outlets and drops at places; a drip leg or a drain is none.
func (c *Case) served(places []int) int {
	n := 0
	for _, i := range places {
		n += len(c.net.spots[i].outlets)
		for _, e := range c.net.spots[i].legs {
			if _, twig := c.net.twig(i, e); e.run.Role == "drop" && !twig {
				n++
			}
		}
	}
	return n
}

// dropValves looks at each outlet for a valve of its own drop.
func (c *Case) dropValves() {
	var bare []job.ID
	seen := make([]bool, len(c.net.spots))
	for _, s := range c.net.sections(drops, slices.Concat(mains, branches)) {
		for _, i := range s.points {
			seen[i] = seen[i] || !slices.Contains(s.from, i)
		}
		if len(s.from) == 0 {
			continue
		}
		for _, i := range c.openEnds(s) {
			bare = append(bare, c.withoutValve(i)...)
		}
	}
	for i := range c.net.spots {
		if !seen[i] && !c.net.has(i, catalog.Isolates) && (c.net.touches(i, mains) || c.net.touches(i, branches)) {
			bare = append(bare, c.withoutValve(i)...)
		}
	}
	bare = slices.DeleteFunc(bare, c.shutAlone)
	if len(bare) == 0 {
		return
	}
	c.report(job.Finding{
		Severity: job.Caution, Where: bare, Cures: c.hangFirst(bare, catalog.Isolates),
		Title: sentence("%s cannot be shut off alone: no valve stands between the main and the outlet.", c.names(bare)),
	})
}

// withoutValve lists the outlets at a point that carry no valve themselves.
func (c *Case) withoutValve(i int) []job.ID {
	var out []job.ID
	for _, o := range c.net.spots[i].outlets {
		if !c.net.hangs(o, catalog.Isolates) {
			out = append(out, o.ID)
		}
	}
	return out
}

// shutAlone: a valve somewhere on the line shuts off this outlet and no other.
func (c *Case) shutAlone(id job.ID) bool {
	at, ok := c.net.at[c.idx.Outlet(id).Point]
	if !ok {
		return false
	}
	supplies := c.net.with(catalog.Supplies)
	all := c.net.reach(supplies, func(int) bool { return false })
	for _, v := range c.net.with(catalog.Isolates) {
		left := c.net.reach(supplies, func(i int) bool { return i == v })
		cut := 0
		for i := range all {
			if all[i] && (!left[i] || i == v) {
				cut += len(c.net.spots[i].outlets)
			}
		}
		if all[at] && (!left[at] || at == v) && cut == 1 {
			return true
		}
	}
	return false
}
