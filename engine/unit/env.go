package unit

import (
	"fmt"
	"strings"
)

// Env is what reading and printing must know of the place.
type Env struct {
	// Atmosphere parts gauge from absolute; zero is the standard 101325 Pa.
	Atmosphere AbsPressure
}

// Atm is the atmosphere of the place.
func (e Env) Atm() float64 {
	if e.Atmosphere > 0 {
		return float64(e.Atmosphere)
	}
	return standard
}

// ParseError says why a text is no quantity of the kind wanted.
type ParseError struct {
	Read    string // the text as it stood
	Want    string // what is accepted, with an example
	Nearest string // nearest valid unit or word; "" if none is near

	of *kindRow // what it should have been; nil where that is no quantity
}

// In is the same, with its example in the units of a system: who works in metres is not told
// of feet.
func (e *ParseError) In(s System) *ParseError {
	if e.of == nil {
		return e
	}
	out := *e
	out.Want = e.of.wanted(e.of.kind.ExampleIn(s))
	return &out
}

// Error puts the three parts into one sentence.
func (e *ParseError) Error() string {
	s := fmt.Sprintf("read %q, want %s", e.Read, e.Want)
	if e.Nearest != "" {
		s += fmt.Sprintf("; nearest is %q", e.Nearest)
	}
	return s
}

// Nearest is the word of words at the least edit distance from read; "" when
// even the best one differs in more than a third of its letters and in more
// than one letter; then the shortest word that read is a part of. Of equals the first in
// words wins. Letter case counts half.
func Nearest(read string, words []string) string {
	best, least := "", 1<<30
	for _, w := range words {
		d := 2*distance(fold(read), fold(w)) + boolInt(read != w && fold(read) == fold(w))
		limit := max(2, 2*((len(w)+2)/3))
		if d <= limit && d < least {
			best, least = w, d
		}
	}
	if best == "" {
		return holding(read, words)
	}
	return best
}

// leastPart is how many letters of a word tell which one is meant.
const leastPart = 4

// holding is the shortest of the words that what was read is a part of: "sander" of
// "da-sander-6"; "" where none is, or it is too short to tell.
func holding(read string, words []string) string {
	best, part := "", fold(read)
	for _, w := range words {
		if len(part) >= leastPart && strings.Contains(fold(w), part) && (best == "" || len(w) < len(best)) {
			best = w
		}
	}
	return best
}
