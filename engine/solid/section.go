package solid

import (
	"errors"
	"fmt"
	"math"

	"dropleg/engine/unit"
)

// Section is the area of a tube's wall in m² and its second moment of area in m⁴:
// pi (od - wall) wall and pi/64 (od⁴ - bore⁴), exact for any thickness.
func Section(od, wall unit.Length) (area, second float64, err error) {
	err = errors.Join(positive("od", float64(od), "m"), positive("wall", float64(wall), "m"))
	if err == nil && wall > od/2 {
		err = fmt.Errorf("wall %.6g m: wanted at most half of od %.6g m", float64(wall), float64(od))
	}
	if err != nil {
		return 0, 0, err
	}
	d, b := float64(od), float64(od-2*wall)
	return math.Pi * float64(wall*(od-wall)), math.Pi / 64 * (d*d*d*d - b*b*b*b), nil
}

// Two ends that may not turn move against each other by a growth: the line between
// them bends into an S. Its ends see M = 6 E I d/L² and the shove 12 E I d/L³, and
// the stress M (od/2)/I = 3 E od d/L², which is the leg rule read backwards (cite
// leg-formula). Within the elastic range, for d well under L.

// LegStress is the bending stress in a leg that takes a growth up: 3 E od |growth|/leg².
func LegStress(modulus unit.Stress, od, growth, leg unit.Length) (unit.Stress, error) {
	err := errors.Join(positive("E", float64(modulus), "Pa"), positive("od", float64(od), "m"),
		finite("growth", float64(growth), "m"), positive("leg", float64(leg), "m"))
	if err != nil {
		return 0, err
	}
	return unit.Stress(3 * float64(modulus) * float64(od) * math.Abs(float64(growth)) / float64(leg*leg)), nil
}

// LegForce is the force in N with which such a leg pushes back: 12 E I |growth|/leg³.
func LegForce(modulus unit.Stress, od, wall, growth, leg unit.Length) (float64, error) {
	_, second, err := Section(od, wall)
	err = errors.Join(err, positive("E", float64(modulus), "Pa"), finite("growth", float64(growth), "m"),
		positive("leg", float64(leg), "m"))
	if err != nil {
		return 0, err
	}
	return 12 * float64(modulus) * second * math.Abs(float64(growth)) / math.Pow(float64(leg), 3), nil
}

// Takes is the growth that a leg takes up: the leg rule solved for it, leg²/(c² od).
func Takes(constant float64, od, leg unit.Length) (unit.Length, error) {
	err := errors.Join(positive("leg constant", constant, ""), positive("od", float64(od), "m"),
		notNegative("leg", float64(leg), "m"))
	if err != nil {
		return 0, err
	}
	return unit.Length(float64(leg*leg) / (constant * constant * float64(od))), nil
}

// Bows is the push in N under which a line bows out between two supports: Euler's
// pi² E I/span², ends free to turn. A held line that would push harder bows instead,
// where it was not straight to begin with already under less.
func Bows(modulus unit.Stress, od, wall, span unit.Length) (float64, error) {
	_, second, err := Section(od, wall)
	err = errors.Join(err, positive("E", float64(modulus), "Pa"), positive("span", float64(span), "m"))
	if err != nil {
		return 0, err
	}
	return math.Pi * math.Pi * float64(modulus) * second / float64(span*span), nil
}
