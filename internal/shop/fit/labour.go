package fit

import (
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Labour states how long one joint, metre, support, outlet or part of the plant takes: the
// gesture "labour". Without minutes the usual time holds again.
type Labour struct {
	did
	For     string   `json:"for" doc:"a way of joining, or metre, support, outlet, plant part"`
	Minutes *float64 `json:"min,omitempty" min:"0" max:"100000"`
}

// Edit states it.
func (g *Labour) Edit(ix *job.Index, shelf *catalog.Catalog) (job.Edit, []job.ID, error) {
	kinds := job.LabourKinds(shelf)
	if !slices.Contains(kinds, g.For) {
		want := "one of " + strings.Join(kinds, ", ")
		if near := unit.Nearest(brief(g.For), kinds); near != "" {
			want += "; nearest is " + near
		}
		return nil, nil, refuse("unknown-work", "for", fmt.Sprintf("there is no work %q to state a time for", brief(g.For)), want)
	}
	var list []job.LabourTime
	if l := ix.Job().Prices.Labour; l != nil {
		list = slices.DeleteFunc(slices.Clone(l.Minutes), func(t job.LabourTime) bool { return t.For == g.For })
	}
	title := "the usual time for " + g.For
	if g.Minutes != nil {
		list = append(list, job.LabourTime{For: g.For, Minutes: *g.Minutes})
		title = fmt.Sprintf("time for %s: %g min", g.For, *g.Minutes)
	}
	e, err := fits(job.AllOf(title, setTo("", "prices.labour.minutes", list)), ix)
	return e, nil, err
}
