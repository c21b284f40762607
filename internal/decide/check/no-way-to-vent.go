package check

import (
	"context"

	"dropleg/engine/cite"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var noWayToVent = Check{
	Code:  "no-way-to-vent",
	Title: "a valve that can be locked and that vents",
	Why:   "Before anything is mended, changed or extended, the line is isolated, locked, vented and seen at zero.",
	Limit: "every outlet lies behind a valve that locks and vents; a tool screwed on for good has one of its own",
	Source: []cite.Ref{
		{Source: "iso4414", Place: "isolation and release of stored energy", How: cite.Recalled},
		{Source: "common-practice", Place: "isolate, lock, vent, see zero", How: cite.Common},
	},
	Run: runNoWayToVent,
}

func runNoWayToVent(_ context.Context, c *Case) error {
	locked := c.net.behindAny(func(i int) bool { return locksAndVents(c.net.spots[i].kind) })
	fed := c.net.reach(c.net.with(catalog.Supplies), func(int) bool { return false })
	var open, machines []job.ID
	for i := range c.net.spots {
		for _, o := range c.net.spots[i].outlets {
			if !fed[i] {
				continue
			}
			if !locked[i] && !locksAndVents(c.net.spots[i].kind) && !c.hangsLock(o) {
				open = append(open, o.ID)
			}
			if c.screwedOn(o) && !c.hangsLock(o) {
				machines = append(machines, o.ID)
			}
		}
	}
	if len(open) > 0 {
		where := open
		for _, s := range c.net.with(catalog.Supplies) {
			where = append([]job.ID{c.net.spots[s].point.ID}, where...)
		}
		c.report(job.Finding{
			Severity: job.Caution, Where: where,
			Title: sentence("no valve at the supply can be locked shut and vents the line behind it; %s open to the compressor.", areOpen(len(open))),
		})
	}
	if len(machines) > 0 {
		c.report(job.Finding{
			Severity: job.Note, Where: machines,
			Title: sentence("what is screwed on at %s cannot be vented where it stands.", c.names(machines)),
			Why:   "A tool without a coupler stays under pressure until the line is let down.",
		})
	}
	return nil
}

func areOpen(n int) string {
	if n == 1 {
		return "1 outlet stays"
	}
	return plural(n, "outlet") + " stay"
}

func locksAndVents(k catalog.Kind) bool { return k.Has(catalog.Locks) && k.Has(catalog.Vents) }

func (c *Case) hangsLock(o *job.Outlet) bool {
	for i := range o.Hang {
		if locksAndVents(c.net.hung(&o.Hang[i])) {
			return true
		}
	}
	return false
}

// screwedOn: tools are used here and nothing between line and tool comes apart by hand.
func (c *Case) screwedOn(o *job.Outlet) bool {
	if len(o.Tools) == 0 || c.net.hangs(o, catalog.Couples) {
		return false
	}
	return o.Hose == nil || (o.Hose.Plug == "" && o.Hose.Socket == "")
}
