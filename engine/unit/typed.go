package unit

import (
	"strings"
	"unicode"
)

// usWords are the words of US customary units of pressure, length, flow and
// temperature, without a reference's figures; never written to.
var usWords = map[string]bool{
	"in": true, "inch": true, "inches": true, `"`: true, "ft": true, "foot": true, "feet": true, "'": true, "yd": true, "mil": true, "mils": true, "thou": true,
	"psi": true, "psig": true, "psia": true, "psid": true, "ksi": true, "inhg": true, "inwc": true, "inh": true, "lbf": true, "lb": true, "lbs": true,
	"cfm": true, "cfh": true, "cfs": true, "scfm": true, "scfh": true, "acfm": true, "icfm": true, "cu": true,
	"f": true, "degf": true, "fahrenheit": true, "r": true, "degr": true, "gal": true, "gallon": true, "gallons": true, "hp": true,
}

// TypedUS says whether a quantity was typed in US customary units: "100 psig",
// 12'6", "20scfm60", "95F".
func TypedUS(text string) bool {
	apart := func(r rune) bool { return !unicode.IsLetter(r) && r != '\'' && r != '"' }
	for _, word := range strings.FieldsFunc(strings.ToLower(clean(text)), apart) {
		if usWords[word] {
			return true
		}
	}
	return false
}
