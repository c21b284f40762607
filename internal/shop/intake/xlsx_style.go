package intake

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
	"time"
)

// epoch is the day that a workbook counts from.
type epoch bool

const from1904 epoch = true

// date is the day of a serial number, "2026-03-14". Day 60 of the count from 1900 is a
// 29 February that never was (ECMA-376, 18.17.4.1), so that days before are one off.
func (e epoch) date(serial float64) (string, bool) {
	day := math.Floor(serial)
	if !(day >= 1 && day < 2_958_466) { // to the end of the year 9999
		return "", false
	}
	first := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	switch {
	case e == from1904:
		first = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	case day < 61:
		first = first.AddDate(0, 0, 1)
	}
	return first.AddDate(0, 0, int(day)).Format(time.DateOnly), true
}

// styles reads which cell styles show a number as a date.
func (w *workbook) styles(part string) error {
	custom := map[int]bool{}
	inCells := false
	return w.walk(part, func(_ *xml.Decoder, t xml.Token) error {
		if e, ok := t.(xml.EndElement); ok && e.Name.Local == "cellXfs" {
			inCells = false
		}
		e, ok := t.(xml.StartElement)
		if !ok {
			return nil
		}
		id, err := strconv.Atoi(attr(e, "numFmtId"))
		if err != nil {
			id = 0
		}
		switch {
		case e.Name.Local == "numFmt":
			custom[id] = showsDate(attr(e, "formatCode"))
		case e.Name.Local == "cellXfs":
			inCells = true
		case e.Name.Local == "xf" && inCells:
			date, own := custom[id]
			w.dates = append(w.dates, own && date || !own && datedNumber(id))
		}
		return nil
	})
}

// datedNumber tells the built-in formats of dates (ECMA-376, 18.8.30): those of all
// languages and those of east Asian ones.
func datedNumber(id int) bool {
	return id >= 14 && id <= 17 || id == 22 || id >= 27 && id <= 31 || id == 36 || id >= 50 && id <= 54 || id == 57 || id == 58
}

// showsDate tells a format that has a day, month or year outside texts and brackets.
func showsDate(code string) bool {
	quoted, bracket := false, false
	for i := 0; i < len(code); i++ {
		switch c := code[i]; {
		case c == '"':
			quoted = !quoted
		case quoted:
		case c == '\\' || c == '_' || c == '*':
			i++
		case c == '[':
			bracket = true
		case c == ']':
			bracket = false
		case bracket:
		case strings.ContainsRune("dDyY", rune(c)):
			return true
		}
	}
	return false
}
