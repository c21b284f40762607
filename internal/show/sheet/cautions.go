package sheet

import (
	"context"

	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func cautionsSheet() Sheet {
	return Sheet{
		Name: "cautions", Title: "Cautions and open points", Audience: "everybody", Needs: "nothing", Days: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			ask := screen.Ask{System: m.options.System}
			found, err := m.shop.Findings(ctx, ask)
			if err != nil {
				return nil, err
			}
			blocks := []page.Block{page.Heading("Before anybody works on it")}
			for _, words := range screen.Cautions() {
				blocks = append(blocks, page.Paragraph("– "+words))
			}
			blocks = append(blocks, page.Heading("What was checked and found wanting"))
			if len(found) == 0 {
				blocks = append(blocks, page.Paragraph("Nothing that this program checks. It says what was checked, not that the lines are safe."))
			}
			return append(blocks, findingBlocks(found)...), nil
		},
	}
}

func findingBlocks(found []screen.Finding) []page.Block {
	if len(found) == 0 {
		return nil
	}
	t := page.Table{Columns: []page.Head{{Words: ""}, {Words: "what", Wide: true}, {Words: "why"}, {Words: "done"}}}
	for i := range found {
		f := &found[i]
		t.Rows = append(t.Rows, page.Row{Cells: []string{f.Words, f.Title, f.Why, "□"}})
	}
	return []page.Block{t}
}
