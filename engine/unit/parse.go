package unit

import (
	"fmt"
	"math"
	"strings"
	"sync"
)

// Parse reads text as a quantity of kind k and returns it in SI.
//
// Pressures: psi, psig, bar, barg, kPa, MPa count from the atmosphere of env;
// psia, bara, kPaa, MPaa, plain Pa and the units of a barometer (mbar, hPa,
// inHg, mmHg, atm) count from vacuum. KindGauge takes both and returns gauge,
// KindPressure takes both and returns absolute; KindBarometer reads every unit
// as absolute; KindPressureDiff and KindStress know no atmosphere.
// A number without a unit is SI, and absolute for both pressure kinds.
// Figures of two units are read (12 ft 6 in, 12'6", 12 ft 6, 1h30, 2 lb 4 oz);
// for the marks of thousands and decimals see the number rules: 1,000 is a
// thousand, 12,5 is twelve and a half.
// A second figure in brackets that says the same pressure is allowed:
// "6.3 bar (91 psi)".
//
// KindFlow yields m³/s and takes only flows of unmarked or ISO 1217 free air;
// ParseFlow reads every other reference and masses. Everything that is no
// quantity of the kind, or outside its world (below vacuum, below 0 K, not
// finite), is a *ParseError.
func Parse(text string, k Kind, env Env) (float64, error) {
	x, err := read(text, k, env)
	if err != nil {
		return 0, err
	}
	row := k.row()
	if math.IsInf(x, 0) || math.IsNaN(x) || (row.least != nil && x < *row.least) {
		return 0, fail(text, k, "")
	}
	return x + 0, nil
}

func read(text string, k Kind, env Env) (float64, error) {
	switch k {
	case KindWord:
		return 0, &ParseError{Read: text, Want: "a word, which is no number"}
	case KindYesNo:
		return yesNo(text)
	case KindFlow:
		f, err := ParseFlow(text)
		if err == nil && (f.Mass || (f.Reference != RefJob && f.Reference != RefISO1217)) {
			err = fail(text, k, "")
		}
		return f.Value, err
	}
	s := clean(text)
	if open := strings.LastIndex(s, "("); open > 0 && strings.HasSuffix(s, ")") && startsNumber(s[open+1:]) {
		return twice(text, s[:open], s[open+1:len(s)-1], k, env)
	}
	return figures(text, s, k, env)
}

// twice reads a pressure stated in two units and refuses it where they differ
// by more than the rounding of two-figure numbers.
func twice(text, first, second string, k Kind, env Env) (float64, error) {
	if k != KindPressure && k != KindGauge && k != KindPressureDiff {
		return 0, fail(text, k, "")
	}
	a, err := figures(text, strings.TrimSpace(first), k, env)
	if err != nil {
		return 0, err
	}
	b, err := figures(text, strings.TrimSpace(second), k, env)
	if err != nil {
		return 0, err
	}
	// Each figure may be rounded to two places, which is up to 5 % of a gauge
	// value; 200 Pa covers the last place of figures near zero.
	shown := math.Abs(a)
	if k == KindPressure {
		shown = math.Abs(a - env.Atm())
	}
	if math.Abs(a-b) > 0.105*shown+200 {
		return 0, &ParseError{Read: text, Want: "two figures that say the same pressure"}
	}
	return a, nil
}

// figures reads one figure, or several chained by their units.
func figures(text, s string, k Kind, env Env) (float64, error) {
	negative := false
	if s != "" && (s[0] == '-' || s[0] == '+') {
		negative = s[0] == '-'
		s = strings.TrimSpace(s[1:])
	}
	x, rest, ok := number(s)
	if !ok {
		return 0, fail(text, k, "")
	}
	if chain := k.row().chain; chain != nil && hasDigit(rest) {
		sum, err := chained(text, x, rest, k)
		return signed(sum, negative), err
	}
	if strings.TrimSpace(rest) == "" {
		if k == KindInteger && x != math.Trunc(x) {
			return 0, fail(text, k, "")
		}
		x = signed(x, negative)
		if k == KindGauge {
			x -= env.Atm()
		}
		return x, nil
	}
	u, ok := k.unit(rest)
	if !ok {
		return 0, fail(text, k, Nearest(strings.TrimSpace(rest), k.Units()))
	}
	return u.si(signed(x, negative), k, env), nil
}

// chained reads what follows the first figure of "12 ft 6 in" or "1h30".
func chained(text string, x float64, rest string, k Kind) (float64, error) {
	for _, names := range k.row().chain {
		sum, at, ok := 0.0, -1, true
		for ok {
			end := firstDigit(rest)
			word := strings.TrimRight(strings.TrimSpace(rest[:end]), "-")
			u, found := k.unit(word)
			if strings.TrimSpace(word) == "" && at >= 0 && at+1 < len(names) {
				u, found = k.unit(names[at+1])
			}
			place := indexOf(names, u.name)
			if !found || place <= at {
				break
			}
			// Twelve inches after feet are a foot more: a slip, not a length.
			if at >= 0 {
				if big, _ := k.unit(names[at]); x*u.scale >= big.scale {
					break
				}
			}
			sum, at = sum+x*u.scale, place
			if end == len(rest) {
				return sum, nil
			}
			x, rest, ok = number(rest[end:])
		}
	}
	return 0, fail(text, k, "")
}

// unit finds a unit of the kind by any of its spellings.
func (k Kind) unit(word string) (unitRow, bool) {
	at, ok := spellings()[spelling{k, fold(word)}]
	if !ok {
		return unitRow{}, false
	}
	return k.row().units[at], true
}

// spelling is a unit's folded spelling within a kind.
type spelling struct {
	kind Kind
	text string
}

// spellings indexes the table once.
var spellings = sync.OnceValue(func() map[spelling]int {
	index := map[spelling]int{}
	for _, row := range kindTable {
		for i, u := range row.units {
			index[spelling{row.kind, fold(u.name)}] = i
			for _, also := range strings.Fields(u.also) {
				index[spelling{row.kind, fold(also)}] = i
			}
		}
	}
	return index
})

// si converts a figure in the unit to SI, in the frame of the kind.
func (u unitRow) si(x float64, k Kind, env Env) float64 {
	x = x*u.scale + u.offset
	switch {
	case k == KindPressure && u.frame == gauge:
		return x + env.Atm()
	case k == KindGauge && u.frame == absolute:
		return x - env.Atm()
	}
	return x
}

// from is the inverse of si.
func (u unitRow) from(si float64, k Kind, env Env) float64 {
	switch {
	case k == KindPressure && u.frame == gauge:
		si -= env.Atm()
	case k == KindGauge && u.frame == absolute:
		si += env.Atm()
	}
	return (si - u.offset) / u.scale
}

func yesNo(text string) (float64, error) {
	switch fold(text) {
	case "yes", "y", "true", "1", "on":
		return 1, nil
	case "no", "n", "false", "0", "off":
		return 0, nil
	}
	return 0, &ParseError{Read: text, Want: "yes or no", Nearest: Nearest(text, []string{"yes", "no"})}
}

// fail words the refusal of text.
func fail(text string, k Kind, nearest string) *ParseError {
	row := k.row()
	return &ParseError{Read: text, Want: row.wanted(row.example), Nearest: nearest, of: &row}
}

// wanted says what a text of the kind looks like.
func (row *kindRow) wanted(example string) string {
	want := fmt.Sprintf("%s, such as %s", row.words, example)
	if row.least != nil {
		want += ", not below zero absolute"
	}
	if len(row.units) > 0 {
		want += "; units: " + strings.Join(row.kind.Units(), ", ")
		if row.si != "" {
			want += "; without a unit: " + row.si
		}
	}
	return want
}

func signed(x float64, negative bool) float64 {
	if negative && x != 0 {
		return -x
	}
	return x
}

func hasDigit(s string) bool { return firstDigit(s) < len(s) }

// firstDigit is the place where the next figure starts, or the length of s.
func firstDigit(s string) int {
	for i := range len(s) {
		if isDigit(s[i]) {
			return i
		}
	}
	return len(s)
}

func startsNumber(s string) bool {
	s = strings.TrimLeft(s, " +-.")
	return s != "" && isDigit(s[0])
}

func indexOf(words []string, word string) int {
	for i, w := range words {
		if w == word {
			return i
		}
	}
	return -1
}
