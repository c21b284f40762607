package route

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// rename calls all that lies on the loop which a closing line makes a ring, and gives each
// branch that leaves it a valve of its own where it has none.
func (a *artist) rename() error {
	ix := job.NewIndex(a.job)
	loop := a.loop(ix)
	var edits []job.Edit
	points := map[job.ID]bool{}
	for _, id := range loop {
		r := ix.Run(id)
		points[r.From.Point], points[r.To.Point] = true, true
		if r.Role == "branch" || r.Role == "main" {
			edits = append(edits, cure.Set(id, "role", "ring"))
		}
	}
	if len(edits) > 0 {
		e := job.AllOf("the ring's lines", edits...)
		after, _, err := e.Apply(a.job)
		if err != nil {
			return fmt.Errorf("closing the ring: %w", err)
		}
		a.job, a.edits = after, append(slices.Clip(a.edits), e)
	}
	for _, p := range a.bare(points) {
		a.valveAt(p)
	}
	return nil
}

// bare is where branches that leave some points want a valve, for they have none.
func (a *artist) bare(points map[job.ID]bool) (out []geom.Point) {
	ix := job.NewIndex(a.job)
	for i := range a.job.Net.Runs {
		r := &a.job.Net.Runs[i]
		way := ix.Centreline(r)
		if r.Role != "branch" || len(way) < 2 || points[r.From.Point] == points[r.To.Point] {
			continue
		}
		at, next, far := way[0], way[1], r.To.Point
		if points[r.To.Point] {
			at, next, far = way[len(way)-1], way[len(way)-2], r.From.Point
		}
		if k, _ := a.shelf.Kind(ix.Point(far).Part.Kind); k.Has(catalog.Isolates) {
			continue
		}
		long := at.Distance(next)
		out = append(out, at.Plus(next.Minus(at).Times(math.Min(valveFrom, long/2)/long)))
	}
	return out
}

// loop is the closing lines and the mains and branches by which the one end of them leads
// back to the other.
func (a *artist) loop(ix *job.Index) []job.ID {
	var out []job.ID
	ends := map[job.ID]int{}
	for i := range a.job.Net.Runs {
		if r := &a.job.Net.Runs[i]; r.Role == "ring" {
			out = append(out, r.ID)
			ends[r.From.Point]++
			ends[r.To.Point]++
		}
	}
	var loose []job.ID
	for p, n := range ends {
		if n == 1 {
			loose = append(loose, p)
		}
	}
	slices.Sort(loose) // a map has no order, and the way found hangs on which end comes first
	if len(loose) != 2 {
		return out
	}
	type step struct{ run, from job.ID }
	by := map[job.ID]step{loose[0]: {}}
	queue := loose[:1]
	for n := 0; n < len(queue); n++ {
		for _, e := range ix.Ends(queue[n]) {
			if _, seen := by[e.Other()]; seen || e.Run.Role != "main" && e.Run.Role != "branch" {
				continue
			}
			by[e.Other()] = step{e.Run.ID, queue[n]}
			queue = append(queue[:len(queue):len(queue)], e.Other())
		}
	}
	for at := loose[1]; by[at].run != ""; at = by[at].from {
		out = append(out, by[at].run)
	}
	return out
}
