package element

// NewCheck is a check valve given by C, b and m: the law of ISO 6358 with its
// cracking pressure (Pa), and no reverse flow.
func NewCheck(g Gas, s ISO6358Spec) (*ISO6358, error) {
	s.OneWay = true
	return NewISO6358(g, s)
}

// CheckK is a check valve given by its loss K on a bore: the law of a fitting
// between p1 less the cracking pressure and p2. No flow while p1 − Δpc ≤ p2, and
// none in reverse. Range and choking as Pipe, on the pressure left. Source: the
// spring takes its force off the upstream side, as in ISO 6358-1:2013.
type CheckK struct {
	loss  *Pipe
	crack float64 // Pa
}

// NewCheckK refuses what NewMinor does.
func NewCheckK(g Gas, bore, k, cracking float64) (*CheckK, error) {
	if err := within("cracking pressure", cracking, 0, maxCracking); err != nil {
		return nil, err
	}
	p, err := NewMinor(g, bore, k, k)
	if err != nil {
		return nil, err
	}
	return &CheckK{loss: p, crack: cracking}, nil
}

// maxCracking is above any check valve; a relief valve is not one.
const maxCracking = 1e7

// Flow follows the law above.
func (c *CheckK) Flow(p1, p2 float64) (m, d1, d2 float64) {
	if p1-c.crack <= p2 {
		return 0, 0, 0
	}
	return c.loss.Flow(p1-c.crack, p2)
}

// Area of the bore, m².
func (c *CheckK) Area() float64 { return c.loss.Area() }

// Passes tells that nothing flows back.
func (c *CheckK) Passes() (forward, reverse bool) { return true, false }

// Holds is the pressure behind the closed valve.
func (c *CheckK) Holds(p1 float64) float64 { return max(0, p1-c.crack) }

// Start is that of the open valve.
func (c *CheckK) Start(p float64) float64 { return c.loss.Start(p) }

// Tangent is that of the open valve while it flows or is pushed open.
func (c *CheckK) Tangent(p1, p2, m float64) (m0, g1, g2 float64) {
	left := p1 - c.crack
	if left <= pressureFloor || m <= 0 && left <= p2 {
		return 0, 0, 0
	}
	m0, g1, g2 = c.loss.Tangent(left, p2, max(m, 0))
	return m0, g1 * left / p1, g2
}
