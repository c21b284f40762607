package vessel

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
)

// positive refuses what is not above zero and finite.
func positive(what string, x float64, in string) error {
	if x > 0 && !math.IsInf(x, 1) {
		return nil
	}
	return fmt.Errorf("%s %.6g %s: wanted above zero", what, x, in)
}

// notNegative refuses what is beneath zero, infinite or no number.
func notNegative(what string, x float64, in string) error {
	if x >= 0 && !math.IsInf(x, 1) {
		return nil
	}
	return fmt.Errorf("%s %.6g %s: wanted zero or more", what, x, in)
}

// ordered refuses pressures beneath vacuum or in the wrong order.
func ordered(high, low unit.AbsPressure) error {
	if low >= 0 && high >= low && !math.IsInf(float64(high), 1) {
		return nil
	}
	return fmt.Errorf("pressures %.6g and %.6g Pa absolute: wanted the higher first and none beneath vacuum",
		float64(high), float64(low))
}
