package mip

import (
	"errors"
	"fmt"
	"math"
)

// ErrProblem is wrapped by what is said of a problem that cannot be read: a column
// or row with limits that cross, a figure that is no number, an unknown column.
var ErrProblem = errors.New("mip: unusable problem")

// Column is one unknown: what a unit of it costs and the limits it keeps to. A limit
// may be infinite; such a column is sought within ±1e9.
type Column struct {
	Cost, Low, High float64
	Integer         bool
}

// Entry is one coefficient of a row.
type Entry struct {
	Column int
	Value  float64
}

// Row limits a weighted sum of columns. Either limit may be infinite; equal ones make
// an equation. Several entries of one column add up.
type Row struct {
	Entries   []Entry
	Low, High float64
}

// Problem asks for the least total cost.
type Problem struct {
	Columns []Column
	Rows    []Row
}

// farthest bounds columns that have no bound of their own.
const farthest = 1e9

func (p Problem) check() error {
	for j, c := range p.Columns {
		if !finite(c.Cost) || !ordered(c.Low, c.High) {
			return fmt.Errorf("%w: column %d: cost %g, limits %g to %g", ErrProblem, j, c.Cost, c.Low, c.High)
		}
	}
	for i, r := range p.Rows {
		if !ordered(r.Low, r.High) {
			return fmt.Errorf("%w: row %d: limits %g to %g", ErrProblem, i, r.Low, r.High)
		}
		for _, e := range r.Entries {
			if e.Column < 0 || e.Column >= len(p.Columns) || !finite(e.Value) {
				return fmt.Errorf("%w: row %d: %g of column %d", ErrProblem, i, e.Value, e.Column)
			}
		}
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// ordered tells limits that leave room: no NaN, no lower limit of +Inf, no upper of
// -Inf. Limits that merely cross make a problem without points, which is an answer.
func ordered(low, high float64) bool {
	return !math.IsNaN(low) && !math.IsNaN(high) && !math.IsInf(low, 1) && !math.IsInf(high, -1)
}

// keeps tells whether a point keeps to all limits of the problem as it was asked, up
// to a billionth of what is summed.
func (p Problem) keeps(x []float64) bool {
	for j, c := range p.Columns {
		slack := tight * (1 + math.Abs(x[j]))
		if x[j] < c.Low-slack || x[j] > c.High+slack || c.Integer && x[j] != math.Round(x[j]) {
			return false
		}
	}
	for _, r := range p.Rows {
		sum, size := 0.0, 1.0
		for _, e := range r.Entries {
			sum += e.Value * x[e.Column]
			size += math.Abs(e.Value * x[e.Column])
		}
		if sum < r.Low-tight*size || sum > r.High+tight*size {
			return false
		}
	}
	return true
}

// tight is the relative slack granted when a point is held against the rows.
const tight = 1e-9

func (p Problem) value(x []float64) float64 {
	sum := 0.0
	for j, c := range p.Columns {
		sum += c.Cost * x[j]
	}
	return sum
}
