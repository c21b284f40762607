package screen

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/quote"
	"dropleg/internal/answer/study"
)

// Quotation tells what it costs to have the job done; before is an earlier state of the job
// to tell the variation from, nil for none.
func (s *Shop) Quotation(ctx context.Context, ask Ask, before *study.Study) (Quotation, error) {
	out := Quotation{Title: s.job.Title, Lines: []QuoteLine{}, Goods: []GoodsRow{}, Sums: []SumRow{}}
	a, err := s.study.Quote(ctx)
	if err != nil {
		return out, fmt.Errorf("reckoning the work: %w", err)
	}
	bought, err := s.study.Purchase(ctx)
	if err != nil {
		return out, fmt.Errorf("putting the purchase together: %w", err)
	}
	system := s.system(ask)
	out.Money, out.Priced = or(a.Currency, "money"), a.Rate != nil
	for i := range a.Lines {
		out.Lines = append(out.Lines, quoteLine(&a.Lines[i], a.Rate != nil, system))
	}
	for i := range bought.Needs {
		n := &bought.Needs[i]
		out.Goods = append(out.Goods, GoodsRow{n.Words, QuoteNumber(n.Amount, n.Metres, system)})
	}
	for _, sum := range a.Sums() {
		out.Sums = append(out.Sums, SumRow{sum.Words, sum.Cost.String(), sum.Total})
	}
	out.Sentence, out.Notes = quoteSentence(a), QuoteNotes(a)
	out.From = *from("Hours by kind of work", "number × minutes each, at the rate for an hour; material by the cheapest basket with its deliveries; margin on material; tax on the sum",
		"times marked * are usual ones: common practice, no source")
	if before == nil {
		return out, nil
	}
	v, err := s.study.Variation(ctx, before)
	if err != nil {
		return out, fmt.Errorf("reckoning the variation: %w", err)
	}
	change := variation(v, system)
	out.Change = &change
	return out, nil
}

func quoteLine(l *quote.Line, priced bool, system unit.System) QuoteLine {
	row := QuoteLine{
		For: l.What, Words: l.Words, Number: QuoteNumber(l.Number, l.What == quote.Metre, system),
		Minutes: strconv.FormatFloat(l.Minutes, 'g', 4, 64), Usual: l.Usual, Hours: fmt.Sprintf("%.1f", l.Hours),
	}
	if priced {
		row.Cost = l.Cost.String()
	}
	return row
}

// quoteSentence says what it comes to.
func quoteSentence(a *quote.Answer) string {
	if len(a.Lines) == 0 && a.Material == 0 {
		return "Nothing is planned, so nothing to quote."
	}
	sums := a.Sums()
	text := fmt.Sprintf("%.1f h of work, %s %s altogether", a.Hours, sums[len(sums)-1].Cost, or(a.Currency, "money"))
	if a.Rate == nil {
		text = fmt.Sprintf("%.1f h of work, which no rate prices yet", a.Hours)
		if sum := sums[len(sums)-1].Cost; sum != 0 {
			text += fmt.Sprintf("; %s %s without it", sum, or(a.Currency, "money"))
		}
	}
	if a.TaxBy > 0 {
		text += ", tax included"
	}
	return text + "."
}

// variation words what a change comes to.
func variation(v *quote.Variation, system unit.System) Variation {
	out := Variation{Goods: differRows(v.Material, system), Work: differRows(v.Work, system), Sums: []DifferRow{}, Notes: VariationNotes(v)}
	for _, s := range v.Sums() {
		out.Sums = append(out.Sums, DifferRow{s.Words, s.Before.String(), s.After.String(), signed((s.After - s.Before).String()), s.Total})
	}
	money := or(v.After.Currency, "money")
	switch more := v.After.Gross - v.Before.Gross; {
	case v.Mixed():
		out.Sentence = "Priced in two currencies: the sums cannot be set against each other."
	case len(v.Material)+len(v.Work) == 0 && more == 0:
		out.Sentence = "Nothing differs that is bought or done."
	case more == 0:
		out.Sentence = "It comes to the same sum."
	case more > 0:
		out.Sentence = fmt.Sprintf("%s %s more.", more, money)
	default:
		out.Sentence = fmt.Sprintf("%s %s less.", -more, money)
	}
	return out
}

func differRows(changes []quote.Change, system unit.System) []DifferRow {
	out := []DifferRow{}
	for _, c := range changes {
		number := func(x float64) string { return QuoteNumber(x, c.Metres, system) }
		sign, differ := "+", c.After-c.Before
		if differ < 0 {
			sign, differ = "−", -differ
		}
		out = append(out, DifferRow{c.Words, number(c.Before), number(c.After), sign + number(differ), false})
	}
	return out
}

// signed is a difference of sums with its sign.
func signed(sum string) string {
	if less, ok := strings.CutPrefix(sum, "-"); ok {
		return "−" + less
	}
	return "+" + sum
}

// VariationNotes are what is to be read with a variation.
func VariationNotes(v *quote.Variation) []string {
	out := []string{}
	if v.Mixed() {
		out = append(out, fmt.Sprintf("In %s before, in %s now: no sums are set against each other.", or(v.Before.Currency, "no currency"), or(v.After.Currency, "no currency")))
	}
	if was, is := v.Before.Unsold, v.After.Unsold; was > 0 || is > 0 {
		out = append(out, fmt.Sprintf("Without a price before: %s; now: %s. What they cost is in neither sum.", plural(was, "article", "articles"), plural(is, "article", "articles")))
	}
	return out
}
