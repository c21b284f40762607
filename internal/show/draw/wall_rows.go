package draw

import (
	"dropleg/internal/shop/job"
)

// WallRow is walls of a room that stand beside each other in one row of a drawing, by their
// order in the room.
type WallRow struct {
	First, Count int
	Names        []string
}

// Extent of the walls of a room in metres: the longest one, and how high they are drawn.
func Extent(given Given, room job.ID) (longest, high float64) {
	r, all := sides(given, room)
	for i := range all {
		longest = max(longest, all[i].long)
	}
	_, high = tallest(given.Index.Job(), r)
	return longest, high
}

// WallRows shares the walls of a room that have a line among rows no longer than so many
// metres; a longer wall stands alone.
func WallRows(given Given, room job.ID, metres float64) []WallRow {
	r, all := sides(given, room)
	e := &elevator{room: r, panels: all, planner: &planner{given: given, job: given.Index.Job(), scale: 1}}
	e.ceiling, e.top = tallest(given.Index.Job(), r)
	e.find()
	busy := make([]bool, len(all))
	for i := range e.pieces {
		if c := &e.pieces[i]; !c.ghost {
			busy[c.panel] = true
		}
	}
	var rows []WallRow
	along, open := 0.0, false
	for i := range all {
		if !busy[i] {
			open = false
			continue
		}
		if !open || along+all[i].long > metres {
			rows = append(rows, WallRow{First: i})
			along = 0
		}
		row := &rows[len(rows)-1]
		row.Count++
		row.Names = append(row.Names, all[i].name)
		along, open = along+all[i].long, true
	}
	return rows
}

// ElevationRow draws one row of walls.
func ElevationRow(given Given, sheet Sheet, room job.ID, row WallRow) View {
	r, all := sides(given, room)
	sheet.Height = sheet.Width / 40 // so that one row is what fits
	return elevation(given, sheet, r, all, row)
}

// only leaves out the walls that are not in a row, and what is drawn on them: what runs where
// was found with all of them.
func (e *elevator) only(row WallRow) {
	if row.Count == len(e.panels) {
		return
	}
	e.some = true
	e.panels = e.panels[row.First : row.First+row.Count]
	kept := e.pieces[:0]
	for _, c := range e.pieces {
		if c.panel -= row.First; c.panel >= 0 && c.panel < row.Count {
			kept = append(kept, c)
		}
	}
	e.pieces = kept
	all := e.shownOn
	e.shownOn = map[job.ID]int{}
	for id, on := range all {
		if on -= row.First; on >= 0 && on < row.Count {
			e.shownOn[id] = on
		}
	}
}
