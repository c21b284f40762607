package air

import (
	"fmt"
	"math"
)

// between refuses x outside [low, high]; NaN is outside of every range.
func between(what string, x, low, high float64, in string) error {
	if !(x >= low && x <= high) {
		return fmt.Errorf("%s %s %s: wanted from %.6g to %.6g %s", what, shown(x), in, low, high, in)
	}
	return nil
}

// above refuses x unless low < x ≤ high. An infinite high still refuses +Inf.
func above(what string, x, low, high float64, in string) error {
	if x > low && x <= high && !math.IsInf(x, 0) {
		return nil
	}
	if math.IsInf(high, 1) {
		return fmt.Errorf("%s %s %s: wanted above %.6g %s", what, shown(x), in, low, in)
	}
	return fmt.Errorf("%s %s %s: wanted above %.6g up to %.6g %s", what, shown(x), in, low, high, in)
}

// shown prints a number that may be no number.
func shown(x float64) string {
	if math.IsNaN(x) {
		return "(not a number)"
	}
	return fmt.Sprintf("%.6g", x)
}
