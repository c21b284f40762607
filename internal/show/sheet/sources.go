package sheet

import (
	"context"
	"fmt"
	"strconv"
	"strings"

	"dropleg/engine/cite"
	"dropleg/internal/shop/model"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func sourcesSheet() Sheet {
	return Sheet{
		Name: "sources", Title: "Assumptions and sources", Audience: "who checks it", Needs: "nothing", Days: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			flow, err := m.study.Flow(ctx)
			if err != nil {
				return nil, fmt.Errorf("working out pressures: %w", err)
			}
			take, err := m.take(ctx)
			if err != nil {
				return nil, err
			}
			found, err := m.shop.Findings(ctx, screen.Ask{System: m.options.System})
			if err != nil {
				return nil, err
			}
			blocks := []page.Block{page.Heading("Supposed, as the job does not say")}
			if t := m.supposed(flow.Assumptions); len(t.Rows) > 0 {
				blocks = append(blocks, t)
			} else {
				blocks = append(blocks, page.Paragraph("Nothing of the lines."))
			}
			blocks = append(blocks, page.Heading("Customs that the lists rest on"))
			for _, r := range take.Rules {
				blocks = append(blocks, page.Paragraph("– "+strings.TrimSuffix(r.Words, ".")+sourceOf(r.Ref)))
			}
			return append(blocks, restsOn(found)...), nil
		},
	}
}

func sourceOf(r cite.Ref) string {
	if text := r.Text(); text != "" {
		return ": " + text
	}
	return ""
}

// supposed are the assumptions, those of one kind and source in one row.
func (m *Maker) supposed(all []model.Assumption) page.Table {
	t := page.Table{Columns: []page.Head{{Words: "what"}, {Words: "of", Wide: true}, {Words: "by"}}}
	rows := map[string]int{}
	names := map[int][]string{}
	for i := range all {
		a := &all[i]
		by := a.Ref.Text()
		if a.Row != "" {
			by = "catalogue row " + a.Row + sourceOf(a.Ref)
		}
		key := a.Words + "\x00" + by
		at, met := rows[key]
		if !met {
			at = len(t.Rows)
			rows[key] = at
			t.Rows = append(t.Rows, page.Row{Cells: []string{a.Words, "", by}})
		}
		names[at] = append(names[at], m.shop.Named(a.ID))
	}
	for i := range t.Rows {
		t.Rows[i].Cells[1] = few(names[i])
	}
	return t
}

// few names the first things and counts the others.
func few(all []string) string {
	const named = 4
	if len(all) <= named+1 {
		return strings.Join(all, "; ")
	}
	return strings.Join(all[:named], "; ") + " and " + strconv.Itoa(len(all)-named) + " more"
}

// restsOn are the publications that the findings rest on.
func restsOn(found []screen.Finding) []page.Block {
	t := page.Table{Columns: []page.Head{{Words: "finding", Wide: true}, {Words: "rests on"}}}
	for i := range found {
		f := &found[i]
		t.Rows = append(t.Rows, page.Row{Cells: []string{f.Title, strings.Join(f.Origin.Sources, "; ")}})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{page.Heading("What the findings rest on"), t}
}
