package element

// Regulator is a pressure regulator that does not relieve: outlet pressure
// falls from the set pressure in proportion to flow, until the valve is wide
// open and the law of ISO 6358 by C and b holds,
//
//	m = min( (ps − p2)/droop , wide open flow(p1, p2) ), never below zero
//
// ps Pa absolute, droop Pa·s/kg. Range: steady flow; hysteresis (some 0.1 bar
// for shop regulators) and the effect of p1 on the set pressure are left out, so
// each widens the answer by as much. No reverse flow: with p2 above ps or p1 the
// valve is shut (a shop regulator without relief; one that relieves blows p2 off
// to the atmosphere, which is an outflow of its own). A droop of zero is taken as
// 1e-8 of ps at the flow that chokes under ps, to keep the slope finite. Source:
// proportional band of a spring-loaded regulator, ISO 6953-1 (recalled).
type Regulator struct {
	set, droop float64
	open       *ISO6358
}

// RegulatorSpec is what a Regulator is made from.
type RegulatorSpec struct {
	Set   float64 // Pa absolute, at no flow
	Droop float64 // Pa·s/kg
	C, B  float64 // wide open
	Index float64 // of the wide-open law; 0 means 0.5
}

const leastDroop = 1e-8

// NewRegulator refuses figures outside the range of the law.
func NewRegulator(g Gas, s RegulatorSpec) (*Regulator, error) {
	if err := first(upTo("set pressure", s.Set, mostPressure), within("droop", s.Droop, 0, mostDroop)); err != nil {
		return nil, err
	}
	open, err := NewISO6358(g, ISO6358Spec{C: s.C, B: s.B, Index: s.Index, OneWay: true})
	if err != nil {
		return nil, err
	}
	return &Regulator{set: s.Set, droop: max(s.Droop, leastDroop/open.c), open: open}, nil
}

// Flow follows the equation above.
func (r *Regulator) Flow(p1, p2 float64) (m, d1, d2 float64) {
	if p2 >= r.set || p2 >= p1 {
		return 0, 0, 0
	}
	m, d1, d2 = r.open.Flow(p1, p2)
	if held := (r.set - p2) / r.droop; held < m {
		return held, 0, -1 / r.droop
	}
	return m, d1, d2
}

// Passes tells that nothing flows back.
func (r *Regulator) Passes() (forward, reverse bool) { return true, false }

// Holds is the set pressure, or what there is upstream.
func (r *Regulator) Holds(p1 float64) float64 { return min(r.set, p1) }

// Start is that of the valve wide open.
func (r *Regulator) Start(p float64) float64 { return r.open.Start(p) }

// Tangent takes the branch that gives less pressure at the present flow; near
// choking, where flow no longer tells the pressure, that at the pressures.
func (r *Regulator) Tangent(p1, p2, m float64) (m0, g1, g2 float64) {
	most := r.open.c * p1
	m = max(m, 0)
	switch {
	case m == 0 && p2 >= min(r.set, p1):
		return 0, 0, 0
	case m >= shareByFlow*most:
		return TangentByPressure(r, p1, p2)
	}
	held := r.set - r.droop*m
	if gap := p1 - held; gap > 0 {
		x, z := 1.0, gap/((1-r.open.b)*p1)
		if z < 1 {
			x, _ = r.open.share(z)
		}
		if x*most >= m { // at the held pressure the valve could pass more
			return (r.set - p2) / r.droop, 0, -1 / (r.droop * 2 * max(p2, pressureFloor))
		}
	}
	return r.open.Tangent(p1, p2, m)
}

// SetTo is the same regulator with its screw turned to another set pressure, Pa absolute.
func (r *Regulator) SetTo(set float64) *Regulator {
	turned := *r
	turned.set = max(0, set)
	return &turned
}

// Set is its set pressure, Pa absolute.
func (r *Regulator) Set() float64 { return r.set }
