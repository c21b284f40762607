package element

import "math"

// Rated is the loss of a filter, separator, dryer or aftercooler that is known
// at one flow and one pressure. The drop is a viscous and an inertial part, both
// in proportion to 1/ρ at the mean pressure,
//
//	p1² − p2² = 2 Δpr (pr − Δpr/2) ((1 − s) μ² + s μ),  μ = m/mr
//
// with Δpr Pa the drop at flow mr (kg/s) and inlet pressure pr (Pa absolute), s
// the share of it that is viscous. At the rated point it gives Δpr exactly. s is
// 0 for baffles and bends, near 1 for fine media; 0.5 where nothing is known
// (common practice). Loaded media have a Δpr of their own; flow at another
// temperature than the rating's shifts the drop by the ratio of densities, which
// the caller puts into Δpr. Range: Δp small against p; it has no choking, and at
// p2 = 0 passes what the equation gives. Reverse flow alike. With s = 0 the loss
// turns linear below 1e-3 of mr. Source: Forchheimer 1901 (recalled) for the sum
// of the two parts.
type Rated struct {
	scale  float64 // 2 Δpr (pr − Δpr/2), Pa²
	rated  float64 // kg/s
	linear float64 // s
}

const ratedCreep = 1e-3

// RatedSpec is what a Rated is made from.
type RatedSpec struct {
	Drop     float64 // Pa at the rated point
	Flow     float64 // kg/s
	Pressure float64 // Pa absolute, at the inlet
	Viscous  float64 // share of the drop that is linear in flow, 0 to 1
}

// NewRated refuses a drop that is not above zero or not below the pressure.
func NewRated(s RatedSpec) (*Rated, error) {
	if err := first(positive("rated drop", s.Drop, "rated flow", s.Flow, "rated pressure", s.Pressure),
		within("rated drop", s.Drop, 0, s.Pressure), within("viscous share", s.Viscous, 0, 1)); err != nil {
		return nil, err
	}
	return &Rated{scale: 2 * s.Drop * (s.Pressure - s.Drop/2), rated: s.Flow, linear: s.Viscous}, nil
}

// drop is p1² − p2² and its slope by m, for m ≥ 0.
func (r *Rated) drop(m float64) (h, slope float64) {
	mu := m / r.rated
	q := 1 - r.linear
	if mu < ratedCreep { // odd cubic, as for K in Pipe
		half := q / (2 * ratedCreep)
		c2 := ratedCreep * ratedCreep
		return r.scale * mu * (half*(c2+mu*mu) + r.linear), r.scale / r.rated * (half*(c2+3*mu*mu) + r.linear)
	}
	return r.scale * mu * (q*mu + r.linear), r.scale / r.rated * (2*q*mu + r.linear)
}

// Flow solves the equation for m.
func (r *Rated) Flow(p1, p2 float64) (m, d1, d2 float64) {
	if p1 < p2 {
		m, d2, d1 = r.Flow(p2, p1)
		return -m, -d1, -d2
	}
	y := (p1 - p2) * (p1 + p2) / r.scale
	q, s := 1-r.linear, r.linear
	mu := 2 * y / (s + math.Sqrt(s*s+4*q*y))
	if !(mu >= ratedCreep) { // also 0/0 at rest without a viscous part
		mu = ratedCreep / 2
		for range 40 {
			h, slope := r.drop(mu * r.rated)
			step := (y*r.scale - h) / (slope * r.rated)
			mu += step
			if math.Abs(step) <= 1e-16*ratedCreep {
				break
			}
		}
		mu = max(mu, 0)
		if y == 0 {
			mu = 0
		}
	}
	_, slope := r.drop(mu * r.rated)
	return mu * r.rated, 2 * p1 / slope, -2 * p2 / slope
}

// Start is that of the rated point.
func (r *Rated) Start(float64) float64 { return r.rated / r.scale }

// Tangent linearizes the equation at the flow.
func (r *Rated) Tangent(p1, p2, m float64) (m0, g1, g2 float64) {
	h, slope := r.drop(math.Abs(m))
	h = math.Copysign(h, m)
	return m + ((p1-p2)*(p1+p2)-h)/slope, 1 / slope, -1 / slope
}
