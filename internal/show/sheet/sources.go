package sheet

import (
	"context"
	"strings"

	"dropleg/engine/cite"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func sourcesSheet() Sheet {
	return Sheet{
		Name: "sources", Title: "Assumptions and sources", Audience: "who checks it", Needs: "nothing",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			ask := screen.Ask{System: m.options.System}
			flow, err := m.study.Flow(ctx)
			if err != nil {
				return nil, err
			}
			found, err := m.shop.Findings(ctx, ask)
			if err != nil {
				return nil, err
			}
			take, err := m.take(ctx)
			if err != nil {
				return nil, err
			}
			blocks := []page.Block{page.Heading("Supposed, as the job does not say")}
			said := map[string]bool{}
			say := func(words string) {
				if words = strings.TrimSpace(words); words != "" && !said[words] {
					said[words] = true
					blocks = append(blocks, page.Paragraph("– "+words))
				}
			}
			for _, a := range flow.Assumptions {
				say(a.Words)
			}
			for _, r := range take.Rules {
				say(r.Words + sourceOf(r.Ref))
			}
			if len(said) == 0 {
				blocks = append(blocks, page.Paragraph("Nothing."))
			}
			return append(blocks, sourceBlocks(found)...), nil
		},
	}
}

func sourceOf(r cite.Ref) string {
	if text := r.Text(); text != "" {
		return " (" + text + ")"
	}
	return ""
}

// sourceBlocks are the publications that the findings rest on, and where all others are listed.
func sourceBlocks(found []screen.Finding) []page.Block {
	blocks := []page.Block{page.Heading("What the checks rest on")}
	t := page.Table{Columns: []page.Head{{Words: "finding", Wide: true}, {Words: "rests on"}, {Words: "by"}}}
	for i := range found {
		f := &found[i]
		t.Rows = append(t.Rows, page.Row{Cells: []string{f.Title, strings.Join(f.Origin.Sources, "; "), f.Origin.Name}})
	}
	if len(t.Rows) > 0 {
		blocks = append(blocks, t)
	}
	list := page.Table{Size: 2.5, Columns: []page.Head{{Words: "source", Wide: true}, {Words: "edition"}, {Words: "figures"}}}
	for _, s := range cite.All() {
		list.Rows = append(list.Rows, page.Row{Cells: []string{s.Title, s.Edition, string(s.How)}})
	}
	return append(blocks, page.Heading("Sources of the program's figures"), list)
}
