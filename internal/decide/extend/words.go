package extend

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// words sums a proposal up.
func words(p *Proposal) string {
	var grows []string
	for _, g := range p.Grows {
		if len(g.Changes) > 0 {
			grows = append(grows, g.What)
		}
	}
	s := "Main, drop legs, compressor, receiver, dryer and filters are enough as they stand."
	if len(grows) > 0 {
		s = "With it must change: " + strings.Join(grows, ", ") + "."
	}
	if n := len(p.Open); n == 1 {
		s += " One point stays open."
	} else if n > 1 {
		s += fmt.Sprintf(" %d points stay open.", n)
	}
	return s
}

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
