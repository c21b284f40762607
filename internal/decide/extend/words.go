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

// besideNotes is what a second compressor asks for that no drawing shows.
func besideNotes() []string {
	return []string{
		"The relief valve of the receiver has to pass what both compressors deliver together: its plate says how much it passes.",
		"The second has a check valve and a valve of its own that can be locked shut and then lets down its side; the first wants the same, so that one is mended while the other works.",
		"The second is set lower than the first, so that both do not start at once: what is told here reckons with its cut-in. Where the receiver and the first bear it, raise the first instead.",
		"The second has its own supply of power, by a licensed electrician, and air to cool both: see what its maker asks for.",
	}
}
