package cli

import "strings"

// table is rows of cells; the first row is the head.
type table [][]string

// write sets a table in columns: the first to the left, figures to the right.
// Columns that are empty throughout are left out; where the page is too narrow, words
// go on in further lines.
func (t table) write(p *paper) {
	wide, figures := t.columns(p.width)
	for r, row := range t {
		cells, lines := make([][]string, len(row)), 1
		for i, cell := range row {
			cells[i] = []string{cell}
			if !figures[i] && wide[i] > 0 {
				cells[i] = wrap(cell, wide[i])
			}
			lines = max(lines, len(cells[i]))
		}
		for n := range lines {
			text := line(cells, n, wide, figures)
			if r == 0 {
				text = p.ink(dim, text)
			}
			p.line(text)
		}
	}
}

// line is the n-th line of a row.
func line(cells [][]string, n int, wide []int, figures []bool) string {
	var text strings.Builder
	for i, cell := range cells {
		if wide[i] == 0 {
			continue
		}
		if text.Len() > 0 {
			text.WriteString(gap)
		}
		word := ""
		if n < len(cell) {
			word = cell[n]
		}
		if figures[i] {
			text.WriteString(left(word, wide[i]))
		} else {
			text.WriteString(pad(word, wide[i]))
		}
	}
	return text.String()
}

// gap stands between columns.
const gap = "  "

// columns gives the width of each column, 0 for one that is left out, and which
// are figures. Columns of words give way, the widest first, down to their longest
// word, until the table has room.
func (t table) columns(room int) (wide []int, figures []bool) {
	wide, figures = make([]int, len(t[0])), make([]bool, len(t[0]))
	least := make([]int, len(wide))
	all := -len(gap)
	for i := range wide {
		used := false
		for r, row := range t {
			wide[i] = max(wide[i], width(row[i]))
			used = used || r > 0 && row[i] != ""
			for word := range strings.FieldsSeq(row[i]) {
				least[i] = max(least[i], width(word))
			}
		}
		if !used {
			wide[i] = 0
			continue
		}
		all += wide[i] + len(gap)
		figures[i] = t.isFigures(i)
	}
	for ; all > room; all-- {
		widest := -1
		for i := range wide {
			if !figures[i] && wide[i] > least[i] && (widest < 0 || wide[i] > wide[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			break
		}
		wide[widest]--
	}
	return wide, figures
}

// longestFigure is how many letters a figure with its unit and range has at most; what is
// longer is a sentence that begins with one.
const longestFigure = 24

// isFigures says whether all cells of a column are figures.
func (t table) isFigures(column int) bool {
	for _, row := range t[1:] {
		if c := row[column]; c != "" && (!strings.ContainsRune("0123456789-−", []rune(c)[0]) || width(c) > longestFigure) {
			return false
		}
	}
	return true
}
