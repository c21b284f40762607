package unit

import (
	"fmt"
	"math"
)

// sixteenths of an inch are what a tape is read to.
const sixteenths = 16

// Marked is a length as it is marked with a tape and cut: whole millimetres, in US units
// feet, inches and sixteenths.
func (s System) Marked(x Length) string {
	if s != US {
		return fmt.Sprintf("%.0f mm", float64(x)*1e3)
	}
	sign := ""
	if x < 0 {
		sign, x = "-", -x
	}
	n := int(math.Round(float64(x) / inch * sixteenths))
	feet, n := n/(12*sixteenths), n%(12*sixteenths)
	if feet == 1 && sign == "" {
		feet, n = 0, n+12*sixteenths // under two feet a tape is read in inches
	}
	inches, part := n/sixteenths, n%sixteenths
	text := ""
	if feet > 0 {
		text = fmt.Sprintf("%d ft ", feet)
	}
	switch of := sixteenths; {
	case part == 0:
		text += fmt.Sprintf("%d in", inches)
	default:
		for part%2 == 0 {
			part, of = part/2, of/2
		}
		if inches > 0 {
			text += fmt.Sprintf("%d ", inches)
		}
		text += fmt.Sprintf("%d/%d in", part, of)
	}
	return sign + text
}
