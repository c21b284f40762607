package intake

import (
	"encoding/xml"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// sheetReader reads the cells of one sheet.
type sheetReader struct {
	book   *workbook
	sheet  Sheet
	row    *Row
	number int // of the last row
	merged []span
	wide   bool // a row had columns that are left out
}

// span is a range of merged cells, from 0.
type span struct {
	name                   string
	left, right, top, base int
}

// Bounds of merged cells: how many ranges, and how many cells they may cover.
const (
	mostMerged  = 5000
	mostCovered = 200_000
)

// sheet reads one sheet.
func (w *workbook) sheet(part string) (*Sheet, error) {
	r := &sheetReader{book: w}
	if err := w.walk(part, r.token); err != nil {
		return nil, err
	}
	r.spread()
	r.sheet.Rows = slices.DeleteFunc(r.sheet.Rows, func(row Row) bool { return row.filled() == 0 })
	if r.wide {
		r.sheet.Problems = append(r.sheet.Problems, Problem{Code: "too-wide", Read: fmt.Sprintf("more than %d columns", mostColumns), Want: fmt.Sprintf("at most %d; those after it are left out", mostColumns)})
	}
	return &r.sheet, nil
}

func (r *sheetReader) token(d *xml.Decoder, t xml.Token) error {
	e, ok := t.(xml.StartElement)
	if !ok {
		return nil
	}
	switch e.Name.Local {
	case "row":
		return r.begin(e)
	case "c":
		return r.cell(d, e)
	case "mergeCell":
		r.merge(attr(e, "ref"))
	}
	return nil
}

// begin opens a row; one without a number follows the last.
func (r *sheetReader) begin(e xml.StartElement) error {
	n, err := strconv.Atoi(attr(e, "r"))
	if err != nil || n <= r.number {
		n = r.number + 1
	}
	r.number = n
	if len(r.sheet.Rows) >= mostRows {
		r.sheet.Problems = append(r.sheet.Problems, tooLong(n))
		return errEnough
	}
	r.sheet.Rows = append(r.sheet.Rows, Row{Number: n})
	r.row = &r.sheet.Rows[len(r.sheet.Rows)-1]
	return nil
}

// cell reads one cell into its column.
func (r *sheetReader) cell(d *xml.Decoder, e xml.StartElement) error {
	kind := attr(e, "t")
	style, err := strconv.Atoi(attr(e, "s"))
	if err != nil {
		style = -1
	}
	raw, inline, formula, err := cellIn(d)
	if err != nil || r.row == nil {
		return err
	}
	at := len(r.row.Cells)
	if i, ok := column(strings.TrimRight(attr(e, "r"), "0123456789")); ok {
		at = i
	}
	if at >= mostColumns {
		r.wide = true
		return nil
	}
	for len(r.row.Cells) <= at {
		r.row.Cells = append(r.row.Cells, Cell{})
	}
	r.row.Cells[at] = r.book.value(kind, style, raw, inline, formula)
	return nil
}

// cellIn reads to the end of a cell: its value, its own text, whether it is a formula.
func cellIn(d *xml.Decoder) (raw, inline string, formula bool, err error) {
	var value strings.Builder
	depth, in := 1, false
	for depth > 0 {
		t, err := d.Token()
		if err != nil {
			return "", "", false, err
		}
		switch t := t.(type) {
		case xml.StartElement:
			if t.Name.Local == "is" {
				if inline, err = textIn(d); err != nil {
					return "", "", false, err
				}
				continue
			}
			depth++
			in = in || t.Name.Local == "v"
			formula = formula || t.Name.Local == "f"
		case xml.EndElement:
			depth--
			in = in && t.Name.Local != "v"
		case xml.CharData:
			if in && value.Len() <= mostCell {
				value.Write(t)
			}
		}
	}
	return value.String(), inline, formula, nil
}

// value is what a cell says, by its kind (ECMA-376, 18.18.11).
func (w *workbook) value(kind string, style int, raw, inline string, formula bool) Cell {
	switch kind {
	case "s":
		i, err := strconv.Atoi(strings.TrimSpace(raw))
		if err != nil || i < 0 || i >= len(w.strings) {
			return Cell{Fault: "a text that the workbook does not have"}
		}
		return Cell{Text: w.strings[i]}
	case "inlineStr":
		return Cell{Text: inline}
	case "str":
		return Cell{Text: tidy(raw)}
	case "e":
		return Cell{Text: tidy(raw), Fault: "an error of the sheet, " + tidy(raw)}
	case "b":
		return Cell{Text: map[bool]string{true: "yes", false: "no"}[truth(strings.TrimSpace(raw))]}
	case "d":
		day, _, _ := strings.Cut(tidy(raw), "T")
		return Cell{Text: day, Date: true}
	}
	raw = strings.TrimSpace(raw)
	if raw == "" {
		if formula {
			return Cell{Fault: "a formula without its result"}
		}
		return Cell{}
	}
	x, err := strconv.ParseFloat(raw, 64)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		return Cell{Text: tidy(raw), Fault: "a number that is none, " + tidy(raw)}
	}
	if style >= 0 && style < len(w.dates) && w.dates[style] {
		if day, ok := w.from.date(x); ok {
			return Cell{Text: day, Date: true}
		}
	}
	// Fifteen digits are what a spreadsheet keeps: 0.1+0.2 is read as the person sees it.
	return Cell{Text: strconv.FormatFloat(rounded(x), 'f', -1, 64), Number: new(rounded(x))}
}

func rounded(x float64) float64 {
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64)
	if err != nil {
		return x
	}
	return y
}

// merge notes a range of merged cells.
func (r *sheetReader) merge(ref string) {
	from, to, ok := strings.Cut(ref, ":")
	left, top, ok1 := place(from)
	right, base, ok2 := place(to)
	if !ok || !ok1 || !ok2 || left > right || top > base || len(r.merged) == mostMerged {
		return
	}
	r.merged = append(r.merged, span{ref, left, min(right, mostColumns-1), top, base})
}

// place reads "B7" as column 1 and row 7.
func place(ref string) (col, row int, ok bool) {
	ref = strings.ReplaceAll(ref, "$", "")
	name := strings.TrimRight(ref, "0123456789")
	col, ok = column(name)
	row, err := strconv.Atoi(ref[len(name):])
	return col, row, ok && err == nil
}

// spread marks the cells that a merged one covers; they get its text to be shown, and
// no row is taken by it.
func (r *sheetReader) spread() {
	left := mostCovered
	for _, m := range r.merged {
		text := ""
		at, _ := slices.BinarySearchFunc(r.sheet.Rows, m.top, func(row Row, n int) int { return row.Number - n })
		for ; at < len(r.sheet.Rows) && r.sheet.Rows[at].Number <= m.base; at++ {
			row := &r.sheet.Rows[at]
			if row.Number == m.top {
				text = row.cell(m.left).Text
			}
			if left -= m.right - m.left + 1; left < 0 {
				return
			}
			for col := m.left; col <= m.right; col++ {
				if col == m.left && row.Number == m.top || row.cell(col).Text != "" {
					continue
				}
				for len(row.Cells) <= col {
					row.Cells = append(row.Cells, Cell{})
				}
				row.Cells[col].Merged = m.name
				row.Cells[col].Text = text
			}
		}
	}
}
