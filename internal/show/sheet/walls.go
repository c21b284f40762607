package sheet

import (
	"context"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

func wallsSheet() Sheet {
	return Sheet{
		Name: "walls", Title: "Walls, with clips and cut lengths", Audience: "who builds it", Needs: "a room with a line in it", Wide: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			given, err := m.wallsGiven(ctx)
			if err != nil {
				return nil, err
			}
			var blocks []page.Block
			for _, room := range m.roomsWithLines() {
				for _, d := range m.rowsOf(given, room) {
					d.Legend = m.legendOf("outlet", "clip", "fast", "cut", "joint")
					d.Notes = []string{"Seen from inside, turning right; walls without a line left out. Heights: over the floor, to the middle of the line. Dotted: elsewhere in the room. Clips: from the left corner; all on the sheet of marks."}
					blocks = append(blocks, page.Break{}, d)
				}
			}
			return blocks, nil
		},
		Drawings: wallDrawings,
	}
}

// rowsOf are the walls of a room in rows, as many beside each other as fit at the largest scale
// at which the longest has room across a leaf; each row then takes the largest for itself. Walls
// that are too long for any scale to work from stand alone, and come in tiles.
func (m *Maker) rowsOf(given draw.Given, room *job.Room) []page.Drawings {
	title, id := "Walls", job.ID("")
	if room != nil {
		title, id = or(room.Name, "The room"), room.ID
	}
	wide, tall := page.Room(m.options.Paper, true)
	const beside, under = 24, 60 // mm: left of a row; dimensions, legend, notes and title
	longest, high := draw.Extent(given, id)
	across := (wide - beside) * workingRatio / 1000
	for _, s := range page.Scales(m.options.System == unit.US) {
		k := s.PerMetre()
		if s.Ratio >= leastRatio && s.Ratio <= workingRatio && longest*k <= wide-beside && high*k <= tall-under {
			across = (wide - beside) / k
			break
		}
	}
	key := given
	key.Supports, key.Work = nil, &draw.Work{Dashes: given.Work.Dashes, Bare: true}
	var out []page.Drawings
	for _, row := range draw.WallRows(given, id, across) {
		drawn := func(g draw.Given) func(float64) scene.Scene {
			return func(perMetre float64) scene.Scene { return draw.ElevationRow(g, m.at(perMetre), id, row).Scene }
		}
		out = append(out, page.Drawings{Least: leastRatio, Working: workingRatio, Views: []page.View{{
			Title: title + ": " + strings.Join(row.Names, ", "), Draw: drawn(given), Key: drawn(key),
		}}})
	}
	return out
}

// leastRatio keeps drawings of a small shop from growing over all measure: none larger than 1
// to this.
const leastRatio = 20

func (m *Maker) wholeRoom(given draw.Given, title string, id job.ID) page.View {
	return page.View{Title: title, Draw: func(perMetre float64) scene.Scene {
		return draw.Elevation(given, m.at(perMetre), id).Scene
	}}
}

func (m *Maker) wallsGiven(ctx context.Context) (draw.Given, error) {
	given, err := m.given(ctx, true, true)
	if err != nil {
		return given, err
	}
	return m.withSupports(ctx, given)
}

// wallDrawings are all walls of each room in which a line runs.
func wallDrawings(ctx context.Context, m *Maker) ([]Drawing, error) {
	given, err := m.wallsGiven(ctx)
	if err != nil {
		return nil, err
	}
	var all []Drawing
	for _, room := range m.roomsWithLines() {
		title, name, id := "Walls", "walls", job.ID("")
		if room != nil {
			title, name, id = "Walls of "+or(room.Name, "the room"), "walls-"+slug(room.ID), room.ID
		}
		for slices.ContainsFunc(all, func(d Drawing) bool { return d.Name == name }) {
			name += "-2" // ids that differ in a sign that no file's name has
		}
		all = append(all, Drawing{name, m.wholeRoom(given, title, id)})
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
