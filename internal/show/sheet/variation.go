package sheet

import (
	"context"

	"dropleg/internal/show/page"
)

func variationSheet() Sheet {
	return Sheet{
		Name: "variation", Title: "Variation order", Audience: "who pays for a change", Needs: "an earlier state of the job to be told from",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			before := m.options.Before
			if before == nil {
				return nil, nil
			}
			v, err := m.shop.Variation(ctx, before.Study, m.options.System)
			if err != nil {
				return nil, err
			}
			blocks := []page.Block{page.Heading(v.Sentence), page.Paragraph("Told from " + before.Words + ".")}
			for _, list := range v.Lists {
				t := page.Table{}
				for i, words := range list.Heads {
					t.Columns = append(t.Columns, page.Head{Words: words, Wide: i == 0, Right: i > 0})
				}
				for _, r := range list.Rows {
					t.Rows = append(t.Rows, page.Row{Cells: []string{r.Words, r.Before, r.After, r.By}, Total: r.Total})
					t.Whole = t.Whole || r.Total
				}
				blocks = append(blocks, t)
			}
			for _, note := range v.Notes {
				blocks = append(blocks, page.Paragraph(note))
			}
			return append(blocks, toSign("for the customer", "for the installer")), nil
		},
	}
}
