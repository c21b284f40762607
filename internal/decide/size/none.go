package size

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/decide/size/tree"
	"dropleg/internal/shop/job"
)

// NoneError says why there is no proposal, as findings that name what else must change.
type NoneError struct{ Findings []job.Finding }

func (e *NoneError) Error() string {
	var titles []string
	for _, f := range e.Findings {
		titles = append(titles, f.Title)
	}
	return strings.Join(titles, "; ")
}

// usable refuses a job in which there is nothing to size by.
func (w *work) usable() error {
	none := func(code, title, why string) error {
		return &NoneError{[]job.Finding{{Code: code, Severity: job.Fault, Title: title, Why: why}}}
	}
	switch {
	case len(w.model.Tools()) == 0:
		return none("size-no-tools", "The job has no tools: nothing says how much air is wanted.", "Sizes follow from what the tools take: name at least one, with its flow or a row of the catalogue.")
	case len(w.model.Sources()) == 0:
		return none("size-no-supply", "The job has no compressor and no receiver: nothing holds a pressure.", "Sizes follow from the pressure that there is: draw the compressor, with its cut-in.")
	case len(w.moments) == 0:
		return none("size-no-outlets", "No tool of the job is used at an outlet.", "Sizes follow from where air is taken: an outlet lists the tools used at it.")
	}
	return nil
}

// lacking tells what else must change where the largest sizes on offer are not enough.
func (w *work) lacking(ctx context.Context, v *verdict) error {
	out := &NoneError{}
	pairs := slices.Sorted(maps.Keys(v.lacks))
	slices.SortStableFunc(pairs, func(a, b int) int { return cmp.Compare(v.lacks[b], v.lacks[a]) })
	for _, pair := range pairs {
		p := &w.model.Pairs()[pair]
		f := job.Finding{
			Code: "size-none", Severity: job.Fault, Where: []job.ID{p.Tool, p.Outlet},
			Title: fmt.Sprintf("With the largest sizes on offer %s still lacks %s%s.", w.toolName(p.Tool), w.text(unit.KindPressureDiff, v.lacks[pair]), w.at(p.Outlet)),
		}
		others, err := w.others(ctx, v, pair)
		if err != nil {
			return err
		}
		f.Why = "No size does it alone. One of these would beside them: " + strings.Join(others, "; ") + "."
		out.Findings = append(out.Findings, f)
	}
	return out
}

// none tells of a problem without an answer although the largest sizes would do: what
// is held or barred stands in the way.
func (w *work) none(none *tree.NoneError) error {
	f := job.Finding{Code: "size-none", Severity: job.Fault, Title: "No sizes on offer do it.", Why: "Let what is installed be changed, or allow larger sizes."}
	if none.Grows {
		f.Title = "The sizes on offer do it only with a line wider than the one before it."
	}
	most := 0.0
	for _, l := range none.Lacks {
		if lack := l.Asks - l.Has; lack > most {
			most = lack
			f.Title = fmt.Sprintf("No sizes on offer do it while there runs: %s.", w.moments[l.Case].name)
			if !math.IsInf(lack, 1) {
				f.Why = fmt.Sprintf("They would want %s more at the receiver. %s", w.text(unit.KindPressureDiff, lack), f.Why)
			}
		}
	}
	return &NoneError{[]job.Finding{f}}
}

// IsNone says whether an error is that no sizes do.
func IsNone(err error) (*NoneError, bool) {
	var none *NoneError
	ok := errors.As(err, &none)
	return none, ok
}
