package check

import (
	"context"
	"slices"

	"dropleg/engine/cite"
	"dropleg/internal/answer/hold"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var looseOutlet = Check{
	Code:   "loose-outlet",
	Title:  "outlets with a hose that are fixed to nothing",
	Why:    "Whoever pulls at the hose pulls at the line, and its joints take what a wall should.",
	Limit:  "the part at an outlet with a hose is fixed to the building",
	Source: []cite.Ref{{Source: "common-practice", Place: "any, all, clip from valve, coupler or drop end; drop ends need an anchor against the pull at a coupler", How: cite.Recalled}},
	Run:    runLooseOutlet,
}

func runLooseOutlet(ctx context.Context, c *Case) error {
	a, err := c.study.Hold(ctx)
	if err != nil {
		return err
	}
	loose := c.loose(a)
	if len(loose) == 0 {
		return nil
	}
	f := job.Finding{Severity: job.Caution, Where: loose}
	f.Title = sentence("%s: a hose is pulled there, and nothing fixes the part to a wall or the structure.", c.names(loose))
	if f.Cures, err = c.fixOutlets(ctx, loose); err != nil {
		return err
	}
	c.report(f)
	return nil
}

// loose lists the outlets with a hose that are fixed to nothing.
func (c *Case) loose(a *hold.Answer) []job.ID {
	var out []job.ID
	for i := range a.Fixings {
		f := &a.Fixings[i]
		o := c.idx.Outlet(f.ID)
		if o == nil {
			o = c.idx.OutletOfHose(f.ID)
		}
		if f.Loose && o != nil && o.Hose != nil {
			out = append(out, o.ID)
		}
	}
	return out
}

// fixOutlets makes the plain ends at outlets such as are screwed to the wall, if then
// no outlet is loose any more.
func (c *Case) fixOutlets(ctx context.Context, loose []job.ID) ([]job.Cure, error) {
	kind, ok := c.fixedOutlet()
	if !ok {
		return nil, nil
	}
	var edits []job.Edit
	for _, id := range loose {
		point := c.idx.Point(c.idx.Outlet(id).Point)
		now, known := c.shelf.Kind(point.Part.Kind)
		if !known || len(now.Roles) > 0 || len(now.Ports) > 2 {
			return nil, nil // it does something else there, that a wall part would not
		}
		edits = append(edits, setKind(point.ID, kind))
	}
	after, err := c.study.After(job.AllOf("", edits...))
	if err != nil {
		return nil, nil // the edits do not fit: no cure
	}
	then, err := after.Hold(ctx)
	if err != nil || slices.ContainsFunc(then.Fixings, func(f hold.Fixing) bool { return f.Loose }) {
		return nil, err
	}
	words := "a " + kind.Name("en") + " there, screwed to the wall"
	if len(loose) > 1 {
		words = "a " + kind.Name("en") + " at each, screwed to the wall"
	}
	return c.propose(ctx, words, edits...)
}

// fixedOutlet is the plainest part that ends a line at an outlet and fixes to a wall.
func (c *Case) fixedOutlet() (best catalog.Kind, ok bool) {
	for _, k := range c.shelf.Kinds() {
		if k.Has(catalog.Outlets) && k.FixesTo == "wall" && len(k.Ports) == 2 && k.Ports[0].Joint == "stock" && (!ok || len(k.Roles) < len(best.Roles)) {
			best, ok = k, true
		}
	}
	return best, ok
}
