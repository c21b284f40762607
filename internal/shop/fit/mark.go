package fit

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"dropleg/internal/shop/job"
)

// Letters marks outlets A, B, …, Z, AA, AB, …, counted from 0.
func Letters(n int) string {
	out := ""
	for n++; n > 0; n = (n - 1) / 26 {
		out = string(rune('A'+(n-1)%26)) + out
	}
	return out
}

var number = regexp.MustCompile(`^\d+$`)

// NextMark is the first mark that none of the outlets has: a letter, or a number where the
// shop marks by numbers.
func NextMark(outlets []job.Outlet) string {
	numbers := slices.ContainsFunc(outlets, func(o job.Outlet) bool { return number.MatchString(o.Mark) })
	for n := 0; ; n++ {
		mark := Letters(n)
		if numbers {
			mark = strconv.Itoa(n + 1)
		}
		if markedBy(outlets, mark) == nil {
			return mark
		}
	}
}

// markedBy is the outlet that has a mark, whatever its case; nil for none.
func markedBy(outlets []job.Outlet, mark string) *job.Outlet {
	i := slices.IndexFunc(outlets, func(o job.Outlet) bool {
		return mark != "" && strings.EqualFold(strings.TrimSpace(o.Mark), strings.TrimSpace(mark))
	})
	if i < 0 {
		return nil
	}
	return &outlets[i]
}

// mark gives an outlet a mark that a person chose; one that another has already would send
// whoever reads the drawing to the wrong place.
func (s *sketch) mark(o *job.Outlet, mark string) error {
	all := s.ix.Job().Outlets
	if other := markedBy(all, mark); other != nil && other.ID != o.ID && mark != o.Mark {
		return refuse("mark-taken", "mark", called(other.Name, other.ID)+" has the mark "+other.Mark+" already", "the next that is free is "+NextMark(all), other.ID)
	}
	o.Mark = mark
	return nil
}
