package element

// Linear is a law that gives its own tangent for a Newton step in the squares
// of pressure, at a state where flow and pressures need not fit each other yet.
// Laws with a square root at zero difference offer it: linearized at the
// flow instead of at the pressures they have no infinite slope, and a network
// of them converges in a handful of steps.
type Linear interface {
	Law
	// Tangent takes the end pressures (Pa) and the flow (kg/s) of the present
	// state and gives flow ≈ m0 + g1·δ(p1²) + g2·δ(p2²), with g1 ≥ 0 and
	// g2 ≤ 0. Where p1, p2 and m fit the law, m0 = m and the slopes are its own.
	Tangent(p1, p2, m float64) (m0, g1, g2 float64)
	// Start is a rough flow per difference of squared pressures, kg/(s·Pa²),
	// for a first guess near pressure p.
	Start(p float64) float64
}

// Directed is a law that can pass air only one way, or not at all. A law
// without it passes both ways.
type Directed interface {
	Law
	Passes() (forward, reverse bool)
	// Holds is, for a law that passes forward only, the least pressure p2 at
	// which nothing flows while p1 stands upstream: where a dead end fills to.
	Holds(p1 float64) float64
}

// Bored is a law with a bore of its own, for velocity and Mach number.
type Bored interface {
	Law
	Area() float64 // m²
}

// pressureFloor keeps tangents in squares of pressure finite at vacuum. At
// 1e-3 Pa no law here carries anything that matters.
const pressureFloor = 1e-3

// TangentByPressure is the tangent of any law at its end pressures.
func TangentByPressure(l Law, p1, p2 float64) (m0, g1, g2 float64) {
	return tangentByPressure(l.Flow, p1, p2)
}

func tangentByPressure(flow func(a, b float64) (m, da, db float64), pa, pb float64) (m0, ga, gb float64) {
	m0, da, db := flow(pa, pb)
	return m0, da / (2 * max(pa, pressureFloor)), db / (2 * max(pb, pressureFloor))
}

// tangentByOutlet is the tangent at the flow: out is the pressure downstream
// that goes with upstream pressure pu and the flow, byUp and byFlow (< 0) its
// slopes. It gives the flow from u to d and its slopes by both squares.
func tangentByOutlet(pu, pd, m, out, byUp, byFlow float64) (m0, gu, gd float64) {
	m0 = m + (pd-out)/byFlow
	gd = 1 / (byFlow * 2 * max(pd, pressureFloor))
	gu = -byUp / (byFlow * 2 * max(pu, pressureFloor))
	return m0, gu, gd
}
