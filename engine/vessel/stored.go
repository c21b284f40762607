package vessel

import (
	"errors"
	"math"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

// Constants of the stored-energy rule (cite asme-pcc2).
const (
	ruleAtmosphere  = 101000.0  // Pa
	ruleFactor      = 2.5       // 1/(k-1), k = 1.4
	ruleExponent    = 0.286     // (k-1)/k, rounded as the rule prints it
	tntEnergy       = 4266920.0 // J/kg
	scaledDistance  = 20.0      // m/kg^(1/3), no biological effect
	firstStep       = 135.5e6   // J up to which leastNear holds
	secondStep      = 271.0e6   // J up to which leastFar holds
	leastNear       = 30.0      // m
	leastFar        = 60.0      // m
	reflectedCharge = 2         // doubled charge for the ground, editions since 2018
)

// Stored is the energy in a volume under test pressure and the distance to
// keep from it.
type Stored struct {
	Energy unit.Energy
	TNT    unit.Mass   // energy over 4.26692 MJ/kg
	Blast  unit.Length // 20 (2 TNT)^(1/3)
	Least  unit.Length // the rule's least: 30 m up to 135.5 MJ, 60 m up to 271 MJ, then none
}

// Distance is the one that governs: the greater of the two.
func (s Stored) Distance() unit.Length { return max(s.Blast, s.Least) }

// StoredIn gives the stored energy of a pneumatic test by the rule
// E = 2.5 p V (1 - (pa/p)^0.286), pa = 101 kPa, p absolute (cite
// asme-pcc2). At or beneath that atmosphere there is none. Volume and
// pressure above zero; otherwise an error. The distance supposes air and a
// vessel in the open, and no shield.
func StoredIn(v unit.Volume, p unit.AbsPressure) (Stored, error) {
	if err := errors.Join(positive("volume", float64(v), "m3"), positive("pressure", float64(p), "Pa absolute")); err != nil {
		return Stored{}, err
	}
	// Beneath the rule's atmosphere nothing would come out: no energy, not a negative one.
	left := math.Min(1, math.Pow(ruleAtmosphere/float64(p), ruleExponent))
	energy := ruleFactor * float64(p) * float64(v) * (1 - left)
	s := Stored{Energy: unit.Energy(energy), TNT: unit.Mass(energy / tntEnergy)}
	s.Blast = scaled(reflectedCharge * s.TNT)
	// Above the second step the rule names no least distance: the blast governs,
	// and shields or a smaller section are asked for.
	switch {
	case energy <= 0:
	case energy <= firstStep:
		s.Least = leastNear
	case energy <= secondStep:
		s.Least = leastFar
	}
	return s, nil
}

// BlastBefore2018 is the distance by the editions before 2018, which did not
// double the charge: 20 TNT^(1/3).
func (s Stored) BlastBefore2018() unit.Length { return scaled(s.TNT) }

func scaled(charge unit.Mass) unit.Length {
	return unit.Length(scaledDistance * math.Cbrt(float64(charge)))
}

// Isentropic is the energy with the exact exponent, to compare with the rule:
// p V/(k-1) (1 - (pa/p)^((k-1)/k)), k = 1.4.
func Isentropic(v unit.Volume, p unit.AbsPressure) (unit.Energy, error) {
	if err := errors.Join(positive("volume", float64(v), "m3"), positive("pressure", float64(p), "Pa absolute")); err != nil {
		return 0, err
	}
	left := math.Min(1, math.Pow(ruleAtmosphere/float64(p), (air.Kappa-1)/air.Kappa))
	return unit.Energy(float64(p) * float64(v) / (air.Kappa - 1) * (1 - left)), nil
}
