package route

import (
	"cmp"
	"fmt"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// UsualStock is what lines are made of where nobody says: straight lengths, which hold
// the fall of a main between their clips.
func UsualStock(units string) string {
	if units == string(unit.US) {
		return "copper-l"
	}
	return "aluminium-metric"
}

// The bores, in metres, that lines are drawn in before they are sized: what is common
// for a shop of some tools.
const (
	mainBore = 0.019
	dropBore = 0.0125
)

// penOf is what the lines are drawn with: as wished, else as the mains and drop legs
// that are there, else as is usual.
func penOf(s *study.Study, w *Wish) (pen, error) {
	var p pen
	long := map[string]float64{}
	for i := range s.Job().Net.Runs {
		r := &s.Job().Net.Runs[i]
		l, _ := s.Index().LengthOf(r)
		if row, ok := s.Catalog().Stock(r.Stock); ok && row.FitForAir != "no" {
			long[r.Stock] += float64(l)
		}
	}
	name := w.Stock
	if name == "" {
		name = UsualStock(s.Job().Site.Units)
		for _, stock := range slices.Sorted(keys(long)) {
			if long[stock] > long[name] {
				name = stock
			}
		}
	}
	row, ok := s.Catalog().Stock(name)
	if !ok {
		return p, refuse("unknown-stock", "stock", fmt.Sprintf("the catalogue has no stock %q", name), s.Catalog().Nearest(catalog.Stocks, name))
	}
	p.stock = row
	sizes := slices.Clone(row.Sizes)
	slices.SortStableFunc(sizes, func(a, b catalog.Size) int { return cmp.Compare(a.Bore, b.Bore) })
	for _, x := range []struct {
		wish  string
		into  *string
		bore  float64
		roles []string
	}{{w.Main, &p.main, mainBore, []string{"main", "ring", "link"}}, {w.Drop, &p.drop, dropBore, []string{"drop"}}} {
		if *x.into = x.wish; x.wish != "" {
			if _, ok := row.Size(x.wish); !ok {
				return p, refuse("unknown-size", "main", fmt.Sprintf("%s does not come in the size %q", row.Words, x.wish), "")
			}
			continue
		}
		*x.into = usedSize(s.Job(), row.Stock, sizes, x.roles, x.bore)
	}
	return p, nil
}

func keys(m map[string]float64) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// usedSize is the size that lines of the first of some roles mostly have, else the first
// of a bore.
func usedSize(j *job.Job, stock string, sizes []catalog.Size, roles []string, bore float64) string {
	for _, role := range roles {
		n := map[string]int{}
		for i := range j.Net.Runs {
			if r := &j.Net.Runs[i]; r.Role == role && r.Stock == stock {
				n[r.Size]++
			}
		}
		best := ""
		for _, z := range sizes {
			if n[z.Size] > 0 && (best == "" || n[z.Size] >= n[best]) {
				best = z.Size
			}
		}
		if best != "" {
			return best
		}
	}
	for _, z := range sizes {
		if float64(z.Bore) >= bore {
			return z.Size
		}
	}
	return sizes[len(sizes)-1].Size
}

// refuse is a refusal with one finding.
func refuse(code, path, read, nearest string, where ...job.ID) error {
	title := read
	if nearest != "" {
		title += "; " + nearest
	}
	return &job.Refusal{Findings: []job.Finding{{
		Code: code, Severity: job.Fault, Title: capital(title) + ".", Why: "Without it no line can be laid.", Where: where, Path: path, Read: read, Want: nearest,
	}}}
}
