package find

import "dropleg/engine/element"

// scaled is an element that passes the share by of what its law passes between
// the same pressures: a restriction where by is below 1, a tool that asks for
// more where it is above. Monotone as the law itself is.
type scaled struct {
	law element.Law
	by  float64
}

// Flow is that of the law, scaled.
func (s scaled) Flow(p1, p2 float64) (m, d1, d2 float64) {
	m, d1, d2 = s.law.Flow(p1, p2)
	return m * s.by, d1 * s.by, d2 * s.by
}

// Passes is as the law passes.
func (s scaled) Passes() (forward, reverse bool) {
	if d, ok := s.law.(element.Directed); ok {
		return d.Passes()
	}
	return true, true
}

// Holds is as the law holds.
func (s scaled) Holds(p1 float64) float64 {
	if d, ok := s.law.(element.Directed); ok {
		return d.Holds(p1)
	}
	return p1
}

// Start is that of the law, scaled; a law without one is taken a tenth of the
// pressure down.
func (s scaled) Start(p float64) float64 {
	if l, ok := s.law.(element.Linear); ok {
		return l.Start(p) * s.by
	}
	m, _, _ := s.law.Flow(p, 0.9*p)
	return max(m*s.by, 1e-12) / (0.19 * max(p*p, 1e-6))
}

// Tangent is that of the law at its share of the flow.
func (s scaled) Tangent(p1, p2, m float64) (m0, g1, g2 float64) {
	if l, ok := s.law.(element.Linear); ok {
		m0, g1, g2 = l.Tangent(p1, p2, m/s.by)
	} else {
		m0, g1, g2 = element.TangentByPressure(s.law, p1, p2)
	}
	return m0 * s.by, g1 * s.by, g2 * s.by
}
