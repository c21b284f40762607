package sheet

import (
	"context"

	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

func marksSheet() Sheet {
	return Sheet{
		Name: "marks", Title: "Marks on the walls", Audience: "who builds it", Needs: "a line on a wall",
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) { return m.wallMarks(ctx) },
	}
}

// wallMarks are the places to mark on each wall.
func (m *Maker) wallMarks(ctx context.Context) ([]page.Block, error) {
	hold, err := m.shop.Hold(ctx, screen.Ask{System: m.options.System})
	if err != nil {
		return nil, err
	}
	t := page.Table{Columns: []page.Head{{Words: "along the wall", Right: true}, {Words: "up from the floor", Right: true}, {Words: "what", Wide: true}, {Words: "marked"}}}
	for i := range hold.Walls {
		w := &hold.Walls[i]
		if len(w.Marks) == 0 {
			continue
		}
		t.Rows = append(t.Rows, page.Row{Group: true, Cells: []string{w.Name + ": " + w.Words}})
		for _, k := range w.Marks {
			t.Rows = append(t.Rows, page.Row{Cells: []string{k.Along, k.Up, k.What, "□"}})
		}
	}
	if len(t.Rows) == 0 {
		return nil, nil
	}
	return []page.Block{page.Paragraph("From the left corner as seen from inside, up from the floor, to the middle of what sits there. Tick what is marked."), t}, nil
}
