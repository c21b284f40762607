package screen

import (
	"context"
	"fmt"
	"math"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/quote"
	"dropleg/internal/answer/study"
)

// Variation is what a change of the job comes to, worded as page, terminal and paper tell it.
type Variation struct {
	Sentence string `json:"sentence"`
	// Lists are material, work, hours and sums, those in which anything differs.
	Lists []DifferList `json:"lists"`
	Notes []string     `json:"notes"`
}

// DifferList is what differs of one sort.
type DifferList struct {
	Heads [4]string   `json:"heads"` // what it is, and the figures of its rows
	Rows  []DifferRow `json:"rows"`
}

// DifferRow is what one article, kind of work or sum differs by.
type DifferRow struct {
	Words  string `json:"words"`
	Before string `json:"before"`
	After  string `json:"after"`
	By     string `json:"by"` // "+2", "−41.30"
	Total  bool   `json:"total,omitempty"`
}

// Variation tells what the job comes to more or less than at an earlier state.
func (s *Shop) Variation(ctx context.Context, before *study.Study, system unit.System) (Variation, error) {
	v, err := s.study.Variation(ctx, before)
	if err != nil {
		return Variation{}, fmt.Errorf("reckoning the variation: %w", err)
	}
	return VariationOf(v, system), nil
}

// VariationOf words what a change comes to.
func VariationOf(v *quote.Variation, system unit.System) Variation {
	money := or(v.After.Currency, "money")
	out := Variation{Lists: []DifferList{}, Notes: variationNotes(v)}
	put := func(what string, rows []DifferRow) {
		if len(rows) > 0 {
			out.Lists = append(out.Lists, DifferList{[4]string{what, "before", "now", "differs by"}, rows})
		}
	}
	amount := func(x float64, metres bool) string { return QuoteNumber(x, metres, system) }
	more, less := parted(v.Material)
	put("material added", differRows(more, amount))
	put("material that falls away", differRows(less, amount))
	put("work", differRows(v.Work, amount))
	put("hours", hourRows(v))
	var sums []DifferRow
	for _, s := range v.Sums() {
		sums = append(sums, DifferRow{s.Words, s.Before.String(), s.After.String(), signed((s.After - s.Before).String()), s.Total})
	}
	put(money, sums)
	switch more := v.After.Gross - v.Before.Gross; {
	case v.Mixed():
		out.Sentence = "Priced in two currencies: the sums cannot be set against each other."
	case len(v.Material)+len(v.Work)+len(v.Hours) == 0 && more == 0:
		out.Sentence = "Nothing differs that is bought or done."
	case v.Before.Gross == 0 && v.After.Gross == 0:
		out.Sentence = "Nothing of it is priced yet: it has no sum."
	case more == 0:
		out.Sentence = "It comes to the same sum."
	case more > 0:
		out.Sentence = fmt.Sprintf("%s %s more.", more, money)
	default:
		out.Sentence = fmt.Sprintf("%s %s less.", -more, money)
	}
	if (v.Before.Unsold > 0 || v.After.Unsold > 0) && !v.Mixed() && v.Before.Gross != v.After.Gross {
		out.Sentence += " Not all of it is priced."
	}
	return out
}

// parted shares changes into what there is more of and what there is less of.
func parted(all []quote.Change) (more, less []quote.Change) {
	for _, c := range all {
		if c.After > c.Before {
			more = append(more, c)
		} else {
			less = append(less, c)
		}
	}
	return more, less
}

func differRows(changes []quote.Change, number func(x float64, metres bool) string) []DifferRow {
	var out []DifferRow
	for _, c := range changes {
		sign, differ := "+", c.After-c.Before
		if differ < 0 {
			sign, differ = "−", -differ
		}
		out = append(out, DifferRow{c.Words, number(c.Before, c.Metres), number(c.After, c.Metres), sign + number(differ, c.Metres), false})
	}
	return out
}

// hourRows are the hours of each kind of work that differ, and all hours: to a tenth as a
// quotation has them, and rounded before they are set against each other, so that each row closes.
func hourRows(v *quote.Variation) []DifferRow {
	if len(v.Hours) == 0 {
		return nil
	}
	tenths := func(c quote.Change) quote.Change {
		c.Before, c.After = math.Round(10*c.Before)/10, math.Round(10*c.After)/10
		return c
	}
	var all []quote.Change
	for _, c := range v.Hours {
		if c = tenths(c); c.Before != c.After {
			all = append(all, c)
		}
	}
	all = append(all, tenths(quote.Change{Words: "altogether", Before: v.Before.Hours, After: v.After.Hours}))
	rows := differRows(all, func(x float64, _ bool) string { return fmt.Sprintf("%.1f", x) })
	rows[len(rows)-1].Total = true
	return rows
}

// signed is a difference of sums with its sign.
func signed(sum string) string {
	if less, ok := strings.CutPrefix(sum, "-"); ok {
		return "−" + less
	}
	if strings.Trim(sum, "0.") == "" {
		return sum
	}
	return "+" + sum
}

// variationNotes are what is to be read with a variation.
func variationNotes(v *quote.Variation) []string {
	out := []string{}
	if len(v.Lent) > 0 {
		out = append(out, "The earlier state had no "+listed(v.Lent)+": what stands now is taken for it, so that what was changed is priced and nothing else.")
	}
	if v.Mixed() {
		out = append(out, fmt.Sprintf("In %s before, in %s now: no sums are set against each other.", or(v.Before.Currency, "no currency"), or(v.After.Currency, "no currency")))
	}
	if was, is := v.Before.Unsold, v.After.Unsold; was > 0 || is > 0 {
		out = append(out, fmt.Sprintf("Without a price before: %s; now: %s. What they cost is in neither sum.", plural(was, "article", "articles"), plural(is, "article", "articles")))
	}
	return out
}
