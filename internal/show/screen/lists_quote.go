package screen

import (
	"fmt"

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
	add := func(words string, times, of float64) { out.Rows = append(out.Rows, []any{words, times, of / 100, nil}) }
	add("work", 1, float64(a.Work))
	add("material with deliveries", 1, float64(a.Material))
	if a.MarginBy > 0 {
		add(fmt.Sprintf("margin of %g %% on material", 100*a.MarginBy), a.MarginBy, float64(a.Material))
	}
	if a.TaxBy > 0 {
		add(fmt.Sprintf("tax of %g %% on the net sum", 100*a.TaxBy), a.TaxBy, float64(a.Net))
	}
	return out
}
