package lp

// Cost gives the cost of the solution, tilts of the costs included.
func (p *Program) Cost() float64 { return p.basis.objective }

// Multipliers gives the price of one unit more of each row's right side. It is valid
// until the next change.
func (p *Program) Multipliers() []float64 { return p.basis.y }

// Reduced gives what each column costs beyond what its rows are worth.
func (p *Program) Reduced() []float64 { return p.basis.reduced }

// Each calls yield for every column that is not 0.
func (p *Program) Each(yield func(column int, value float64)) {
	for i, v := range p.basis.in {
		if v >= 0 && p.basis.x[i] > loose {
			yield(v, p.basis.x[i])
		}
	}
}
