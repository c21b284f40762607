package element

import "math"

// Reference of ISO 6358 flows (standard reference atmosphere, ISO 8778).
const (
	RefDensity     = 1.185  // kg/m³
	RefTemperature = 293.15 // K
)

// ISO6358 is the law of couplers, plugs, valves and other small components,
//
//	m = C ρ0 p1 √(T0/T)                          for z ≥ 1 (choked)
//	m = C ρ0 p1 √(T0/T) · (z (2 − z))^M          for 0 < z < 1
//	z = (p1 − Δpc − p2) / ((1 − b) p1 − Δpc)
//
// C m³/(s·Pa) sonic conductance, b critical ratio, M subsonic index (0.5 for
// most), Δpc cracking pressure, Pa. With r = p2/p1 this is the standard's
// 1 − ((r − b)/(1 − Δpc/p1 − b))², written without its loss of digits near r = 1
// (ISO 6358-1:2013; rows ISO6-0001 to 0052). Range: 0 ≤ b < 1, 0 < M ≤ 1.
// Near zero difference the standard's slope is infinite: for z < 1e-8 (pressures
// within 1e-8 of each other, flow under 1.5e-4 of choked at M = 0.5) a cubic
// takes over, with a finite slope at zero and the standard's value and slope
// where it ends. Reverse flow: the same with the ends exchanged, or none if
// OneWay. Where p1 is so low that the standard's denominator would vanish (p1
// near Δpc/(1 − b)), the denominator is held at half of (1 − b)(p1 − Δpc).
type ISO6358 struct {
	c      float64 // kg/(s·Pa): C ρ0 √(T0/T)
	b, m   float64
	crack  float64 // Pa
	oneWay bool
	// At z = nearZero: share of the choked flow; and of the cubic z(a1 + a3 z²).
	xNear, a1, a3 float64
}

const nearZero = 1e-8

// ISO6358Spec is what an ISO6358 is made from. Index 0 means 0.5.
type ISO6358Spec struct {
	C        float64 // sonic conductance, m³/(s·Pa)
	B        float64 // critical pressure ratio
	Index    float64 // subsonic index m
	Cracking float64 // Pa
	OneWay   bool
}

// NewISO6358 refuses figures outside the range of the law.
func NewISO6358(g Gas, s ISO6358Spec) (*ISO6358, error) {
	if s.Index == 0 {
		s.Index = 0.5
	}
	if err := first(positive("temperature", g.Temperature), upTo("C", s.C, mostC), upTo("m", s.Index, 1),
		within("b", s.B, 0, 0.999), within("cracking pressure", s.Cracking, 0, mostPressure)); err != nil {
		return nil, err
	}
	return newNozzle(s.C*RefDensity*math.Sqrt(RefTemperature/g.Temperature), s), nil
}

// newNozzle makes the law from its choked flow per upstream pressure.
func newNozzle(c float64, s ISO6358Spec) *ISO6358 {
	n := &ISO6358{c: c, b: s.B, m: s.Index, crack: s.Cracking, oneWay: s.OneWay}
	n.xNear, n.a1, n.a3 = cubicNearZero(math.Pow(nearZero*(2-nearZero), s.Index), nearZero, s.Index)
	return n
}

// cubicNearZero is the odd cubic z(a1 + a3 z²) that meets a law at z0 with
// value x0 and logarithmic slope power; it rises everywhere for power ≤ 1.
func cubicNearZero(x0, z0, power float64) (x, a1, a3 float64) {
	return x0, (3 - power) / 2 * x0 / z0, (power - 1) / 2 * x0 / (z0 * z0 * z0)
}

// invertCubic finds z with z(a1 + a3 z²) = x, and dz/dx. Newton from the left,
// where the cubic is concave, comes up to the root.
func invertCubic(x, a1, a3 float64) (z, zx float64) {
	z = x / a1
	for range 40 {
		step := (x - z*(a1+a3*z*z)) / (a1 + 3*a3*z*z)
		z += step
		if math.Abs(step) <= 1e-16*z {
			break
		}
	}
	return z, 1 / (a1 + 3*a3*z*z)
}

// Flow follows the equation above.
func (n *ISO6358) Flow(p1, p2 float64) (m, d1, d2 float64) {
	if p1 >= p2 {
		return n.flow(p1, p2)
	}
	if n.oneWay {
		return 0, 0, 0
	}
	m, d2, d1 = n.flow(p2, p1)
	return -m, -d1, -d2
}

// span is the denominator of z and its slope by the upstream pressure.
func (n *ISO6358) span(pu float64) (w, slope float64) {
	w, slope = (1-n.b)*pu-n.crack, 1-n.b
	if least := (1 - n.b) / 2 * (pu - n.crack); least > w {
		return least, (1 - n.b) / 2
	}
	return w, slope
}

func (n *ISO6358) flow(pu, pd float64) (m, du, dd float64) {
	w, slope := n.span(pu)
	gap := pu - n.crack - pd
	if gap < 0 || w <= 0 {
		return 0, 0, 0
	}
	z := gap / w
	if z >= 1 {
		return n.c * pu, n.c, 0
	}
	x, xz := n.share(z)
	steep := n.c * pu * xz / w
	return n.c * pu * x, n.c*x + steep*max(0, 1-z*slope), -steep
}

// share is the part of the choked flow at z in [0, 1), and its slope.
func (n *ISO6358) share(z float64) (x, slope float64) {
	if z < nearZero {
		return z * (n.a1 + n.a3*z*z), n.a1 + 3*n.a3*z*z
	}
	y := z * (2 - z)
	if n.m == 0.5 {
		x = math.Sqrt(y)
	} else {
		x = math.Pow(y, n.m)
	}
	return x, n.m * x * (2 - 2*z) / y
}

// Passes tells that a one-way component holds against reverse flow.
func (n *ISO6358) Passes() (forward, reverse bool) { return true, !n.oneWay }

// Holds is the pressure behind the closed component.
func (n *ISO6358) Holds(p1 float64) float64 { return max(0, p1-n.crack) }

// Start is the flow per squared pressure at b = 0: m = c √(p1² − p2²), taken
// at a third of the choked flow.
func (n *ISO6358) Start(p float64) float64 { return 3 * n.c / max(p, pressureFloor) }

// shareByFlow bounds the share of the choked flow up to which the tangent at
// the flow is used; beyond, pressure downstream hardly acts and the tangent
// at the pressures is the better one.
const shareByFlow = 0.9

// Tangent linearizes p2 as a function of p1 and m.
func (n *ISO6358) Tangent(p1, p2, m float64) (m0, g1, g2 float64) {
	if m < 0 && !n.oneWay {
		m0, g2, g1 = n.tangent(p2, p1, -m)
		return -m0, -g1, -g2
	}
	return n.tangent(p1, p2, m)
}

func (n *ISO6358) tangent(pu, pd, m float64) (m0, gu, gd float64) {
	x := max(m, 0) / (n.c * pu)
	w, slope := n.span(pu)
	switch {
	case !(x < shareByFlow && w > 0):
		return n.byPressure(pu, pd)
	case x == 0 && n.oneWay && pu-n.crack <= pd:
		return 0, 0, 0
	}
	var z, zx float64 // zx = dz/dx
	if x < n.xNear {
		z, zx = invertCubic(x, n.a1, n.a3)
	} else {
		y := x * x
		if n.m != 0.5 {
			y = math.Pow(x, 1/n.m)
		}
		root := math.Sqrt(1 - y)
		z, zx = y/(1+root), y/(2*n.m*x*root)
	}
	byFlow := -w * zx / (n.c * pu)
	byUp := 1 - z*slope + w*zx*x/pu
	return tangentByOutlet(pu, pd, m, pu-n.crack-z*w, byUp, byFlow)
}

// byPressure is the tangent at the pressures, whichever is the higher.
func (n *ISO6358) byPressure(pu, pd float64) (m0, gu, gd float64) {
	if pu >= pd || n.oneWay {
		return tangentByPressure(n.flow, pu, pd)
	}
	m0, gd, gu = tangentByPressure(n.flow, pd, pu)
	return -m0, -gu, -gd
}
