package air

import (
	"math"

	"dropleg/engine/unit"
)

// Over says over what the vapour is saturated.
type Over int

const (
	// OverEither is ice beneath 0 °C and water from there on, as nature has it
	// on a cold surface and as printed moisture tables have it.
	OverEither Over = iota
	OverWater       // also supercooled beneath 0 °C, as a dew point mirror may show it
	OverIce
)

// Ranges of the saturation laws in K.
const (
	freezing     = 273.15
	tripleT      = 273.16
	triplePress  = 611.657 // Pa
	iceLeast     = 50.0
	waterLeast   = 123.0
	waterMost    = 647.096
	waterPressPa = 22.064e6 // Pa at waterMost
)

// SaturationPressure is the vapour pressure in Pa of pure water or ice at t.
//
// Water from 273.15 K to the critical point: IAPWS-IF97 region 4, eq 30
// (cite iapws-if97; 0.03 %). Supercooled water down to 123 K: Murphy & Koop
// eq 10 (cite murphy-koop2005). Ice from 50 to 273.16 K: IAPWS R14-08 eq 6
// (cite iapws-r14). Outside: an error that names the range. In moist
// compressed air the pressure is higher by [EnhancementFactor].
func SaturationPressure(t unit.Temperature, over Over) (unit.AbsPressure, error) {
	low, high := over.limits()
	if err := between("temperature over "+over.String(), float64(t), low, high, "K"); err != nil {
		return 0, err
	}
	return unit.AbsPressure(over.pressure(float64(t))), nil
}

// DewPoint is the temperature at which vapour of pressure e is saturated: the
// inverse of [SaturationPressure] to 1e-9 K. Over either, a result beneath
// 0 °C is a frost point. Outside the laws' range: an error that names it.
func DewPoint(e unit.AbsPressure, over Over) (unit.Temperature, error) {
	low, high := over.limits()
	pl, ph := over.pressure(low), over.pressure(high)
	if err := between("vapour pressure over "+over.String(), float64(e), pl, ph, "Pa"); err != nil {
		return 0, err
	}
	return unit.Temperature(over.invert(float64(e), low, high)), nil
}

// String is the word of commands and files; OverEither has none of its own.
func (o Over) String() string {
	switch o {
	case OverWater:
		return "water"
	case OverIce:
		return "ice"
	}
	return "water or ice"
}

// OverNamed is the phase for a word; "" is OverEither.
func OverNamed(word string) (Over, bool) {
	switch word {
	case "":
		return OverEither, true
	case "water":
		return OverWater, true
	case "ice":
		return OverIce, true
	}
	return OverEither, false
}

// limits is the temperature range of the laws in K.
func (o Over) limits() (low, high float64) {
	switch o {
	case OverIce:
		return iceLeast, tripleT
	case OverWater:
		return waterLeast, waterMost
	}
	return iceLeast, waterMost
}

// pressure is the saturation pressure in Pa, inside the limits.
func (o Over) pressure(t float64) float64 {
	switch {
	case o == OverIce, o == OverEither && t < freezing:
		return icePressure(t)
	case t < freezing:
		return supercooledPressure(t)
	}
	return waterPressure(t)
}

// invert finds the temperature by false position in ln e against 1/T, where
// the curve is nearly straight; it halves when that stalls.
func (o Over) invert(e, low, high float64) float64 {
	aim := math.Log(e)
	x0, x1 := 1/low, 1/high
	y0, y1 := math.Log(o.pressure(low))-aim, math.Log(o.pressure(high))-aim
	if y0 >= 0 {
		return low
	}
	if y1 <= 0 {
		return high
	}
	for range 200 {
		x := (x0*y1 - x1*y0) / (y1 - y0)
		y := math.Log(o.pressure(1/x)) - aim
		if y == 0 || math.Abs(x1-x0) < 1e-15 {
			return 1 / x
		}
		// Illinois rule: an end that is kept twice loses half of its weight.
		if (y < 0) == (y1 < 0) {
			y0 /= 2
		} else {
			x0, y0 = x1, y1
		}
		if math.Abs(x-x1) < 1e-14*x {
			return 1 / x
		}
		x1, y1 = x, y
	}
	return 1 / x1
}

// region4 holds the coefficients n1 to n10 of IAPWS-IF97, Table 34.
var region4 = [...]float64{
	0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2,
	0.12020824702470e5, -0.32325550322333e7, 0.14915108613530e2,
	-0.48232657361591e4, 0.40511340542057e6, -0.23855557567849,
	0.65017534844798e3,
}

// waterPressure is IAPWS-IF97 eq 30 in Pa.
func waterPressure(t float64) float64 {
	n := &region4
	x := t + n[8]/(t-n[9])
	a := (x+n[0])*x + n[1]
	b := (n[2]*x+n[3])*x + n[4]
	c := (n[5]*x+n[6])*x + n[7]
	r := 2 * c / (-b + math.Sqrt(b*b-4*a*c))
	return r * r * r * r * 1e6
}

// icePressure is IAPWS R14-08 eq 6 in Pa.
func icePressure(t float64) float64 {
	x := t / tripleT
	sum := -21.2144006*math.Pow(x, 0.00333333333) +
		27.3203819*math.Pow(x, 1.20666667) -
		6.10598130*math.Pow(x, 1.70333333)
	return triplePress * math.Exp(sum/x)
}

// supercooledPressure is Murphy & Koop eq 10 in Pa.
func supercooledPressure(t float64) float64 {
	log := math.Log(t)
	return math.Exp(54.842763 - 6763.22/t - 4.210*log + 0.000367*t +
		math.Tanh(0.0415*(t-218.8))*(53.878-1331.22/t-9.44523*log+0.014025*t))
}
