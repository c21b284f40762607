package intake

import (
	"bytes"
	"fmt"
	"strings"
)

// Bounds of a list. The largest lists of a trade counter have some ten thousand rows.
const (
	mostBytes   = 16 << 20 // of the file as it comes
	mostRows    = 20_000
	mostColumns = 100
	mostCell    = 32_767 // characters, as a spreadsheet has it
)

// Problem is one thing that is wrong, or unsure, in a list.
type Problem struct {
	Row     int      `json:"row,omitempty"`    // as a spreadsheet counts, from 1; 0 of the whole list
	Column  string   `json:"column,omitempty"` // its letter
	Code    string   `json:"code"`
	Read    string   `json:"read"`
	Want    string   `json:"want"`
	Nearest []string `json:"nearest,omitempty"` // valid forms, the nearest first
}

// File is a list as it was read.
type File struct {
	Form     string // "CSV, UTF-8, columns parted by ;" or "XLSX"
	Sheets   []Sheet
	Problems []Problem
}

// Sheet is one table of a list.
type Sheet struct {
	Name string
	Rows []Row
	// Problems are those of the sheet as it was read: merged cells, too many rows.
	Problems []Problem
}

// Row is a row with anything in it.
type Row struct {
	Number int // as a spreadsheet counts, from 1
	Cells  []Cell
}

// Cell is what stands in one place.
type Cell struct {
	Text   string
	Number *float64 // where the list itself has a number, not a text
	Date   bool     // Text is then a date, 2026-03-14
	Merged string   // the range that it is covered by, "A3:A7"; Text is then of that range
	Fault  string   // why nothing can be read here
}

// cell is the cell of a column; an empty one where the row is shorter.
func (r *Row) cell(i int) Cell {
	if i < 0 || i >= len(r.Cells) {
		return Cell{}
	}
	return r.Cells[i]
}

// filled counts the cells with anything of their own in them.
func (r *Row) filled() int {
	n := 0
	for i := range r.Cells {
		if c := &r.Cells[i]; c.Merged == "" && (c.Text != "" || c.Fault != "") {
			n++
		}
	}
	return n
}

// Read reads the tables of a list. A list that is none has no sheets and problems that
// say why.
func Read(data []byte) *File {
	switch {
	case len(data) > mostBytes:
		return unread(fmt.Sprintf("%d MB", len(data)>>20), fmt.Sprintf("a list of at most %d MB", mostBytes>>20))
	case bytes.HasPrefix(data, []byte("PK\x03\x04")), bytes.HasPrefix(data, []byte("PK\x05\x06")):
		return readWorkbook(data)
	case bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")):
		return unread("a workbook of the old kind, or one locked by a password", "XLSX without a password, or CSV", "save it as XLSX", "save it as CSV")
	}
	if what := foreign(data); what != "" {
		return unread(what, "a list in CSV or XLSX")
	}
	return readText(data)
}

// foreign names what a file is that is no list, by its first bytes.
func foreign(data []byte) string {
	for _, kind := range []struct{ mark, words string }{
		{"%PDF", "a PDF document"},
		{"\x89PNG", "a picture"},
		{"\xff\xd8\xff", "a picture"},
		{"\x1f\x8b", "a gzip archive"},
		{"SQLite format 3", "a database"},
		{"{", "a text in JSON"},
		{"<", "a text with tags"},
	} {
		if bytes.HasPrefix(bytes.TrimLeft(data, " \t\r\n"), []byte(kind.mark)) {
			return kind.words
		}
	}
	return ""
}

func unread(read, want string, nearest ...string) *File {
	return &File{Problems: []Problem{{Code: "no-list", Read: read, Want: want, Nearest: nearest}}}
}

// letters is the name of a column, from 0: A, B, …, AA.
func letters(i int) string {
	name := ""
	for i++; i > 0; i = (i - 1) / 26 {
		name = string(rune('A'+(i-1)%26)) + name
	}
	return name
}

// column reads letters back; ok is false for what is no column.
func column(name string) (int, bool) {
	n := 0
	for _, r := range strings.ToUpper(name) {
		if r < 'A' || r > 'Z' || n > mostColumns {
			return 0, false
		}
		n = n*26 + int(r-'A') + 1
	}
	return n - 1, n > 0
}
