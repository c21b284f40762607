package element

// LeakSpec tells a leak by its share of a supply.
type LeakSpec struct {
	Fraction   float64 // of Supply
	Supply     float64 // kg/s
	Pressure   float64 // Pa absolute, at which the leak takes that share
	Atmosphere float64 // Pa
	Cd         float64
}

// NewLeak is the orifice through which the given fraction of a supply is lost at
// a pressure. It follows pressure as an Orifice does; where leaks are many, this
// is their sum seen at one place. A leak by bore is NewOrifice.
func NewLeak(g Gas, s LeakSpec) (*Orifice, error) {
	if err := first(g.check(), positive("supply", s.Supply, "pressure", s.Pressure, "cd", s.Cd), upTo("fraction", s.Fraction, 1),
		within("atmosphere", s.Atmosphere, 0, s.Pressure)); err != nil {
		return nil, err
	}
	m, _, _ := newOrifice(g, 1, s.Cd).Flow(s.Pressure, s.Atmosphere)
	if m <= 0 {
		return nil, &ParamError{"pressure", s.Pressure, "more than the atmosphere"}
	}
	return newOrifice(g, s.Fraction*s.Supply/m, s.Cd), nil
}
