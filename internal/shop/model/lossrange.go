package model

import (
	"math"

	"dropleg/engine/unit"
)

// LossRange is what an element takes from the pressure at its upstream end, at one
// flow, with its uncertain figures (roughness, conductance, bore left by fittings)
// at their best and at their worst, by the element's own law; loaded says how
// filters count. The rest of the network is held as it is: what an element takes
// in a network that changes with it is for Solve. most is +Inf where the worst
// figures could not pass the flow; ok is false with no flow, and where the element
// is not there.
func (m *Model) LossRange(element int, in unit.GaugePressure, flow unit.FreeAir, loaded bool) (least, most unit.PressureDiff, ok bool) {
	mass := massOf(unit.FreeAir(math.Abs(float64(flow))))
	p := float64(in.Abs(m.atm))
	if element < 0 || element >= len(m.links) || !(mass > 0) || !(p > 0) {
		return 0, 0, false
	}
	ends := [2]float64{}
	for i, bias := range []Bias{Best, Worst} {
		for v, known := range variants {
			if known != (variant{bias, loaded}) {
				continue
			}
			law := m.laws(v).links[element]
			ends[i] = p - behind(func(out float64) float64 {
				if flow < 0 {
					back, _, _ := law.Flow(out, p)
					return -back
				}
				on, _, _ := law.Flow(p, out)
				return on
			}, p, mass)
		}
	}
	return unit.PressureDiff(ends[0]), unit.PressureDiff(ends[1]), !math.IsInf(ends[0], 0)
}

// behind is the pressure behind a law at which it passes a flow, by halving: laws
// are monotone. -Inf where even suction draws less.
func behind(passed func(out float64) float64, p, mass float64) float64 {
	if passed(0) < mass {
		return math.Inf(-1)
	}
	low, high := 0.0, p
	const halvings = 48 // of 1 MPa: far below a pascal
	for range halvings {
		if middle := (low + high) / 2; passed(middle) < mass {
			high = middle
		} else {
			low = middle
		}
	}
	return (low + high) / 2
}
