package screen

import (
	"context"
	"fmt"
	"strconv"

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
	change, err := s.Variation(ctx, before, system)
	out.Change = &change
	return out, err
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
