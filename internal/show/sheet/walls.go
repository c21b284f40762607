package sheet

import (
	"context"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
	"dropleg/internal/show/screen"
)

func wallsSheet() Sheet {
	return Sheet{
		Name: "walls", Title: "Walls, with marks and cut lengths", Audience: "who builds it", Needs: "a room with a line in it", Wide: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			all, err := wallDrawings(ctx, m)
			if err != nil || len(all) == 0 {
				return nil, err
			}
			var blocks []page.Block
			for i, d := range all {
				if i > 0 {
					blocks = append(blocks, page.Break{})
				}
				blocks = append(blocks, page.Drawings{
					Views: []page.View{d.View}, Least: 20, Working: workingRatio, Legend: m.legendOf("outlet", "clip", "fast", "cut", "joint"),
					Notes: []string{"Seen from inside, turning right. Heights are over the floor, to the middle of the line. Dotted: runs elsewhere in the room."},
				})
			}
			marks, err := m.wallMarks(ctx)
			return append(blocks, marks...), err
		},
		Drawings: wallDrawings,
	}
}

// wallDrawings are the walls of each room in which a line runs.
func wallDrawings(ctx context.Context, m *Maker) ([]Drawing, error) {
	given, err := m.given(ctx, true, true)
	if err != nil {
		return nil, err
	}
	if given, err = m.withSupports(ctx, given); err != nil {
		return nil, err
	}
	var all []Drawing
	for _, room := range m.roomsWithLines() {
		title, name := "Walls", "walls"
		if room != nil {
			title, name = "Walls of "+or(room.Name, "the room"), "walls-"+slug(room.ID)
		}
		id := job.ID("")
		if room != nil {
			id = room.ID
		}
		all = append(all, Drawing{name, page.View{Title: title, Draw: func(perMetre float64) scene.Scene {
			return draw.Elevation(given, m.at(perMetre), id).Scene
		}}})
	}
	return all, nil
}

// roomsWithLines are the rooms in which a line runs; one that is nil stands for walls without
// a room.
func (m *Maker) roomsWithLines() []*job.Room {
	var all []*job.Room
	if len(m.job.Building.Rooms) == 0 && len(m.job.Building.Walls) > 0 && m.drawn() {
		return []*job.Room{nil}
	}
	for i := range m.job.Building.Rooms {
		r := &m.job.Building.Rooms[i]
		for k := range m.job.Net.Runs {
			line := m.index.Centreline(&m.job.Net.Runs[k])
			found := false
			for n := 1; n < len(line) && !found; n++ {
				in := m.index.RoomAt(line[n-1].Plus(line[n]).Times(0.5))
				found = in != nil && in.ID == r.ID
			}
			if found {
				all = append(all, r)
				break
			}
		}
	}
	return all
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
	return []page.Block{page.Break{}, page.Heading("Marks on the walls, from the left corner as seen from inside"), t}, nil
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// slug is an id as a part of a file's name.
func slug(id job.ID) string {
	out := []rune(id)
	for i, r := range out {
		if !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-') {
			out[i] = '-'
		}
	}
	return string(out)
}
