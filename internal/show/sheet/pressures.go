package sheet

import (
	"context"

	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func pressuresSheet() Sheet {
	return Sheet{
		Name: "pressures", Title: "Pressures at the outlets", Audience: "who uses it and who tests it", Needs: "an outlet",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			ask := screen.Ask{System: m.options.System}
			rows, err := m.shop.Outlets(ctx, ask)
			if err != nil || len(rows) == 0 {
				return nil, err
			}
			plan, err := m.shop.Plan(ctx, ask, 200, 100)
			if err != nil {
				return nil, err
			}
			t := page.Table{Columns: []page.Head{{Words: "outlet"}, {Words: "where"}, {Words: "gets", Right: true}, {Words: "needs", Right: true}, {Words: "that is"}, {Words: "tools", Wide: true}}}
			w := page.Table{Columns: []page.Head{{Words: "from the receiver to the tool", Wide: true}, {Words: "in", Right: true}, {Words: "out", Right: true}, {Words: "lost", Right: true}}}
			for i := range rows {
				r := &rows[i]
				t.Rows = append(t.Rows, page.Row{Cells: []string{r.Mark, r.Name, r.Figure, r.Needs, r.Words, r.Tools}})
			}
			way, err := m.shop.Way(ctx, ask, m.job.Outlets[indexOfOutlet(m, rows[0].ID)].ID)
			if err != nil {
				return nil, err
			}
			blocks := []page.Block{
				page.Paragraph(plan.Sentence + " Flowing pressures, gauge, where each tool is held; the shop's worst moment, the shortest outlet first."), t,
			}
			for _, s := range way.Steps {
				if s.Share >= leastShare {
					w.Rows = append(w.Rows, page.Row{Cells: []string{s.Words, s.In, s.Out, s.Loss}})
				}
			}
			if len(w.Rows) > 0 {
				blocks = append(blocks, page.Heading("The way to outlet "+rows[0].Mark), page.Paragraph(way.Sentence+" What takes less than a hundredth of the loss is left out."), w)
			}
			return blocks, nil
		},
	}
}

func indexOfOutlet(m *Maker, id string) int {
	for i := range m.job.Outlets {
		if string(m.job.Outlets[i].ID) == id {
			return i
		}
	}
	return 0
}

// leastShare of the loss on the way, in hundredths, is worth a row.
const leastShare = 1
