package sheet

import (
	"context"
	"strings"

	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func shoppingSheet() Sheet {
	return Sheet{
		Name: "shopping", Title: "Shopping list", Audience: "who buys", Needs: "something that is planned",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			p, err := m.shop.Purchase(ctx, screen.Ask{System: m.options.System})
			if err != nil || len(p.Needs) == 0 {
				return nil, err
			}
			blocks := []page.Block{page.Paragraph(p.Sentence), needTable(&p)}
			if len(p.Tools) > 0 {
				blocks = append(blocks, page.Heading("To make the joints with"), page.Paragraph(strings.Join(p.Tools, ", ")+"."))
			}
			if len(p.Baskets) > 0 {
				blocks = append(blocks, basketBlocks(&p.Baskets[0])...)
			}
			return blocks, nil
		},
	}
}

// needTable is what has to be there, by the shelf of the shop.
func needTable(p *screen.Purchase) page.Table {
	t := page.Table{Columns: []page.Head{{Words: ""}, {Words: "number", Right: true}, {Words: "what", Wide: true}, {Words: "article"}, {Words: "in the drawer", Right: true}}}
	shelf := ""
	for i := range p.Needs {
		n := &p.Needs[i]
		if n.Shelf != shelf {
			shelf = n.Shelf
			t.Rows = append(t.Rows, page.Row{Group: true, Cells: []string{shelf}})
		}
		words := n.Words
		if !n.Sold {
			words += " (no price known)"
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{"□", n.Number, words, n.Article, n.Drawer}})
	}
	return t
}

// basketBlocks is where to buy it at the least money.
func basketBlocks(b *screen.BasketRow) []page.Block {
	t := page.Table{Columns: []page.Head{{Words: ""}, {Words: "times", Right: true}, {Words: "what", Wide: true}, {Words: "cost", Right: true}}}
	for i := range b.Shops {
		s := &b.Shops[i]
		t.Rows = append(t.Rows, page.Row{Group: true, Cells: []string{s.Supplier}})
		for _, l := range s.Lines {
			t.Rows = append(t.Rows, page.Row{Cells: []string{"□", l.Times, l.Words, l.Cost}})
		}
		if s.Delivery != "" {
			t.Rows = append(t.Rows, page.Row{Cells: []string{"", "", "delivery", s.Delivery}})
		}
	}
	t.Rows = append(t.Rows, page.Row{Total: true, Cells: []string{"", "", "altogether; " + b.Proof, b.Price}})
	blocks := []page.Block{page.Heading(b.Title), t}
	if len(b.Left) > 0 {
		blocks = append(blocks, page.Paragraph("Left over, for the drawer: "+strings.Join(b.Left, "; ")+"."))
	}
	return blocks
}
