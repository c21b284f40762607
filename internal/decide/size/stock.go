package size

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// stocks lists the stocks that lines may come to be of, each for all lines that may change:
// two stocks in one net want adapters and two sets of tools. "" leaves each line its own;
// that is the only one where the rules of the job allow none by name, and it is none where
// they do not allow what is drawn.
func stocks(s *study.Study, wish Wish) []string {
	j := s.Job()
	allowed := j.Rules.Allowed
	if len(allowed) == 0 {
		return []string{""}
	}
	var out []string
	asDrawn := !slices.ContainsFunc(j.Net.Runs, func(r job.Run) bool {
		return changes(&r, wish) && !slices.Contains(allowed, r.Stock)
	})
	if asDrawn {
		out = append(out, "")
	}
	for _, name := range allowed {
		stock, ok := s.Catalog().Stock(name)
		other := slices.ContainsFunc(j.Net.Runs, func(r job.Run) bool { return changes(&r, wish) && r.Stock != stock.Stock })
		if ok && stock.FitForAir != "no" && other {
			out = append(out, stock.Stock)
		}
	}
	if len(out) == 0 {
		out = append(out, "")
	}
	return out
}

// changes: the wish lets a run change.
func changes(r *job.Run, wish Wish) bool {
	return !(wish.Keep && r.State == "existing") && (len(wish.Only) == 0 || slices.Contains(wish.Only, r.ID))
}

// restocked is the study with all lines that may change of one stock, each in the size next
// to its bore; and the edits that make it so.
func restocked(s *study.Study, wish Wish, name string) (*study.Study, []job.Edit, error) {
	if name == "" {
		return s, nil, nil
	}
	stock, _ := s.Catalog().Stock(name)
	j, idx := s.Job(), s.Index()
	var edits []job.Edit
	for i := range j.Net.Runs {
		r := &j.Net.Runs[i]
		if !changes(r, wish) || r.Stock == name {
			continue
		}
		was, _ := s.Catalog().Size(r.Stock, r.Size)
		part := cure.Stretch{Runs: []*job.Run{r}}
		for _, id := range []job.ID{r.From.Point, r.To.Point} {
			if p := idx.Point(id); p != nil {
				part.Parts = append(part.Parts, p)
			}
		}
		edits = append(edits, cure.Set(r.ID, "stock", name))
		edits = append(edits, part.Resize(idx, nearest(stock, float64(was.Bore)))...)
		if r.State == "existing" {
			edits = append(edits, cure.Set(r.ID, "state", "planned"))
		}
	}
	if len(edits) == 0 {
		return s, nil, nil
	}
	after, err := s.After(job.AllOf("", edits...))
	if err != nil {
		return nil, nil, fmt.Errorf("lines of %s: %w", name, err)
	}
	return after, edits, nil
}

// nearest is the size of a stock next to a bore.
func nearest(stock catalog.Stock, bore float64) string {
	z := slices.MinFunc(stock.Sizes, func(a, b catalog.Size) int {
		return cmp.Compare(math.Abs(float64(a.Bore)-bore), math.Abs(float64(b.Bore)-bore))
	})
	return z.Size
}

// restock puts the change of stock before that of sizes.
func (p *Proposal) restock(w *work, name string, first []job.Edit) {
	p.Edits = nil
	sizes := slices.Clone(first)
	if all, ok := p.Edit.(*job.All); ok {
		more, _ := all.Parts()
		sizes = append(sizes, more...)
	}
	p.Edit = job.AllOf(title, sizes...)
	for _, e := range sizes {
		p.Edits = append(p.Edits, e.Form())
	}
	words := name
	if stock, ok := w.shelf.Stock(name); ok {
		words = stock.Words
	}
	p.Notes = append(p.Notes, "all lines that may change come out of "+words+"; sizes and prices before are those next to it in bore")
}
