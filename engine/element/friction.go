package element

import "math"

// Where the laws of friction hold: not between these Reynolds numbers, nor for
// walls rougher than this share of the bore.
const (
	laminarEnd     = 2000
	turbulentStart = 4000
	roughest       = 0.05
)

// Colebrook is the Darcy friction factor of turbulent flow in a rough tube,
//
//	1/√f = −2 log10( ε/(3.7 D) + 2.51/(Re √f) )
//
// with Re the Reynolds number and rough = ε/D (Colebrook 1939). Range: Re ≥
// 4000, ε/D ≤ 0.05; it gives the formula's value outside too. The root is found
// to the last bits: with u = 1/√f the equation is u + c·ln(a + b u) = 0, which
// is so nearly straight that two steps of third order (Halley) do.
func Colebrook(re, rough float64) float64 {
	f, _ := colebrook(re, rough)
	return f
}

// colebrook gives f and dln f/dln Re, which is zero for a fully rough wall.
// It runs once for every line in every step of a solution, so it spends one
// logarithm only: three turns of the equation itself with a coarse one bring u
// within 0.02; a step of third order from there leaves 1e-8, and for the next the
// logarithm has moved so little that its series does.
func colebrook(re, rough float64) (f, slope float64) {
	const c = 2 / math.Ln10
	a := rough / 3.7
	b := 2.51 / re
	u := 6.0 // the middle of all u, 3.5 to 13
	for range 3 {
		u = -c * coarseLog(a+b*u)
	}
	y := a + b*u
	log := math.Log(y)
	for range 2 {
		r := u + c*log
		q := c * b / y
		d := 1 + q
		step := r / (d + r*q*b/(2*y*d)) // Halley: the second derivative is −q b/y
		u -= step
		e := -b * step / y
		log += e * (1 - e*(1./2-e*(1./3-e*(1./4-e*(1./5-e/6)))))
		y = a + b*u
	}
	q := c * b / y
	// du/dlnRe = c·(b u/y)/(1 + c b/y); f = u⁻².
	return 1 / (u * u), -2 * q / (1 + q)
}

// coarseLog is ln x within 1e-3 for normal x > 0: the exponent, and a cubic
// fitted to the logarithm of the mantissa.
func coarseLog(x float64) float64 {
	bits := math.Float64bits(x)
	e := float64(int(bits>>52) - 1023)
	m := math.Float64frombits(bits&(1<<52-1) | 1023<<52)
	return e*math.Ln2 + (-1.49278 + (2.11263+(-0.729104+0.10969*m)*m)*m)
}

// friction is φ = f·Re² of one roughness: what drives a flow, in numbers.
// It rises with Re everywhere, so that flow has one answer.
//
//	Re ≤ 2000          φ = 64 Re (Hagen, Poiseuille)
//	Re ≥ 4000          φ = f Re², f by Colebrook
//	between            the cubic in Re with both values and both slopes
//
// The cubic is monotone: its end slopes are below three times the slope of the
// chord for every roughness up to 0.05 (Fritsch, Carlson 1980). No published law
// holds between; measured flow there switches to and fro.
type friction struct {
	rough  float64
	c2, c3 float64 // φ = 64 Re + (c2 + c3 x) x², x = Re − 2000
}

func newFriction(rough float64) friction {
	const span = turbulentStart - laminarEnd
	f, slope := colebrook(turbulentStart, rough)
	phi := f * turbulentStart * turbulentStart
	steep := f * turbulentStart * (2 + slope)
	rise := phi - 64*turbulentStart
	over := steep - 64
	return friction{
		rough: rough,
		c2:    (3*rise - over*span) / (span * span),
		c3:    (over*span - 2*rise) / (span * span * span),
	}
}

// at gives φ and dφ/dRe.
func (w *friction) at(re float64) (phi, slope float64) {
	switch {
	case re <= laminarEnd:
		return 64 * re, 64
	case re < turbulentStart:
		x := re - laminarEnd
		return 64*re + (w.c2+w.c3*x)*x*x, 64 + (2*w.c2+3*w.c3*x)*x
	}
	f, s := colebrook(re, w.rough)
	return f * re * re, f * re * (2 + s)
}

// Friction is the Darcy friction factor at any Reynolds number above zero:
// 64/Re, Colebrook, or the monotone join between 2000 and 4000.
func Friction(re, rough float64) float64 {
	w := newFriction(rough)
	phi, _ := w.at(re)
	return phi / (re * re)
}
