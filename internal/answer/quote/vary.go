package quote

import (
	"math"
	"slices"

	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/purchase"
)

// Change is what one article or kind of work differs by.
type Change struct {
	Words  string  `json:"words"`
	Before float64 `json:"before"`
	After  float64 `json:"after"`
	Metres bool    `json:"metres,omitempty"`
}

// Variation is what a change of a job comes to.
type Variation struct {
	Material []Change  `json:"material"`
	Work     []Change  `json:"work"`
	Hours    []Change  `json:"hours"` // by kind of work; of all of it they stand in Before and After
	Before   Answer    `json:"before"`
	After    Answer    `json:"after"`
	Net      buy.Money `json:"net_cents"` // after less before
	Gross    buy.Money `json:"gross_cents"`
	// Lent is what the earlier state had no figures of its own for: prices, rate, margin, tax.
	Lent []string `json:"lent,omitempty"`
}

// Shift is how one sum of a quotation changes.
type Shift struct {
	Words         string
	Before, After buy.Money
	Total         bool // as of a Sum
}

// Mixed says that the two states are priced in different currencies, so that no sum of one
// can be set against one of the other.
func (v *Variation) Mixed() bool { return v.Before.Currency != v.After.Currency }

// Sums lists what the change comes to, in the order of a quotation; nothing where Mixed.
func (v *Variation) Sums() []Shift {
	if v.Mixed() {
		return nil
	}
	b, a := &v.Before, &v.After
	var out []Shift
	row := func(stands bool, words string, before, after buy.Money, total bool) {
		if stands {
			out = append(out, Shift{words, before, after, total})
		}
	}
	taxed := b.TaxBy > 0 || a.TaxBy > 0
	row(b.Rate != nil || a.Rate != nil, "work", b.Work, a.Work, false)
	row(true, "material with deliveries", b.Material, a.Material, false)
	row(b.MarginBy > 0 || a.MarginBy > 0, "margin on material", b.Margin, a.Margin, false)
	row(taxed, "net", b.Net, a.Net, true)
	row(taxed, "tax", b.Tax, a.Tax, false)
	row(true, "altogether", b.Gross, a.Gross, true)
	return out
}

// Vary tells by what a later state of a job differs from an earlier one.
func Vary(before, after *Answer, had, has *purchase.Answer) *Variation {
	v := &Variation{Material: []Change{}, Work: []Change{}, Hours: []Change{}, Before: *before, After: *after, Net: after.Net - before.Net, Gross: after.Gross - before.Gross}
	type row struct {
		Change
		key string
	}
	var goods, work, hours []row
	put := func(rows *[]row, key, words string, metres bool, was, is float64) {
		i := slices.IndexFunc(*rows, func(r row) bool { return r.key == key })
		if i < 0 {
			i = len(*rows)
			*rows = append(*rows, row{Change{Words: words, Metres: metres}, key})
		}
		(*rows)[i].Before += was
		(*rows)[i].After += is
	}
	for _, n := range had.Needs {
		put(&goods, n.Article, n.Words, n.Metres, n.Amount, 0)
	}
	for _, n := range has.Needs {
		put(&goods, n.Article, n.Words, n.Metres, 0, n.Amount)
	}
	for _, l := range before.Lines {
		put(&work, l.What, l.Words, l.What == Metre, l.Number, 0)
		put(&hours, l.What, l.Words, false, l.Hours, 0)
	}
	for _, l := range after.Lines {
		put(&work, l.What, l.Words, l.What == Metre, 0, l.Number)
		put(&hours, l.What, l.Words, false, 0, l.Hours)
	}
	const alike = 1e-6
	differing := func(rows []row, to *[]Change) {
		for _, r := range rows {
			if math.Abs(r.Before-r.After) > alike {
				*to = append(*to, r.Change)
			}
		}
	}
	differing(goods, &v.Material)
	differing(work, &v.Work)
	differing(hours, &v.Hours)
	return v
}
