package quote

import (
	"fmt"

	"dropleg/internal/answer/buy"
)

// Sum is one row of what a quotation comes to.
type Sum struct {
	Words string
	// Times of Of is what it costs: 1 of the work, the margin's share of the material.
	Times float64
	Of    buy.Money
	Cost  buy.Money
	// Total rows add up those above them instead of adding to them.
	Total bool
}

// Sums lists what a quotation comes to, as people read it: what adds up, each total below
// what it is of. Work without a rate has no price and no row; the last row is what is paid.
func (a *Answer) Sums() []Sum {
	var out []Sum
	part := func(words string, times float64, of, cost buy.Money) {
		out = append(out, Sum{Words: words, Times: times, Of: of, Cost: cost})
	}
	total := func(words string, of buy.Money) {
		out = append(out, Sum{Words: words, Times: 1, Of: of, Cost: of, Total: true})
	}
	if a.Rate != nil {
		part(fmt.Sprintf("work, %.1f h at %g", a.Hours, *a.Rate), 1, a.Work, a.Work)
	}
	part("material with deliveries", 1, a.Material, a.Material)
	if a.MarginBy > 0 {
		part(fmt.Sprintf("margin of %.4g %% on material", 100*a.MarginBy), a.MarginBy, a.Material, a.Margin)
	}
	if a.TaxBy == 0 {
		total("altogether", a.Net)
		return out
	}
	total("net", a.Net)
	part(fmt.Sprintf("tax of %.4g %%", 100*a.TaxBy), a.TaxBy, a.Net, a.Tax)
	total("altogether", a.Gross)
	return out
}
