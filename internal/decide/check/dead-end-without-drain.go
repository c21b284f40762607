package check

import (
	"context"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var deadEndWithoutDrain = Check{
	Code:   "dead-end-without-drain",
	Title:  "ends and low points of mains and branches drained",
	Why:    "Water gathers where the line ends or sags, rusts it, freezes there, or is blown into a tool at once.",
	Limit:  "a drain at each end and each low point of a main or branch that carries air that may be wet",
	Source: custom("mains fall away from the compressor to a drain and end in a drop, not in a dead end"),
	Run:    runDeadEndWithoutDrain,
}

// sag is the depth from which a low place of a line counts, metres: less is
// within what clips hold.
const sag = 0.02

func runDeadEndWithoutDrain(_ context.Context, c *Case) error {
	dry := c.dryPoints()
	var ends, lows []job.ID
	for i := range c.net.spots {
		s := &c.net.spots[i]
		if dry[i] || !c.net.touches(i, mains) && !c.net.touches(i, branches) || c.net.has(i, catalog.Supplies) || c.net.has(i, catalog.Stores) {
			continue
		}
		switch {
		case c.net.drained(i):
		case len(s.legs) == 1 && len(s.outlets) == 0 && s.legs[0].run.State != "stub" && s.point.State != "stub":
			ends = append(ends, s.point.ID)
		case c.low(i):
			lows = append(lows, s.point.ID)
		}
	}
	for i := range c.job.Net.Runs {
		r := &c.job.Net.Runs[i]
		if at, ok := c.net.at[r.From.Point]; ok && !dry[at] && (of(r, mains) || of(r, branches)) && sags(c.idx.Centreline(r)) {
			lows = append(lows, r.ID)
		}
	}
	if len(ends) > 0 {
		c.report(job.Finding{
			Severity: job.Caution, Where: ends, Cures: c.drainEnds(ends),
			Title: sentence("the line ends at %s without a drain.", c.names(ends)),
		})
	}
	if len(lows) > 0 {
		c.report(job.Finding{
			Severity: job.Caution, Where: lows,
			Title: sentence("water gathers at a low point without a drain: %s.", c.names(lows)),
		})
	}
	return nil
}

// drainEnds turns capped ends into drains.
func (c *Case) drainEnds(ends []job.ID) []job.Cure {
	drain, ok := c.kindWith(catalog.Drains, 1)
	if !ok {
		return nil
	}
	var edits []job.Edit
	for _, id := range ends {
		if i := c.net.at[id]; c.net.has(i, catalog.Ends) {
			edits = append(edits, setKind(id, drain))
		}
	}
	if len(edits) == 0 {
		return nil
	}
	words := "a " + drain.Name("en") + " in place of the cap"
	if len(edits) > 1 {
		words = "a " + drain.Name("en") + " in place of each cap"
	}
	return c.offer(words, edits...)
}

// low: both neighbours on the line lie higher and nothing leads down from here.
func (c *Case) low(i int) bool {
	here, ok := c.idx.Where(c.net.spots[i].point)
	if !ok || len(c.net.spots[i].legs) < 2 || len(c.net.spots[i].outlets) > 0 {
		return false
	}
	for _, e := range c.net.spots[i].legs {
		line := c.idx.Centreline(e.run)
		if len(line) < 2 {
			return false
		}
		next := line[1]
		if e.run.To.Point == c.net.spots[i].point.ID {
			next = line[len(line)-2]
		}
		if next[2] < here[2]+sag {
			return false
		}
	}
	return true
}

// sags: a corner of the line lies lower than both its ends.
func sags(line []geom.Point) bool {
	if len(line) < 3 {
		return false
	}
	least := min(line[0][2], line[len(line)-1][2])
	for _, p := range line[1 : len(line)-1] {
		if p[2] < least-sag {
			return true
		}
	}
	return false
}
