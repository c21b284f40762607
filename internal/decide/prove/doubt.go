package prove

import (
	"fmt"

	"dropleg/engine/unit"
)

// Doubt asks back where a figure read off a gauge can hardly be meant as it was taken, and
// would fit what is expected in another unit: "read 8.2: bar or psi?". "" is no doubt.
// A pressure counts as fitting within a factor of two.
func Doubt(number float64, taken, expected unit.GaugePressure) string {
	fits := func(p float64) bool { return p > float64(expected)/2 && p < float64(expected)*2 }
	if expected <= 0 || fits(float64(taken)) {
		return ""
	}
	for _, u := range []struct {
		word string
		pa   float64
	}{{"bar", 1e5}, {"psi", 6894.757}, {"kPa", 1e3}, {"MPa", 1e6}, {"kgf/cm²", 98066.5}} {
		if fits(number * u.pa) {
			return fmt.Sprintf("read %g: %s or %s?", number, u.word, takenAs(number, taken))
		}
	}
	return ""
}

// takenAs is the unit that a number was taken in.
func takenAs(number float64, taken unit.GaugePressure) string {
	for _, u := range []struct {
		word string
		pa   float64
	}{{"Pa", 1}, {"kPa", 1e3}, {"psi", 6894.757}, {"bar", 1e5}, {"MPa", 1e6}} {
		if r := float64(taken) / (number * u.pa); r > 0.999 && r < 1.001 {
			return u.word
		}
	}
	return "as typed"
}
