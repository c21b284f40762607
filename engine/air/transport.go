package air

import "math"

// Transport equations of air: a dilute-gas part from the collision integral
// and a residual part in delta and tau (cite lemmon-jacobsen2004, eqs 1-5,
// Tables I-IV). Viscosity uncertainty 1 % at 270-300 K and below 1.5 MPa.
const (
	lennardJonesK  = 103.3 // K, energy parameter over Boltzmann's constant
	lennardJonesNm = 0.360 // nm, size parameter
	chapmanEnskog  = 0.0266958
)

var collisionCoefficients = [...]float64{0.431, -0.4623, 0.08406, 0.005341, -0.00331}

// transportTerm is n tau^t delta^d exp(-delta^l); l = 0: no exponential.
type transportTerm struct {
	n, t float64
	d, l int
}

var viscosityTerms = [...]transportTerm{ // µPa·s
	{10.72, 0.2, 1, 0},
	{1.122, 0.05, 4, 0},
	{0.002019, 2.4, 9, 0},
	{-8.876, 0.6, 1, 1},
	{-0.02916, 3.6, 8, 1},
}

var conductivityTerms = [...]transportTerm{ // mW/(m·K)
	{8.743, 0.1, 1, 0},
	{14.76, 0, 2, 0},
	{-16.62, 0.5, 3, 2},
	{3.793, 2.7, 7, 2},
	{-6.142, 0.3, 7, 2},
	{-0.3778, 1.3, 11, 2},
}

// diluteViscosity is the zero-density part in µPa·s.
func diluteViscosity(t float64) float64 {
	log := math.Log(t / lennardJonesK)
	sum := 0.0
	for i := len(collisionCoefficients) - 1; i >= 0; i-- {
		sum = sum*log + collisionCoefficients[i]
	}
	omega := math.Exp(sum)
	return chapmanEnskog * math.Sqrt(molarMass*1e3*t) / (lennardJonesNm * lennardJonesNm * omega)
}

// viscosityAt is in µPa·s at rho mol/m³.
func viscosityAt(rho, t float64) float64 {
	return diluteViscosity(t) + transportSum(viscosityTerms[:], rho, t)
}

// conductivityAt is in mW/(m·K) at rho mol/m³. The enhancement near the
// critical point is left out: 4 % at 200 K and 10 mol/dm³ (row AIR-0008), and
// fading with the distance from 132.6 K and 10.4 mol/dm³.
func conductivityAt(rho, t float64) float64 {
	tau := tempJ / t
	dilute := 1.308*diluteViscosity(t) + 1.405*math.Pow(tau, -1.1) - 1.036*math.Pow(tau, -0.3)
	return dilute + transportSum(conductivityTerms[:], rho, t)
}

// transportSum adds the residual terms.
func transportSum(terms []transportTerm, rho, t float64) float64 {
	delta, tau := rho/densityJ, tempJ/t
	sum := 0.0
	for _, c := range terms {
		v := c.n * math.Pow(tau, c.t) * intPow(delta, c.d)
		if c.l > 0 {
			v *= math.Exp(-intPow(delta, c.l))
		}
		sum += v
	}
	return sum
}
