package day

import "math"

// piece is a stretch of time in which the store gains what is linear in its
// pressure: dp/dt = c (n0 + k (p − p0)).
type piece struct {
	c  float64 // R T/V, Pa/kg
	p0 float64 // pressure at its start, Pa abs
	n0 float64 // net mass flow in at p0, kg/s
	k  float64 // slope of the net flow, kg/(s Pa)
}

// after is the pressure at a time: p0 + n0 (e^(ckt) − 1)/k.
func (w piece) after(t float64) float64 {
	return w.p0 + w.c*w.n0*t*growth(w.c*w.k*t)
}

// until is the time at which a pressure is reached, +Inf where it never is:
// ln(1 + k (p − p0)/n0)/(ck).
func (w piece) until(p float64) float64 {
	d := p - w.p0
	if d == 0 {
		return 0
	}
	if w.n0 == 0 || (d > 0) != (w.n0 > 0) {
		return math.Inf(1)
	}
	y := w.k * d / w.n0
	if y <= -1 {
		return math.Inf(1) // beyond where gain and loss balance
	}
	return d / (w.c * w.n0) * lag(y)
}

// above is the integral of p − p0 over a time, Pa s.
func (w piece) above(t float64) float64 {
	return w.c * w.n0 * t * t / 2 * bulge(w.c*w.k*t)
}

// small is where the quotients below are taken by their series: the first term left
// out is then beneath the last digit.
const small = 1e-4

// growth is (e^z − 1)/z.
func growth(z float64) float64 {
	if math.Abs(z) < small {
		return 1 + z/2*(1+z/3*(1+z/4))
	}
	return math.Expm1(z) / z
}

// lag is ln(1 + y)/y.
func lag(y float64) float64 {
	if math.Abs(y) < small {
		return 1 - y*(1.0/2-y*(1.0/3-y*(1.0/4-y/5)))
	}
	return math.Log1p(y) / y
}

// bulge is (e^z − 1 − z)/(z²/2).
func bulge(z float64) float64 {
	// The difference loses digits long before expm1 does.
	if math.Abs(z) < 0.05 {
		return 1 + z/3*(1+z/4*(1+z/5*(1+z/6*(1+z/7*(1+z/8)))))
	}
	return (math.Expm1(z) - z) / (z * z / 2)
}
