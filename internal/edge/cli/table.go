package cli

import "strings"

// table is rows of cells; the first row is the head.
type table [][]string

// write sets a table in columns: the first to the left, figures to the right.
// Columns that are empty throughout are left out.
func (t table) write(p *paper) {
	wide := make([]int, len(t[0]))
	used := make([]bool, len(t[0]))
	for r, row := range t {
		for i, cell := range row {
			wide[i] = max(wide[i], width(cell))
			used[i] = used[i] || r > 0 && cell != ""
		}
	}
	figures := make([]bool, len(wide))
	for i := range figures {
		figures[i] = t.isFigures(i)
	}
	for r, row := range t {
		var line strings.Builder
		for i, cell := range row {
			if !used[i] {
				continue
			}
			if line.Len() > 0 {
				line.WriteString("  ")
			}
			if figures[i] {
				cell = left(cell, wide[i])
			} else {
				cell = pad(cell, wide[i])
			}
			line.WriteString(cell)
		}
		text := line.String()
		if r == 0 {
			text = p.ink(dim, text)
		}
		p.line(text)
	}
}

// isFigures says whether all cells of a column begin with a figure.
func (t table) isFigures(column int) bool {
	for _, row := range t[1:] {
		if c := row[column]; c != "" && !strings.ContainsRune("0123456789-−", []rune(c)[0]) {
			return false
		}
	}
	return true
}
