package reftest

import (
	"math"
	"strconv"
	"strings"

	"dropleg/engine/cite"
)

// Solved is the How of an answer that an independent solver found.
const Solved cite.How = "solved"

// Row is one row of a reference table. Tables differ in their columns: Cell has
// the row as it stands, the other fields what the table's spec makes of it.
type Row struct {
	File string // "air/friction.csv"
	ID   string // the row's own, or the file and the line in it
	// Quantity is what the row is about, Inputs the state it is for.
	Quantity, Inputs          string
	Expected, Unit, Tolerance string
	Source, Note              string
	How                       cite.How
	Want                      float64 // Expected, NaN where that is no number
	In                        map[string]float64
	Word                      map[string]string // inputs as text
	Cell                      map[string]string
}

// Has says whether every key is a number among the inputs.
func (r Row) Has(keys ...string) bool {
	for _, k := range keys {
		if _, ok := r.In[k]; !ok {
			return false
		}
	}
	return true
}

// Num is a column as a number, NaN where it is none.
func (r Row) Num(column string) float64 {
	x, ok := number(r.Cell[column])
	if !ok {
		return math.NaN()
	}
	return x
}

// number reads a decimal number or a fraction such as 1/8 or 1-1/4.
func number(text string) (float64, bool) {
	if x, err := strconv.ParseFloat(text, 64); err == nil {
		return x, !math.IsNaN(x) && !math.IsInf(x, 0)
	}
	whole, fraction, mixed := strings.Cut(text, "-")
	if !mixed {
		whole, fraction = "0", text
	}
	over, under, divided := strings.Cut(fraction, "/")
	if !divided {
		return 0, false
	}
	var parts [3]float64
	for i, part := range []string{whole, over, under} {
		x, err := strconv.ParseUint(part, 10, 16)
		if err != nil {
			return 0, false
		}
		parts[i] = float64(x)
	}
	if parts[2] == 0 {
		return 0, false
	}
	return parts[0] + parts[1]/parts[2], true
}

// allowed is the row's tolerance as an amount of its unit. "exact" means the
// figure itself; a zero in a table that states tolerances in the unit means the
// rounding of the print.
func (r Row) allowed() (float64, bool) {
	first, _, _ := strings.Cut(strings.TrimPrefix(r.Tolerance, "abs:"), " ")
	first = strings.TrimRight(first, ";")
	switch {
	case r.Tolerance == "exact":
		return 1e-12 * math.Abs(r.Want), true
	case strings.HasPrefix(first, "rel:"):
		x, ok := number(first[len("rel:"):])
		// A figure is not known better than half a unit of its last digit.
		return math.Max(x*math.Abs(r.Want), lastDigit(r.Expected)/2), ok
	case strings.HasSuffix(r.Tolerance, " percent"):
		x, ok := number(first)
		return x / 100 * math.Abs(r.Want), ok
	case r.Tolerance == "0":
		return lastDigit(r.Expected) / 2, true
	}
	x, ok := number(first)
	return x, ok
}

// lastDigit is one unit of the last digit of a number as printed.
func lastDigit(text string) float64 {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(text), "e")
	power, _ := strconv.Atoi(exponent)
	if _, decimals, ok := strings.Cut(mantissa, "."); ok {
		power -= len(decimals)
	}
	return math.Pow10(power)
}
