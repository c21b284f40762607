package solid

import (
	"errors"
	"fmt"
	"math"

	"dropleg/engine/unit"
)

// Material is what a line is made of, as far as its growth goes.
type Material struct {
	Name    string
	Alpha   unit.Expansion // linear, mean over the span
	Modulus unit.Stress    // Young's; zero: not known, use a leg constant
	Leg     float64        // leg constant of its handbook; zero: not known
}

// Growth and legs are pure geometry and elasticity: what changes from code to
// code is the stress allowed and the coefficient, and both come in.

// Growth is the change of a free length: alpha L dT. Negative when it cools. A
// mean coefficient is good to a few per cent between -20 and 80 °C.
func Growth(alpha unit.Expansion, length unit.Length, rise unit.TempDiff) (unit.Length, error) {
	err := errors.Join(finite("alpha", float64(alpha), "1/K"), notNegative("length", float64(length), "m"),
		finite("temperature rise", float64(rise), "K"))
	if err != nil {
		return 0, err
	}
	return unit.Length(float64(alpha) * float64(length) * float64(rise)), nil
}

// Constants of the leg rule L = c sqrt(OD growth), without dimension.
const (
	// CopperOffset is the constant that the Copper Tube Handbook's Table 14.8
	// was made with; its formula with E = 17e6 psi and S = 6000 psi gives 92.2.
	CopperOffset = 88.6
	// PEXLeg is that of cross-linked polyethylene.
	PEXLeg = 12
)

// LegConstant is c of a material that may be bent to a stress: sqrt(3 E/S).
func LegConstant(modulus, allowed unit.Stress) (float64, error) {
	if err := errors.Join(positive("E", float64(modulus), "Pa"), positive("stress", float64(allowed), "Pa")); err != nil {
		return 0, err
	}
	return math.Sqrt(3 * float64(modulus/allowed)), nil
}

// Leg is the length of line, counted along all of an offset or free leg, that
// takes up a growth at its end: L = c sqrt(OD |growth|) (cite
// copper-handbook, expansion loops and offsets).
func Leg(constant float64, od, growth unit.Length) (unit.Length, error) {
	err := errors.Join(positive("leg constant", constant, ""), positive("od", float64(od), "m"),
		finite("growth", float64(growth), "m"))
	if err != nil {
		return 0, err
	}
	return unit.Length(constant * math.Sqrt(float64(od)*math.Abs(float64(growth)))), nil
}

// LoopRadius is the radius of a coil loop with the length of a leg: L/(2 pi).
func LoopRadius(leg unit.Length) unit.Length { return leg / (2 * math.Pi) }

// LoopLeg is each leg of a loop with square corners in the middle of a run, both
// ends of which grow into it: the leg over root two, L = sqrt(3 E OD growth/(2 S))
// (cite leg-formula).
func LoopLeg(leg unit.Length) unit.Length { return leg / math.Sqrt2 }

// Restrained is the stress in a line that is not let grow: E alpha dT, and the
// force it puts on its fixed points: that times the wall's section.
// Compressive stress, for a rise, counts positive. A slender line buckles first.
func Restrained(m Material, od, wall unit.Length, rise unit.TempDiff) (stress unit.Stress, force float64, err error) {
	area, _, err := Section(od, wall)
	err = errors.Join(err, positive("E", float64(m.Modulus), "Pa"), finite("alpha", float64(m.Alpha), "1/K"),
		finite("temperature rise", float64(rise), "K"))
	if err != nil {
		return 0, 0, err
	}
	stress = m.Modulus * unit.Stress(float64(m.Alpha)*float64(rise))
	return stress, float64(stress) * area, nil
}

// finite refuses infinities and what is no number.
func finite(what string, x float64, in string) error {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return fmt.Errorf("%s %v %s: wanted a finite number", what, x, in)
	}
	return nil
}

// positive refuses what is not above zero and finite.
func positive(what string, x float64, in string) error {
	if !(x > 0) || math.IsInf(x, 0) {
		return fmt.Errorf("%s %.6g %s: wanted above zero", what, x, in)
	}
	return nil
}

// notNegative refuses what is beneath zero, infinite or no number.
func notNegative(what string, x float64, in string) error {
	if !(x >= 0) || math.IsInf(x, 0) {
		return fmt.Errorf("%s %.6g %s: wanted zero or more", what, x, in)
	}
	return nil
}
