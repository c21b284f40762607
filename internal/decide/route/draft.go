package route

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// draft is a job that gestures are made to, and the edits that they came to.
type draft struct {
	job   *job.Job
	shelf *catalog.Catalog
	edits []job.Edit
}

// do makes a gesture and gives the ids that it made.
func (d *draft) do(g fit.Gesture) ([]job.ID, error) {
	e, made, err := g.Edit(job.NewIndex(d.job), d.shelf)
	if err != nil {
		return nil, err
	}
	after, _, err := e.Apply(d.job)
	if err != nil {
		return nil, fmt.Errorf("laying lines: %w", err)
	}
	d.job = after
	d.edits = append(slices.Clip(d.edits), e)
	return made, nil
}

// try makes a gesture where it can be made.
func (d *draft) try(g fit.Gesture) ([]job.ID, bool) {
	made, err := d.do(g)
	return made, err == nil
}

func (d *draft) copied() *draft { c := *d; return &c }

// clear takes lines away that the wish says: those behind the plant, but not what
// belongs to an outlet or lies behind treatment of its own.
func (d *draft) clear(w *Wish) error {
	if w.Clear == "" {
		return nil
	}
	ix := job.NewIndex(d.job)
	n := netOf(ix, d.shelf)
	if n.mouth == "" {
		return nil
	}
	var gone []job.ID
	for _, r := range n.behind() {
		switch {
		case r.Role == "link" || w.Clear == ClearPlanned && r.State == "existing":
		case r.Role == "drip" && (len(ix.OutletsAt(r.From.Point)) > 0 || len(ix.OutletsAt(r.To.Point)) > 0):
		case n.treated(r):
		default:
			gone = append(gone, r.ID)
		}
	}
	if len(gone) == 0 {
		return nil
	}
	_, err := d.do(&fit.Erase{IDs: gone})
	return err
}

// treated says whether a run lies behind a part of treatment that is not the mouth.
func (n *net) treated(r *job.Run) bool {
	// The end that is nearer to the compressor.
	at := r.From.Point
	if n.depth[r.To.Point] < n.depth[at] {
		at = r.To.Point
	}
	for ; at != "" && at != n.mouth; at = n.by[at] {
		if n.kind(at).Group == catalog.Treatment {
			return true
		}
	}
	return false
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
