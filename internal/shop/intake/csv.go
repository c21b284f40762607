package intake

import (
	"fmt"
	"strings"
)

// parted are the marks that columns are parted by, and how they are called.
var parted = []struct {
	mark byte
	word string
}{{';', ";"}, {'\t', "tabs"}, {',', ","}}

// readText reads a list in CSV: its encoding and the mark between its columns are seen
// from the text.
func readText(data []byte) *File {
	text, encoding := decode(data)
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	first := 1
	mark, word := byte(0), ""
	if head, rest, ok := strings.Cut(text, "\n"); ok && len(head) == 5 && strings.HasPrefix(strings.ToLower(head), "sep=") {
		mark, word, text, first = head[4], head[4:], rest, 2
	} else {
		mark, word = dialect(text)
	}
	s := Sheet{Name: "list"}
	scan := scanner{text: text, mark: mark, row: first}
	for !scan.done() {
		row, broken := scan.record()
		if broken {
			s.Problems = append(s.Problems, Problem{Row: row.Number, Code: "open-quote", Read: `a " that nothing closes`, Want: `a cell in "…", or the mark twice within one`})
		}
		if row.filled() == 0 {
			continue
		}
		if len(s.Rows) == mostRows {
			s.Problems = append(s.Problems, tooLong(row.Number))
			break
		}
		if len(row.Cells) > mostColumns {
			s.Problems = append(s.Problems, Problem{Row: row.Number, Code: "too-wide", Read: fmt.Sprintf("%d columns", len(row.Cells)), Want: fmt.Sprintf("at most %d; those after it are left out", mostColumns)})
			row.Cells = row.Cells[:mostColumns]
		}
		s.Rows = append(s.Rows, row)
	}
	f := &File{Form: fmt.Sprintf("CSV, %s, columns parted by %s", encoding, word), Sheets: []Sheet{s}}
	if len(s.Rows) == 0 {
		f.Problems = append(f.Problems, Problem{Code: "empty", Read: "no row with anything in it", Want: "a row for each article"})
	}
	return f
}

func tooLong(row int) Problem {
	return Problem{Row: row, Code: "too-long", Read: fmt.Sprintf("more than %d rows", mostRows), Want: fmt.Sprintf("at most %d; those from this one on are left out", mostRows)}
}

// dialect is the mark that parts the first rows into the same number of columns most often.
func dialect(text string) (mark byte, word string) {
	const looked = 60
	mark, word = ',', ","
	best, wide := 0, 0
	for _, p := range parted {
		counts := map[int]int{}
		scan := scanner{text: text, mark: p.mark}
		for n := 0; n < looked && !scan.done(); n++ {
			if row, _ := scan.record(); len(row.Cells) > 1 {
				counts[len(row.Cells)]++
			}
		}
		for columns, n := range counts {
			if n > best || n == best && columns > wide {
				best, wide, mark, word = n, columns, p.mark, p.word
			}
		}
	}
	return mark, word
}

// scanner reads records one by one. Inch marks are common in these lists: a " begins a
// cell in quotes only as its first character, and ends it only before the next column.
type scanner struct {
	text string
	mark byte
	at   int
	row  int
}

func (s *scanner) done() bool { return s.at >= len(s.text) }

// record reads one row; broken says that a quote was opened and never closed.
func (s *scanner) record() (row Row, broken bool) {
	row.Number = s.row
	s.row++
	for {
		text, ok := s.quoted()
		if !ok {
			broken = broken || s.at < len(s.text) && s.text[s.at] == '"'
			text = s.plain()
		}
		row.Cells = append(row.Cells, Cell{Text: tidy(text)})
		if s.done() {
			return row, broken
		}
		end := s.text[s.at]
		s.at++
		if end == '\n' {
			return row, broken
		}
		if s.done() { // the last cell of the text is empty
			row.Cells = append(row.Cells, Cell{})
			return row, broken
		}
	}
}

// plain reads up to the next mark or the end of the line.
func (s *scanner) plain() string {
	from := s.at
	for s.at < len(s.text) && s.text[s.at] != s.mark && s.text[s.at] != '\n' {
		s.at++
	}
	return s.text[from:s.at]
}

// quoted reads a cell in quotes; ok is false, and nothing is read, where there is none.
func (s *scanner) quoted() (string, bool) {
	if s.done() || s.text[s.at] != '"' {
		return "", false
	}
	var out strings.Builder
	for i := s.at + 1; i < len(s.text) && out.Len() <= mostCell; i++ {
		c := s.text[i]
		if c != '"' {
			out.WriteByte(c)
			continue
		}
		if i+1 < len(s.text) && s.text[i+1] == '"' {
			out.WriteByte('"')
			i++
			continue
		}
		if i+1 == len(s.text) || s.text[i+1] == s.mark || s.text[i+1] == '\n' {
			s.at = i + 1
			return out.String(), true
		}
		out.WriteByte('"') // an inch mark within the cell
	}
	return "", false
}

// tidy is a cell's text on one line, without what nobody sees.
func tidy(text string) string {
	text = strings.Join(strings.FieldsFunc(text, func(r rune) bool {
		return r <= ' ' || r == '\u00a0' || r == '\u202f' || r == '\u2007' || r == '\u200b' || r == '\ufeff'
	}), " ")
	if len(text) > mostCell {
		text = strings.ToValidUTF8(text[:mostCell], "")
	}
	return text
}
