package unit

import (
	"math"
	"strconv"
	"strings"
)

// System is the set of units in which figures are shown to people.
type System string

// The systems. Mixed suits metric shops with American gauges: everything
// metric, pressures in bar with psi in brackets beside them.
const (
	US     System = "us"
	Metric System = "metric"
	Mixed  System = "mixed"
)

// Systems lists the systems in a fixed order.
func Systems() []System { return []System{US, Metric, Mixed} }

// ParseSystem reads the word of a system; an unknown one is a *ParseError.
func ParseSystem(text string) (System, error) {
	words := make([]string, 0, len(Systems()))
	for _, s := range Systems() {
		if fold(text) == string(s) {
			return s, nil
		}
		words = append(words, string(s))
	}
	return Metric, &ParseError{Read: text, Want: "a system of units: us, metric or mixed", Nearest: Nearest(text, words)}
}

// style is how figures up to a size are shown: digits significant figures, but
// never fewer than least nor more than most decimals.
type style struct {
	unit   string  // a unit of the kind's table
	below  float64 // SI size under which the style holds; 0: always
	digits int
	least  int
	most   int
}

// beyond is the size from which a figure is written with an exponent: nothing in
// a shop is so big, and a row of noughts helps nobody.
const beyond = 1e12

// styleRow holds the styles of a kind, by rising size; metric serves Mixed too.
type styleRow struct {
	kind   Kind
	us     []style
	metric []style
}

// styleTable is the one table of trade rounding; it is never written to.
// Kinds that are not in it print as plain numbers in SI.
var styleTable = []styleRow{
	{KindLength, []style{{"in", foot - inch/2000, 3, 0, 5}, {"ft", 0, 3, 2, 2}}, []style{{"mm", 0.99995, 3, 0, 5}, {"m", 0, 3, 2, 2}}},
	{KindArea, []style{{"in2", foot * foot, 3, 0, 4}, {"ft2", 0, 3, 0, 1}}, []style{{"mm2", 0.1, 3, 0, 3}, {"m2", 0, 3, 0, 2}}},
	{KindVolume, []style{{"gal", 0, 3, 0, 3}}, []style{{"L", 9.995, 3, 0, 3}, {"m3", 0, 3, 0, 1}}},
	// Near vacuum a rounded gauge figure could fall below it: shown absolute.
	{KindPressure, []style{{"psia", 20e3, 2, 1, 3}, {"psi", 0, 2, 0, 2}}, []style{{"bara", 20e3, 2, 2, 4}, {"bar", 0, 2, 1, 3}}},
	{KindGauge, []style{{"psi", 0, 2, 0, 2}}, []style{{"bar", 0, 2, 1, 3}}},
	{KindBarometer, []style{{"psia", 0, 3, 1, 4}}, []style{{"kPa", 0, 3, 1, 4}}},
	{KindPressureDiff, []style{{"psi", 0, 2, 0, 3}}, []style{{"mbar", 9950, 2, 0, 2}, {"bar", 0, 2, 1, 2}}},
	{KindTemperature, []style{{"°F", 0, 1, 0, 0}}, []style{{"°C", 0, 2, 0, 1}}},
	{KindTempDiff, []style{{"°F", 0, 2, 0, 1}}, []style{{"K", 0, 2, 0, 1}}},
	{KindFlow, flowUS, flowMetric},
	{KindVolumeFlow, flowUS, flowMetric},
	{KindMassFlow, []style{{"lb/min", 0, 3, 0, 4}}, []style{{"g/s", 0.9995, 3, 0, 4}, {"kg/s", 0, 3, 0, 3}}},
	{KindVelocity, []style{{"ft/s", 0, 2, 0, 2}}, []style{{"m/s", 0, 2, 1, 2}}},
	{KindDensity, []style{{"lb/ft3", 0, 4, 0, 6}}, []style{{"g/m3", 0.09995, 3, 0, 4}, {"kg/m3", 0, 4, 0, 4}}},
	{KindViscosity, []style{{"cP", 0, 3, 0, 6}}, []style{{"uPa.s", 0, 3, 0, 4}}},
	{KindPower, []style{{"hp", 0, 2, 1, 3}}, []style{{"W", 999.5, 3, 0, 2}, {"kW", 0, 2, 1, 2}}},
	{KindEnergy, []style{{"ft.lbf", 0, 3, 0, 2}}, []style{{"J", 999.5, 3, 0, 2}, {"kJ", 999.5e3, 3, 0, 2}, {"MJ", 0, 3, 0, 2}}},
	{KindElectricity, []style{{"kWh", 0, 3, 0, 3}}, []style{{"kWh", 0, 3, 0, 3}}},
	{KindSpecificEnergy, []style{{"kW/100 cfm", 0, 3, 0, 3}}, []style{{"kWh/m3", 0, 3, 0, 5}}},
	{KindMass, []style{{"lb", 0, 3, 0, 3}}, []style{{"g", 0.9995, 3, 0, 2}, {"kg", 0, 3, 0, 2}}},
	{KindStress, []style{{"psi", 99.95e3 * psi, 3, 0, 1}, {"Mpsi", 0, 3, 0, 2}}, []style{{"MPa", 9.995e8, 3, 0, 3}, {"GPa", 0, 3, 0, 1}}},
	{KindConductance, conductanceStyles, conductanceStyles},
	{KindFrequency, []style{{"per h", 0, 2, 0, 2}}, []style{{"per h", 0, 2, 0, 2}}},
	{KindExpansion, []style{{"uin/(in.°F)", 0, 3, 0, 2}}, []style{{"um/(m.K)", 0, 3, 0, 2}}},
	{KindHeatCapacity, []style{{"ft.lbf/(lb.°R)", 0, 5, 0, 3}}, []style{{"J/(kg.K)", 0, 5, 0, 2}}},
	{KindRatio, []style{{"%", 0, 2, 0, 2}}, []style{{"%", 0, 2, 0, 2}}},
	{KindDuration, durationStyles, durationStyles},
}

var (
	flowUS            = []style{{"cfm", 0, 3, 0, 3}}
	flowMetric        = []style{{"L/min", 10.0 / 60 * 0.9995, 3, 0, 2}, {"m3/min", 0, 3, 0, 1}}
	conductanceStyles = []style{{"dm3/(s.bar)", 0, 3, 0, 4}}
	durationStyles    = []style{{"s", 59.95, 3, 0, 2}, {"min", 3597, 3, 0, 1}, {"h", 0, 3, 0, 1}}
)

// styleOf picks the style for a value.
func (s System) styleOf(k Kind, si float64) (style, bool) {
	for _, row := range styleTable {
		if row.kind != k {
			continue
		}
		styles := row.metric
		if s == US {
			styles = row.us
		}
		for _, st := range styles {
			if st.below == 0 || math.Abs(si) < st.below {
				return st, true
			}
		}
	}
	return style{}, false
}

// Split gives the number and the unit in which si is shown, for tables and
// form fields. KindPressure shows as gauge against the atmosphere of env, flows
// at ISO 1217 free air. US lengths of a foot and more come as decimal feet;
// only Text writes feet and inches. A value that is not finite shows as "–".
func (s System) Split(k Kind, si float64, env Env) (number, unit string) {
	if math.IsNaN(si) || math.IsInf(si, 0) {
		return "–", ""
	}
	if k == KindYesNo {
		return map[bool]string{true: "yes", false: "no"}[si != 0], ""
	}
	st, ok := s.styleOf(k, si)
	if !ok {
		return plainNumber(si), k.SI()
	}
	u, _ := k.unit(st.unit)
	x := u.from(si, k, env)
	switch {
	case math.IsInf(x, 0):
		return "–", ""
	case math.Abs(x) >= beyond:
		return plainNumber(x), pretty(st.unit)
	}
	return st.write(x), pretty(st.unit)
}

// Text shows si to people in the units of the system, with trade rounding:
// 92 psi, 6.3 bar, 12 ft 6 in, 3.21 m, 18.4 cfm, 520 L/min, 71 °F. Lengths in
// US units of a foot and more are rounded to 1/8 in, durations of an hour and
// more to a minute. What Text writes, Parse reads.
func (s System) Text(k Kind, si float64, env Env) string {
	finite := !math.IsNaN(si) && !math.IsInf(si, 0)
	switch {
	case finite && k == KindLength && s == US && math.Abs(si) >= foot-inch/2000 && math.Abs(si) < beyond*foot:
		return feet(si)
	case finite && k == KindDuration && math.Abs(si) >= 3597 && math.Abs(si) < 360000:
		return hours(si)
	}
	text := join(s.Split(k, si, env))
	if s == Mixed && finite && (k == KindPressure || k == KindGauge || k == KindPressureDiff) {
		text += " (" + join(US.Split(k, si, env)) + ")"
	}
	return text
}

func join(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}

// write rounds x in the style and drops noughts behind its least decimals.
func (st style) write(x float64) string {
	text := strconv.FormatFloat(x, 'f', st.decimals(x), 64)
	return tidy(text, st.least)
}

// decimals is how many decimals the style gives x.
func (st style) decimals(x float64) int {
	if x == 0 {
		return st.least
	}
	top := int(math.Floor(math.Log10(math.Abs(x)) + 1e-9))
	return max(st.least, min(st.most, st.digits-1-top))
}

// tidy drops trailing noughts beyond the least decimals, and the sign of nought.
func tidy(text string, least int) string {
	if dot := strings.IndexByte(text, '.'); dot >= 0 {
		end := len(text)
		for end > dot+1+least && text[end-1] == '0' {
			end--
		}
		text = strings.TrimSuffix(text[:end], ".")
	}
	if strings.Trim(text, "-0.") == "" {
		text = strings.TrimPrefix(text, "-")
	}
	return text
}

// plainNumber shows a number without a unit in five figures at most.
func plainNumber(x float64) string {
	if x == 0 {
		return "0"
	}
	if x == math.Trunc(x) && math.Abs(x) < 1e9 {
		return strconv.FormatFloat(x, 'f', 0, 64)
	}
	return strconv.FormatFloat(x, 'g', 5, 64)
}

// feet writes a length as feet and inches to the eighth: 12 ft 6-1/2 in.
func feet(si float64) string {
	const perFoot = 12 * 8
	eighths := math.Round(math.Abs(si) / (inch / 8))
	sign := ""
	if si < 0 {
		sign = "-"
	}
	n := int(eighths)
	text := sign + strconv.Itoa(n/perFoot) + " ft"
	whole, part := n%perFoot/8, n%8
	fraction := ""
	if part != 0 {
		bottom := 8
		for part%2 == 0 {
			part, bottom = part/2, bottom/2
		}
		fraction = strconv.Itoa(part) + "/" + strconv.Itoa(bottom)
	}
	switch {
	case whole == 0 && fraction == "":
		return text
	case whole == 0:
		return text + " " + fraction + " in"
	case fraction == "":
		return text + " " + strconv.Itoa(whole) + " in"
	}
	return text + " " + strconv.Itoa(whole) + "-" + fraction + " in"
}

// hours writes a duration as hours and minutes: 1 h 30 min.
func hours(si float64) string {
	minutes := int(math.Round(math.Abs(si) / 60))
	text := strconv.Itoa(minutes/60) + " h"
	if minutes%60 != 0 {
		text += " " + strconv.Itoa(minutes%60) + " min"
	}
	if si < 0 {
		return "-" + text
	}
	return text
}

// raised writes exponents and products as print has them.
var raised = strings.NewReplacer("m2", "m²", "m3", "m³", "t2", "t²", "t3", "t³", "in2", "in²", ".", "·")

// pretty sets a unit of the table in print: m², µPa·s.
func pretty(unit string) string {
	unit = raised.Replace(unit)
	if strings.HasPrefix(unit, "u") {
		unit = "µ" + unit[1:]
	}
	return strings.ReplaceAll(unit, "/(u", "/(µ")
}
