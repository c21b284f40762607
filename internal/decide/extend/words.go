package extend

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"dropleg/engine/unit"
)

// words sums a proposal up.
func words(p *Proposal) string {
	var grows []string
	s := ""
	for _, g := range p.Grows {
		stood := slices.DeleteFunc(slices.Clone(g.Changes), func(c Change) bool { return c.From == "" })
		if len(stood) > 0 {
			grows = append(grows, g.What)
		}
		if n := len(g.Changes) - len(stood); n > 0 {
			s += fmt.Sprintf("New beside what stands: %d %s. ", n, g.What)
		}
	}
	if len(grows) > 0 {
		s += "With it must change: " + strings.Join(grows, ", ") + "."
	} else {
		s += "Main, drop legs, compressor, receiver, dryer and filters are enough as they stand."
	}
	if n := len(p.Open); n == 1 {
		s += " One point stays open."
	} else if n > 1 {
		s += fmt.Sprintf(" %d points stay open.", n)
	}
	return s
}

// band is a compressor's cut-in and cut-out.
func band(low, high unit.GaugePressure, system unit.System) string {
	text := func(p unit.GaugePressure) string { return system.Text(unit.KindGauge, float64(p), unit.Env{}) }
	return text(low) + " to " + text(high)
}

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// besideNotes is what a second compressor asks for that no drawing shows. bands are those that
// the two are set to, "" where the second keeps that of its class.
func besideNotes(first, second string) []string {
	set := "The second has the band of its class: set it lower than the first, which works at " + first + ", so that both do not start at once."
	if second != "" {
		set = "The second is set to " + second + ", lower than the first with " + first +
			", so that both do not start at once: what is told here reckons with its cut-in. Where the receiver and the first bear it, raise the first instead."
	}
	return []string{
		"The relief valve of the receiver has to pass what both compressors deliver together: its plate says how much it passes.",
		"The second has a check valve and a valve of its own that can be locked shut and then lets down its side; the first wants the same, so that one is mended while the other works.",
		set,
		"The second has its own supply of power, by a licensed electrician, and air to cool both: see what its maker asks for.",
	}
}
