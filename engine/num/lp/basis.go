package lp

import (
	"errors"
	"math"
)

// ErrNumeric says that rounding spoilt the basis beyond repair.
var ErrNumeric = errors.New("the basis of a linear programme became singular")

// Save copies the basis into an older one, whose memory it uses.
func (p *Program) Save(into *Basis) {
	b := &p.basis
	into.in = append(into.in[:0], b.in...)
	into.at = append(into.at[:0], b.at...)
	into.inverse = append(into.inverse[:0], b.inverse...)
	into.x = append(into.x[:0], b.x...)
	into.y = append(into.y[:0], b.y...)
	into.reduced = append(into.reduced[:0], b.reduced...)
	into.objective = b.objective
}

// Restore brings a saved basis back. Rows and columns must be those of the time when
// it was saved.
func (p *Program) Restore(from *Basis) {
	b := &p.basis
	if wide := len(from.inverse) / max(1, len(from.in)); wide != p.stride {
		p.restoreNarrow(from, wide)
	} else {
		b.inverse = append(b.inverse[:0], from.inverse...)
	}
	b.in = append(b.in[:0], from.in...)
	b.at = append(b.at[:0], from.at...)
	b.x = append(b.x[:0], from.x...)
	b.y = append(b.y[:0], from.y...)
	b.reduced = append(b.reduced[:0], from.reduced...)
	b.objective = from.objective
}

func (p *Program) restoreNarrow(from *Basis, wide int) {
	m := len(from.in)
	p.basis.inverse = p.basis.inverse[:m*p.stride]
	for i := range m {
		copy(p.basis.inverse[i*p.stride:i*p.stride+m], from.inverse[i*wide:i*wide+m])
	}
}

// values computes values, multipliers, reduced costs and cost from the inverse.
func (p *Program) values() {
	b, m := &p.basis, len(p.sense)
	clear(b.y)
	for i, v := range b.in {
		row := b.inverse[i*p.stride : i*p.stride+m]
		sum := 0.0
		for k, r := range p.right {
			sum += row[k] * r
		}
		b.x[i] = sum
		if c := p.price(v); c != 0 {
			for k := range row {
				b.y[k] += c * row[k]
			}
		}
	}
	b.objective = 0
	for k, r := range p.right {
		b.objective += b.y[k] * r
	}
	copy(b.reduced, p.cost)
	for k, cells := range p.rows {
		if y := b.y[k]; y != 0 {
			for _, c := range cells {
				b.reduced[c.col] -= y * c.value
			}
		}
	}
}

// refresh makes the inverse anew by elimination with row exchanges.
func (p *Program) refresh() error {
	m := len(p.sense)
	wide := 2 * m
	work := make([]float64, m*wide)
	for i, v := range p.basis.in {
		if v < 0 {
			work[ownRow(v)*wide+i] = p.sign(v)
		} else {
			for _, e := range p.cols[v] {
				work[e.Row*wide+i] += e.Value
			}
		}
		work[i*wide+m+i] = 1
	}
	for k := range m {
		if err := eliminate(work, wide, m, k); err != nil {
			return err
		}
	}
	for i := range m {
		copy(p.basis.inverse[i*p.stride:i*p.stride+m], work[i*wide+m:(i+1)*wide])
	}
	p.pivots = 0
	p.values()
	return nil
}

func eliminate(work []float64, wide, m, k int) error {
	best := k
	for i := k + 1; i < m; i++ {
		if math.Abs(work[i*wide+k]) > math.Abs(work[best*wide+k]) {
			best = i
		}
	}
	top := work[best*wide : (best+1)*wide]
	if math.Abs(top[k]) < 1e-11 {
		return ErrNumeric
	}
	if best != k {
		other := work[k*wide : (k+1)*wide]
		for c := range top {
			top[c], other[c] = other[c], top[c]
		}
		top = other
	}
	scale := 1 / top[k]
	for c := k; c < wide; c++ {
		top[c] *= scale
	}
	for i := range m {
		row := work[i*wide : (i+1)*wide]
		f := row[k]
		if i == k || f == 0 {
			continue
		}
		for c := k; c < wide; c++ {
			row[c] -= f * top[c]
		}
	}
	return nil
}

// pivot lets variable enter in row at, where column holds the entering column in terms
// of the basis and alpha the products of row at with all columns.
func (p *Program) pivot(at, enter int, column, alpha []float64, reduced, alphaEnter float64) {
	b, m := &p.basis, len(p.sense)
	top := b.inverse[at*p.stride : at*p.stride+m]
	step := reduced / alphaEnter
	b.objective += step * b.x[at]
	if step != 0 {
		for k := range top {
			b.y[k] += step * top[k]
		}
		for j, a := range alpha {
			b.reduced[j] -= step * a
		}
	}
	theta := b.x[at] / column[at]
	scale := 1 / column[at]
	for k := range top {
		top[k] *= scale
	}
	for i := range m {
		f := column[i]
		if i == at || f == 0 {
			continue
		}
		b.x[i] -= theta * f
		row := b.inverse[i*p.stride : i*p.stride+m]
		for k, t := range top {
			row[k] -= f * t
		}
	}
	b.x[at] = theta
	if out := b.in[at]; out >= 0 {
		b.at[out] = -1
	}
	b.in[at] = enter
	if enter >= 0 {
		b.at[enter] = int32(at)
		b.reduced[enter] = 0
	}
	p.pivots++
}

// ahead writes the column of a variable in terms of the basis.
func (p *Program) ahead(v int) []float64 {
	m := len(p.sense)
	column := p.work.column[:m]
	if v < 0 {
		k, sign := ownRow(v), p.sign(v)
		for i := range column {
			column[i] = sign * p.basis.inverse[i*p.stride+k]
		}
		return column
	}
	entries := p.cols[v]
	for i := range column {
		row := p.basis.inverse[i*p.stride : i*p.stride+m]
		sum := 0.0
		for _, e := range entries {
			sum += row[e.Row] * e.Value
		}
		column[i] = sum
	}
	return column
}

// across writes the products of one row of the inverse with every column.
func (p *Program) across(row []float64) []float64 {
	if cap(p.work.alpha) < len(p.cost) {
		p.work.alpha = make([]float64, len(p.cost), 2*len(p.cost))
	}
	alpha := p.work.alpha[:len(p.cost)]
	clear(alpha)
	for k, f := range row {
		if f == 0 {
			continue
		}
		for _, c := range p.rows[k] {
			alpha[c.col] += f * c.value
		}
	}
	return alpha
}
