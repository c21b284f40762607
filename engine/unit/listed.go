package unit

import "math"

// Listed is a length as lists and labels have it. In US units ten feet and more
// are rounded to the inch, which is closer than anybody cuts from a list, and what
// is within 1/8 in of a whole foot is that foot: a hose of 7.62 m is sold as 25 ft.
// Other lengths are as in Text.
func (s System) Listed(x Length) string {
	if s == US {
		inches := float64(x) / inch
		feet := math.Round(inches / 12)
		switch {
		case feet != 0 && math.Abs(inches-12*feet) < 1.0/8+1e-6:
			inches = 12 * feet
		case math.Abs(inches) >= 120:
			inches = math.Round(inches)
		}
		x = Length(inches * inch)
	}
	return s.Text(KindLength, float64(x), Env{})
}
