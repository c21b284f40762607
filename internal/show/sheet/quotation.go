package sheet

import (
	"context"
	"fmt"
	"strconv"

	"dropleg/internal/answer/quote"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
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
	for _, l := range a.Lines {
		words := l.Words
		if l.What == quote.Metre {
			words += ", minutes to the metre"
		}
		if l.Usual {
			words += " *"
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{words, screen.QuoteNumber(l.Number, l.What == quote.Metre, m.options.System), strconv.FormatFloat(l.Minutes, 'g', 4, 64), fmt.Sprintf("%.1f", l.Hours), l.Cost.String()}})
	}
	blocks := []page.Block{page.Heading("Work"), t}
	blocks = append(blocks, page.Heading("Altogether"), sums(a, money))
	for _, note := range screen.QuoteNotes(a) {
		blocks = append(blocks, page.Paragraph(note))
	}
	return blocks
}

func sums(a *quote.Answer, money string) page.Table {
	t := page.Table{Columns: []page.Head{{Words: "", Wide: true}, {Words: money, Right: true}}}
	for _, s := range a.Sums() {
		t.Rows = append(t.Rows, page.Row{Cells: []string{s.Words, s.Cost.String()}})
	}
	return t
}
