package intake

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// readDay reads a date as lists write it, as 2026-03-14. One such as 03/04/2026 can be read
// in two ways; both are then given.
func readDay(text string) (day string, ways []string, ok bool) {
	text = strings.TrimSpace(text)
	if d, err := time.Parse(time.DateOnly, text); err == nil {
		return d.Format(time.DateOnly), nil, true
	}
	for _, form := range []string{"2006/1/2", "2006.1.2", "2006-1-2", "2 Jan 2006", "2 January 2006", "Jan 2, 2006", "January 2, 2006", "2-Jan-2006", "20060102"} {
		if d, err := time.Parse(form, text); err == nil {
			return d.Format(time.DateOnly), nil, true
		}
	}
	groups := strings.FieldsFunc(text, func(r rune) bool { return r == '.' || r == '/' || r == '-' || r == ' ' })
	if len(groups) != 3 {
		return "", nil, false
	}
	var n [3]int
	for i, g := range groups {
		x, err := strconv.Atoi(g)
		if err != nil || x < 1 {
			return "", nil, false
		}
		n[i] = x
	}
	if n[2] < 100 {
		n[2] += 2000
	}
	first, second := dayOf(n[2], n[1], n[0]), dayOf(n[2], n[0], n[1])
	switch {
	case first == "" && second == "":
		return "", nil, false
	case second == "" || first == second || strings.Contains(text, ".") && first != "": // with points the day goes first
		return first, nil, true
	case first == "":
		return second, nil, true
	}
	return "", []string{first, second}, true
}

// dayOf is a day of the calendar, "" where there is none.
func dayOf(year, month, day int) string {
	d, err := time.Parse(time.DateOnly, fmt.Sprintf("%04d-%02d-%02d", year, month, day))
	if err != nil {
		return ""
	}
	return d.Format(time.DateOnly)
}
