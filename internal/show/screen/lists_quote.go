package screen

import (
	"dropleg/internal/answer/quote"
	"dropleg/internal/show/page"
)

// workSheet is the work of a quotation by kind.
func workSheet(a *quote.Answer) page.Sheet {
	money := or(a.Currency, "money")
	out := page.Sheet{Name: "work", Columns: []page.Column{
		{Head: "work"},
		{Head: "number", Kind: page.Number},
		{Head: "min each", Kind: page.Number},
		{Head: "h", Kind: page.Number, Product: &[2]int{1, 2}, Per: 60, Total: true},
		{Head: money + " for an hour", Kind: page.Money, Currency: a.Currency},
		{Head: "cost, " + money, Kind: page.Money, Currency: a.Currency, Product: &[2]int{3, 4}, Total: true},
		{Head: "time"},
	}}
	for i := range a.Lines {
		l := &a.Lines[i]
		var rate any
		if a.Rate != nil {
			rate = *a.Rate
		}
		time := "of the job"
		if l.Usual {
			time = "usual"
		}
		out.Rows = append(out.Rows, []any{l.Words, l.Number, l.Minutes, nil, rate, nil, time})
	}
	return out
}

// sumSheet is what a quotation comes to: its rows add up to what is paid.
func sumSheet(a *quote.Answer) page.Sheet {
	money := or(a.Currency, "money")
	out := page.Sheet{Name: "sum", Columns: []page.Column{
		{Head: "what"},
		{Head: "times", Kind: page.Number},
		{Head: "of " + money, Kind: page.Money, Currency: a.Currency},
		{Head: "cost, " + money, Kind: page.Money, Currency: a.Currency, Product: &[2]int{1, 2}, Total: true},
	}}
	for _, sum := range a.Sums() {
		if !sum.Total {
			out.Rows = append(out.Rows, []any{sum.Words, sum.Times, float64(sum.Of) / 100, nil})
		}
	}
	return out
}
