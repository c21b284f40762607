package air

import "math"

// The equation of state of dry air as a pseudo-pure fluid: the reduced
// Helmholtz energy alpha(delta, tau), delta = rho/rhoJ, tau = TJ/T, as the sum
// of an ideal and a residual part (cite lemmon2000). Published range 59.75 to
// 2000 K and up to 2000 MPa. Density uncertainty 0.1 %, heat capacity 1 %,
// speed of sound 0.2 %.
const (
	tempJ      = 132.6312  // K, maxcondentherm, reducing temperature
	densityJ   = 10447.7   // mol/m³, reducing density
	pressureJ  = 3.78502e6 // Pa, at the maxcondentherm
	molarR     = 8.314510  // J/(mol·K), the value the equation was fitted with
	molarMass  = 0.0289586 // kg/mol, of the mixture the equation was fitted to
	tempLeast  = 60.0      // K
	tempMost   = 2000.0    // K
	pressMost  = 100e6     // Pa: as far as the density search here is tested
	dewCeiling = 0.98      // share of the dew pressure up to which air counts as gas
)

// residualTerm is one term n delta^d tau^t exp(-delta^l); l = 0: no exponential.
type residualTerm struct {
	n    float64
	d, l int
	t    float64
}

// residualTerms holds Table 13 of the 2000 paper.
var residualTerms = [...]residualTerm{
	{0.118160747229, 1, 0, 0},
	{0.713116392079, 1, 0, 0.33},
	{-1.61824192067, 1, 0, 1.01},
	{0.0714140178971, 2, 0, 0},
	{-0.0865421396646, 3, 0, 0},
	{0.134211176704, 3, 0, 0.15},
	{0.0112626704218, 4, 0, 0},
	{-0.0420533228842, 4, 0, 0.2},
	{0.0349008431982, 4, 0, 0.35},
	{0.000164957183186, 6, 0, 1.35},
	{-0.101365037912, 1, 1, 1.6},
	{-0.17381369097, 3, 1, 0.8},
	{-0.0472103183731, 5, 1, 0.95},
	{-0.0122523554253, 6, 1, 1.25},
	{-0.146629609713, 1, 2, 3.6},
	{-0.0316055879821, 3, 2, 6},
	{0.000233594806142, 11, 2, 3.25},
	{0.0148287891978, 1, 3, 3.5},
	{-0.00938782884667, 3, 3, 15},
}

// idealPower holds the powers of tau in the ideal part; terms without a second
// derivative in tau stand in the paper but give no property used here.
var idealPower = [...]struct{ n, t float64 }{
	{6.057194e-8, -3},
	{-2.10274769e-5, -2},
	{-1.58860716e-4, -1},
	{-1.9536342e-4, 1.5},
}

const (
	idealLogTau = 2.490888032 // N7
	idealN8     = 0.791309509
	idealN9     = 0.212236768
	idealN10    = -0.197938904
	idealN11    = 25.36365 // exponents of the three vibration terms
	idealN12    = 16.90741
	idealN13    = 87.31279
)

// residual holds delta and tau times the derivatives of the residual part:
// d = δ αδ, dd = δ² αδδ, dt = δ τ αδτ, tt = τ² αττ.
type residual struct{ d, dd, dt, tt float64 }

// residualAt sums the residual terms. Their derivatives are taken by hand:
// each delta derivative brings down (d - l δ^l).
func residualAt(delta, tau float64) residual {
	var r residual
	for i := range residualTerms {
		c := &residualTerms[i]
		dl, value := 0.0, c.n*math.Pow(tau, c.t)*intPow(delta, c.d)
		if c.l > 0 {
			dl = intPow(delta, c.l)
			value *= math.Exp(-dl)
		}
		first := float64(c.d) - float64(c.l)*dl
		r.d += value * first
		r.dd += value * (first*(first-1) - float64(c.l*c.l)*dl)
		r.dt += value * first * c.t
		r.tt += value * c.t * (c.t - 1)
	}
	return r
}

// idealTT is τ² ∂²α0/∂τ² = -cv0/R.
func idealTT(tau float64) float64 {
	sum := -idealLogTau
	for _, c := range idealPower {
		sum += c.n * c.t * (c.t - 1) * math.Pow(tau, c.t)
	}
	// ln(1 - e^-x): second derivative -e^-x/(1-e^-x)².
	for _, v := range [...]struct{ n, a float64 }{{idealN8, idealN11}, {idealN9, idealN12}} {
		x := v.a * tau
		e := math.Exp(-x)
		sum -= v.n * x * x * e / ((1 - e) * (1 - e))
	}
	// ln(2/3 + e^x), written with e^-x so that it cannot overflow.
	x := idealN13 * tau
	e := 2.0 / 3.0 * math.Exp(-x)
	return sum + idealN10*x*x*e/((1+e)*(1+e))
}

// molarPressure is the pressure in Pa at rho mol/m³ and t K.
func molarPressure(rho, t float64) float64 {
	return rho * molarR * t * (1 + residualAt(rho/densityJ, tempJ/t).d)
}

// dewPressure is the pressure in Pa at which air begins to condense, the
// ancillary equation of the 2000 paper; only beneath tempJ.
func dewPressure(t float64) float64 {
	theta := 1 - t/tempJ
	root := math.Sqrt(theta)
	sum := -0.1567266*root - 5.539635*theta + 0.7567212*theta*root - 3.514322*theta*theta
	return pressureJ * math.Exp(tempJ/t*sum)
}

// molarDensity finds rho in mol/m³ on the gas side. The pressure rises with
// density there, so a bracket grown from the ideal gas holds the one root;
// Newton steps that leave the bracket are replaced by halving.
func molarDensity(p, t float64) float64 {
	low, high := 0.0, p/(molarR*t)
	for molarPressure(high, t) < p {
		low, high = high, high*1.1
	}
	rho := p / (molarR * t)
	for range 100 {
		r := residualAt(rho/densityJ, tempJ/t)
		off := rho*molarR*t*(1+r.d) - p
		if off > 0 {
			high = rho
		} else {
			low = rho
		}
		next := rho - off/(molarR*t*(1+2*r.d+r.dd))
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-rho) <= 1e-14*rho {
			return next
		}
		rho = next
	}
	return rho
}

// intPow is x^n for small n ≥ 0; math.Pow costs ten times as much here.
func intPow(x float64, n int) float64 {
	y := 1.0
	for ; n > 0; n-- {
		y *= x
	}
	return y
}
