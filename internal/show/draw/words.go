package draw

import (
	"math"
	"strconv"
)

// plural puts a count before its word.
func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// trim prints a round number.
func trim(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// hundredths prints a paper length to a hundredth of a millimetre.
func hundredths(v float64) string {
	r := math.Round(v*100) / 100
	if r == 0 {
		return "0" // not -0
	}
	return trim(r)
}
