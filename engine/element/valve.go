package element

// Shut is a closed valve, a cap or a missing piece: nothing flows, whatever the
// pressures.
type Shut struct{}

// Flow is zero.
func (Shut) Flow(float64, float64) (m, d1, d2 float64) { return 0, 0, 0 }

// Passes tells that nothing does.
func (Shut) Passes() (forward, reverse bool) { return false, false }

// Holds is vacuum: nothing ever comes through.
func (Shut) Holds(float64) float64 { return 0 }

// NewMinor is a fitting, an open valve or one leg of a tee: loss K on the given
// bore in each direction, without length. It is a Pipe of no length and keeps
// that law's range, choking and creeping flow. A tee is three of these around an
// inner node, each with the K of its leg by direction.
func NewMinor(g Gas, bore, k, kReverse float64) (*Pipe, error) {
	return NewPipe(g, PipeSpec{Bore: bore, K: k, KReverse: kReverse, HasReverse: true})
}

// NewValve is a valve: NewMinor when open, Shut when not.
func NewValve(g Gas, bore, k float64, open bool) (Law, error) {
	p, err := NewMinor(g, bore, k, k)
	if err != nil {
		return nil, err
	}
	if !open {
		return Shut{}, nil
	}
	return p, nil
}
