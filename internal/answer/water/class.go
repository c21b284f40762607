package water

import "dropleg/engine/unit"

// Class is the water class of ISO 8573-1:2010 table 2: by pressure dew point up to +10 °C,
// beyond by liquid water in g per m³. Moister air without liquid counts as class 7.
func Class(dew *unit.Temperature, liquid float64) string {
	if liquid <= 0 {
		if dew == nil {
			return "1"
		}
		for i, most := range [...]float64{-70, -40, -20, 3, 7, 10} {
			if dew.Celsius() <= most+slack {
				return string(rune('1' + i))
			}
		}
	}
	for i, most := range [...]float64{0.5, 5, 10} {
		if liquid <= most {
			return string(rune('7' + i))
		}
	}
	return "X"
}

// slack is what inverting saturation may be off, K: a dryer of -20 °C is in the class of -20 °C.
const slack = 1e-3

// meets says whether a class is at least as dry as another is.
func meets(got, want string) bool {
	if want == "X" || want == "" {
		return true
	}
	return got != "X" && got <= want
}
