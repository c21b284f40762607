package sheet

import (
	"context"
	"fmt"
	"strconv"

	"dropleg/engine/unit"
	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/quote"
	"dropleg/internal/show/page"
)

func quotationSheet() Sheet {
	return Sheet{
		Name: "quotation", Title: "Quotation", Audience: "who pays", Needs: "work that is planned",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			a, err := m.study.Quote(ctx)
			if err != nil {
				return nil, fmt.Errorf("reckoning the work: %w", err)
			}
			if len(a.Lines) == 0 && a.Material == 0 {
				return nil, nil
			}
			return m.quotation(a), nil
		},
	}
}

func (m *Maker) quotation(a *quote.Answer) []page.Block {
	money := or(a.Currency, "money")
	t := page.Table{Columns: []page.Head{{Words: "work", Wide: true}, {Words: "number", Right: true}, {Words: "minutes each", Right: true}, {Words: "hours", Right: true}}}
	if a.Rate != nil {
		t.Columns = append(t.Columns, page.Head{Words: money, Right: true})
	}
	usual := false
	for _, l := range a.Lines {
		number := strconv.FormatFloat(l.Number, 'f', 0, 64)
		if l.What == quote.Metre {
			number = m.options.System.Listed(unit.Length(l.Number))
		}
		words := l.Words
		if l.Usual {
			usual = true
			words += " *"
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{words, number, strconv.FormatFloat(l.Minutes, 'g', 4, 64), fmt.Sprintf("%.1f", l.Hours), l.Cost.String()}})
	}
	blocks := []page.Block{page.Heading("Work"), t}
	if usual {
		blocks = append(blocks, page.Paragraph("* a usual time: the job states none of its own."))
	}
	blocks = append(blocks, page.Heading("Altogether"), sums(a, money))
	if a.Rate == nil {
		blocks = append(blocks, page.Paragraph(fmt.Sprintf("%.1f hours; no rate is stated, so that work has no price here.", a.Hours)))
	}
	if a.Unsold > 0 {
		blocks = append(blocks, page.Paragraph(fmt.Sprintf("Without a price, and not in it: %d articles, marked on the shopping list.", a.Unsold)))
	}
	return append(blocks, page.Paragraph("Not in it: electrical work, the compressor and other plant that the job does not price, making good. Terms, and whether this binds, are for the two sides to agree."))
}

func sums(a *quote.Answer, money string) page.Table {
	t := page.Table{Columns: []page.Head{{Words: "", Wide: true}, {Words: money, Right: true}}}
	add := func(words string, x buy.Money) {
		t.Rows = append(t.Rows, page.Row{Cells: []string{words, x.String()}})
	}
	if a.Rate != nil {
		add(fmt.Sprintf("work, %.1f h at %g", a.Hours, *a.Rate), a.Work)
	}
	add("material with deliveries", a.Material)
	if a.MarginBy > 0 {
		add(fmt.Sprintf("margin of %g %% on material", 100*a.MarginBy), a.Margin)
	}
	add("net", a.Net)
	if a.TaxBy > 0 {
		add(fmt.Sprintf("tax of %g %%", 100*a.TaxBy), a.Tax)
		add("altogether", a.Gross)
	}
	return t
}
