package sheet

import (
	"context"

	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func cautionsSheet() Sheet {
	return Sheet{
		Name: "cautions", Title: "Cautions and open points", Audience: "everybody", Needs: "nothing",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			ask := screen.Ask{System: m.options.System}
			found, err := m.shop.Findings(ctx, ask)
			if err != nil {
				return nil, err
			}
			questions, err := m.shop.Questions(ctx, ask)
			if err != nil {
				return nil, err
			}
			blocks := []page.Block{page.Heading("Before anybody works on it")}
			for _, words := range always() {
				blocks = append(blocks, page.Paragraph("– "+words))
			}
			seen := map[string]bool{}
			for _, q := range questions {
				for _, c := range q.Cautions {
					if !seen[c] {
						seen[c] = true
						blocks = append(blocks, page.Paragraph("– "+c))
					}
				}
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

// always are the cautions of every compressed-air line, common practice but for the one that
// names its rule.
func always() []string {
	return []string{
		"Compressed air kills. Vent the line and lock the supply before a joint is opened; never look into or point an open end at anybody.",
		"Eye and ear protection while the line is blown out, tested and used. Blow guns limited at the nozzle (30 psi dead-ended, OSHA 29 CFR 1910.242), never towards skin.",
		"No plastic line that shatters (PVC). Only parts rated for the pressure at which the relief valve opens.",
		"Receivers and relief valves fall under pressure-vessel law; the compressor's supply circuit is a licensed electrician's work.",
		"A test with air stores energy: raise the pressure in steps, keep people away from the line, and look for leaks with soap, not with hands.",
		"Not for breathing air. Local codes and the makers' instructions come before this book.",
	}
}
