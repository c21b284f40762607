package element

import "math"

// Orifice is a hole, a leak or an open nozzle: isentropic flow of a perfect gas
// with γ = 1.4 through cd times the hole's area,
//
//	m = cd A p1 √(7/(Z R T)) · √(t⁵ (1 − t)),  t = (p2/p1)^(2/7)
//
// and the greatest value of that, at t = 5/6 (p2/p1 = 0.5283), for lower p2
// (choked). Range: sharp or rounded holes, cd about 0.61 to 0.97; real cd of a
// sharp hole rises by some 10 % towards choking, which is left out. Reverse flow
// by the same law. For pressures within 1e-8 of each other a cubic takes the
// place of the infinite slope. Source: Saint-Venant and Wantzel 1839, any gas
// dynamics text; rows ORIF-0001 to 0247.
type Orifice struct {
	area float64 // of the hole, m²
	c    float64 // kg/(s·Pa): cd A √(7/(Z R T))
	// Share of cd A p1 √(7/ZRT) near zero difference, see ISO6358.
	xNear, a1, a3 float64
}

// Ratio of temperatures at the choked throat, 2/(γ+1), and √(t⁵(1 − t)) there.
const chokedT = 5.0 / 6

var chokedX = math.Sqrt(math.Pow(chokedT, 5) * (1 - chokedT))

// NewOrifice takes the bore in m and the discharge coefficient.
func NewOrifice(g Gas, bore, cd float64) (*Orifice, error) {
	if err := first(positive("temperature", g.Temperature, "gas constant", g.R,
		"compressibility", g.Z), within("bore", bore, leastBore, mostBore), upTo("cd", cd, 1.5)); err != nil {
		return nil, err
	}
	return newOrifice(g, math.Pi/4*bore*bore, cd), nil
}

func newOrifice(g Gas, area, cd float64) *Orifice {
	o := &Orifice{area: area, c: cd * area * math.Sqrt(7/g.RT())}
	x, slope := o.share(nearZero)
	o.xNear, o.a1, o.a3 = cubicNearZero(x, nearZero, nearZero*slope/x)
	return o
}

// Area of the hole, m².
func (o *Orifice) Area() float64 { return o.area }

// share is √(t⁵(1 − t)) at gap = 1 − p2/p1, and its slope by the gap.
func (o *Orifice) share(gap float64) (x, slope float64) {
	if gap < nearZero && o.a1 > 0 {
		return gap * (o.a1 + o.a3*gap*gap), o.a1 + 3*o.a3*gap*gap
	}
	cool := -math.Expm1(math.Log1p(-gap) * 2 / 7) // 1 − t
	t := 1 - cool
	if t <= chokedT {
		return chokedX, 0
	}
	x = t * t * math.Sqrt(t*cool)
	// d(t⁵ − t⁶)/dt = t⁴(5 − 6t); dt/dgap = −(2/7) t/(1 − gap).
	return x, t * t * t * t * (6*t - 5) * t / (7 * x * (1 - gap))
}

// Flow follows the equation above.
func (o *Orifice) Flow(p1, p2 float64) (m, d1, d2 float64) {
	if p1 >= p2 {
		return o.flow(p1, p2)
	}
	m, d2, d1 = o.flow(p2, p1)
	return -m, -d1, -d2
}

func (o *Orifice) flow(pu, pd float64) (m, du, dd float64) {
	if pu <= 0 {
		return 0, 0, 0
	}
	gap := (pu - pd) / pu
	if gap >= 1 {
		return o.c * pu * chokedX, o.c * chokedX, 0
	}
	x, slope := o.share(gap)
	return o.c * pu * x, o.c * (x + slope*(1-gap)), -o.c * slope
}

// Start takes the flow at a small difference as proportional to √(p1² − p2²),
// at a third of the choked flow.
func (o *Orifice) Start(p float64) float64 { return 3 * chokedX * o.c / max(p, pressureFloor) }

// Tangent linearizes p2 as a function of p1 and m where flow is not near
// choking, found by inverting √(t⁵(1 − t)).
func (o *Orifice) Tangent(p1, p2, m float64) (m0, g1, g2 float64) {
	if m < 0 {
		m0, g2, g1 = o.tangent(p2, p1, -m)
		return -m0, -g1, -g2
	}
	return o.tangent(p1, p2, m)
}

func (o *Orifice) tangent(pu, pd, m float64) (m0, gu, gd float64) {
	x := m / (o.c * pu)
	if !(x < shareByFlow*chokedX) {
		if pu < pd {
			m0, gd, gu = tangentByPressure(o.flow, pd, pu)
			return -m0, -gu, -gd
		}
		return tangentByPressure(o.flow, pu, pd)
	}
	var r, slope float64 // pressure ratio, and dx/dgap = −dx/dr
	if x < o.xNear {
		gap, zx := invertCubic(x, o.a1, o.a3)
		r, slope = 1-gap, 1/zx
	} else {
		r = math.Exp(3.5 * math.Log1p(-coolingAt(x*x)))
		_, slope = o.share(1 - r)
	}
	byFlow := -1 / (slope * o.c)
	return tangentByOutlet(pu, pd, m, pu*r, r-x*o.c*byFlow, byFlow)
}

// coolingAt finds 1 − t with t⁵(1 − t) = y, by Newton from t = 1, where the
// left side is concave.
func coolingAt(y float64) float64 {
	cool := y
	for range 30 {
		t := 1 - cool
		t4 := t * t * t * t
		step := (y - t4*t*cool) / (t4 * (6*t - 5))
		cool += step
		if math.Abs(step) < 1e-16*cool {
			break
		}
	}
	return cool
}
