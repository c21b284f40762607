package element

import "math"

// Gas is the state of the air that a law is told once: flow in the network is
// isothermal, so none of this changes with pressure.
type Gas struct {
	Temperature float64 // K
	R           float64 // specific gas constant, J/(kg·K)
	Z           float64 // compressibility factor, 1 for the ideal gas
	Viscosity   float64 // dynamic, Pa·s
}

// heatRatio is cp/cv of air as the nozzle laws and Mach numbers take it. Real
// dry air at 20 °C has 1.402 at 0.1 MPa and 1.413 at 1 MPa.
const heatRatio = 1.4

// RT is p/ρ in J/kg.
func (g Gas) RT() float64 { return g.Z * g.R * g.Temperature }

// Density of the gas at p, kg/m³.
func (g Gas) Density(p float64) float64 { return p / g.RT() }

// SpeedOfSound in m/s, ideal gas: √(γ Z R T).
func (g Gas) SpeedOfSound() float64 { return math.Sqrt(heatRatio * g.RT()) }

func (g Gas) check() error {
	return positive("temperature", g.Temperature, "gas constant", g.R,
		"compressibility", g.Z, "viscosity", g.Viscosity)
}
