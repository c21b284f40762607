package sheet

import (
	"context"

	"dropleg/internal/answer/quote"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func quotationSheet() Sheet {
	return Sheet{
		Name: "quotation", Title: "Quotation", Audience: "who pays", Needs: "work that is planned",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			q, err := m.shop.Quotation(ctx, screen.Ask{System: m.options.System}, nil)
			if err != nil || len(q.Lines)+len(q.Goods) == 0 {
				return nil, err
			}
			return quotation(&q), nil
		},
	}
}

func quotation(q *screen.Quotation) []page.Block {
	work := page.Table{Columns: []page.Head{{Words: "work", Wide: true}, {Words: "number", Right: true}, {Words: "minutes each", Right: true}, {Words: "hours", Right: true}}}
	if q.Priced {
		work.Columns = append(work.Columns, page.Head{Words: q.Money, Right: true})
	}
	for _, l := range q.Lines {
		words := l.Words
		if l.For == quote.Metre {
			words += ", minutes to the metre"
		}
		if l.Usual {
			words += " *"
		}
		work.Rows = append(work.Rows, page.Row{Cells: []string{words, l.Number, l.Minutes, l.Hours, l.Cost}})
	}
	goods := page.Table{Columns: []page.Head{{Words: "material", Wide: true}, {Words: "number", Right: true}}}
	for _, g := range q.Goods {
		goods.Rows = append(goods.Rows, page.Row{Cells: []string{g.Words, g.Number}})
	}
	sums := page.Table{Whole: true, Columns: []page.Head{{Words: "altogether", Wide: true}, {Words: q.Money, Right: true}}}
	for _, s := range q.Sums {
		sums.Rows = append(sums.Rows, page.Row{Cells: []string{s.Words, s.Cost}, Total: s.Total})
	}
	blocks := []page.Block{page.Heading(q.Sentence), work, goods, sums}
	for _, note := range q.Notes {
		blocks = append(blocks, page.Paragraph(note))
	}
	return append(blocks, toSign("for the customer", "for the installer"))
}

// toSign is where to sign, a row for each side.
func toSign(sides ...string) page.Table {
	t := page.Table{Least: 14, Whole: true, Columns: []page.Head{{Words: "signed"}, {Words: "name", Wide: true}, {Words: "signature", Wide: true}, {Words: "date", Wide: true}}}
	for _, who := range sides {
		t.Rows = append(t.Rows, page.Row{Cells: []string{who, "", "", ""}})
	}
	return t
}
