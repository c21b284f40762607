package sparse

// Matrix holds the values over a pattern, in the caller's numbering: Diag[i]
// is a(i,i); edge e from i to j has a(i,j) = Off[2e] and a(j,i) = Off[2e+1].
// Values of parallel edges add up; those of a loop are not looked at.
type Matrix struct {
	Diag, Off []float64
}

// Factor is the LU factorization of one matrix, and the room to make the next.
// It belongs to one goroutine at a time.
type Factor struct {
	p        *Pattern
	upper    []float64 // rows of U beyond the diagonal, as p.up
	lower    []float64 // columns of L beyond the diagonal, as p.up
	inverse  []float64 // 1 / diagonal of U
	work     []float64
	filledTo []int32
}

// NewFactor makes room for factors over p.
func NewFactor(p *Pattern) *Factor {
	floats := make([]float64, 2*len(p.up)+2*p.n)
	u := len(p.up)
	return &Factor{
		p: p, upper: floats[:u:u], lower: floats[u : 2*u : 2*u],
		inverse: floats[2*u : 2*u+p.n : 2*u+p.n], work: floats[2*u+p.n:],
		filledTo: make([]int32, p.n),
	}
}

// Factorize computes L and U of m, row by row (Doolittle). A zero pivot, which
// a matrix as promised cannot have, is taken as an equation that determines
// nothing: its unknown stays zero.
func (f *Factor) Factorize(m *Matrix) {
	p, w := f.p, f.work
	copy(f.filledTo, p.upPtr)
	for i := range p.n {
		for q := p.rowPtr[i]; q < p.rowPtr[i+1]; q++ {
			w[p.rowCol[q]] += m.Off[p.rowVal[q]]
		}
		w[i] = m.Diag[p.perm[i]]
		f.eliminateRow(i)
		pivot := w[i]
		w[i] = 0
		f.inverse[i] = 0
		if pivot != 0 {
			f.inverse[i] = 1 / pivot
		}
		first := p.upPtr[i]
		row := f.upper[first:p.upPtr[i+1]]
		for q, j := range p.up[first:p.upPtr[i+1]] {
			row[q] = w[j]
			w[j] = 0
		}
	}
}

// eliminateRow takes the rows above out of row i, which stands in f.work. Up
// to four rows of equal pattern go in one sweep: the work row is then read and
// written once for four updates, which is where the time goes.
func (f *Factor) eliminateRow(i int) {
	p, w := f.p, f.work
	low := p.low[p.lowPtr[i]:p.lowPtr[i+1]]
	for at := 0; at < len(low); {
		k := low[at]
		count := 1
		for count < 4 && at+count < len(low) && p.run[k+int32(count)-1] {
			count++
		}
		at += count
		if count == 4 {
			f.sweepFour(k, w)
			continue
		}
		for c := range int32(count) {
			f.sweepOne(k+c, w)
		}
	}
}

// multiplier finishes entry k of the work row and files it as entry of L.
func (f *Factor) multiplier(k int32, w []float64) float64 {
	l := w[k] * f.inverse[k]
	w[k] = 0
	f.lower[f.filledTo[k]] = l
	f.filledTo[k]++
	return l
}

func (f *Factor) sweepOne(k int32, w []float64) {
	l := f.multiplier(k, w)
	from, to := f.p.upPtr[k], f.p.upPtr[k+1]
	cols := f.p.up[from:to]
	vals := f.upper[from:to]
	vals = vals[:len(cols)]
	for q, j := range cols {
		w[j] -= l * vals[q]
	}
}

// sweepFour applies rows k..k+3, of which each has the pattern of the next
// with the next's own number on top.
func (f *Factor) sweepFour(k int32, w []float64) {
	ptr := f.p.upPtr
	u0 := f.upper[ptr[k]:ptr[k+1]]
	u1 := f.upper[ptr[k+1]:ptr[k+2]]
	u2 := f.upper[ptr[k+2]:ptr[k+3]]
	u3 := f.upper[ptr[k+3]:ptr[k+4]]
	l0 := f.multiplier(k, w)
	w[k+1] -= l0 * u0[0]
	l1 := f.multiplier(k+1, w)
	w[k+2] -= l0*u0[1] + l1*u1[0]
	l2 := f.multiplier(k+2, w)
	w[k+3] -= l0*u0[2] + l1*u1[1] + l2*u2[0]
	l3 := f.multiplier(k+3, w)
	cols := f.p.up[ptr[k+3]:ptr[k+4]]
	u0, u1, u2, u3 = u0[3:], u1[2:], u2[1:], u3[:len(cols)]
	u0, u1, u2 = u0[:len(cols)], u1[:len(cols)], u2[:len(cols)]
	for q, j := range cols {
		w[j] -= (l0*u0[q] + l1*u1[q]) + (l2*u2[q] + l3*u3[q])
	}
}

// Solve replaces b by x with A x = b.
func (f *Factor) Solve(b []float64) {
	p, w := f.p, f.work
	for k, v := range p.perm {
		w[k] = b[v]
	}
	for k := range p.n {
		if y := w[k]; y != 0 {
			from, to := p.upPtr[k], p.upPtr[k+1]
			vals := f.lower[from:to]
			for q, i := range p.up[from:to] {
				w[i] -= vals[q] * y
			}
		}
	}
	for k := p.n - 1; k >= 0; k-- {
		from, to := p.upPtr[k], p.upPtr[k+1]
		vals := f.upper[from:to]
		s := w[k]
		for q, j := range p.up[from:to] {
			s -= vals[q] * w[j]
		}
		w[k] = s * f.inverse[k]
	}
	f.hand(b)
}

// SolveTransposed replaces b by x with Aᵀ x = b.
func (f *Factor) SolveTransposed(b []float64) {
	p, w := f.p, f.work
	for k, v := range p.perm {
		w[k] = b[v]
	}
	for k := range p.n {
		w[k] *= f.inverse[k]
		if y := w[k]; y != 0 {
			from, to := p.upPtr[k], p.upPtr[k+1]
			vals := f.upper[from:to]
			for q, j := range p.up[from:to] {
				w[j] -= vals[q] * y
			}
		}
	}
	for k := p.n - 1; k >= 0; k-- {
		from, to := p.upPtr[k], p.upPtr[k+1]
		vals := f.lower[from:to]
		s := w[k]
		for q, i := range p.up[from:to] {
			s -= vals[q] * w[i]
		}
		w[k] = s
	}
	f.hand(b)
}

// hand gives the work row back in the caller's numbering and clears it.
func (f *Factor) hand(b []float64) {
	for k, v := range f.p.perm {
		b[v] = f.work[k]
		f.work[k] = 0
	}
}
