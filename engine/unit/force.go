package unit

import (
	"math"
	"strconv"
)

// poundForce in N, by the pound and the standard acceleration of 9.80665 m/s².
const poundForce = 0.45359237 * 9.80665

// Force words a force given in N to two figures: forces by growth, and jerks at hoses, are
// known no closer. In US units it is in pounds-force, else in N and kN. What is not finite
// is a dash.
func (s System) Force(newton float64) string {
	if math.IsNaN(newton) || math.IsInf(newton, 0) {
		return "–"
	}
	if s == US {
		return rounded(newton/poundForce) + " lbf"
	}
	if math.Abs(newton) >= 995 {
		return rounded(newton/1000) + " kN"
	}
	return rounded(newton) + " N"
}

// rounded is a number in two figures.
func rounded(x float64) string {
	if x == 0 {
		return "0"
	}
	one := math.Pow(10, math.Floor(math.Log10(math.Abs(x)))-1)
	x = math.Round(x/one) * one
	decimals := 1 - int(math.Floor(math.Log10(math.Abs(x))+1e-9))
	return strconv.FormatFloat(x, 'f', max(0, decimals), 64)
}
