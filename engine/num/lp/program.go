package lp

import "math"

// Sense says on which side of its right side a row has to stay.
type Sense int8

// The two senses.
const (
	AtLeast Sense = iota
	AtMost
)

// Entry is one coefficient of a column.
type Entry struct {
	Row   int
	Value float64
}

// Program is a linear programme together with the basis of its last solution. Columns
// are numbered from 0 as they came. It is not safe for use by several goroutines.
type Program struct {
	penalty float64
	sense   []Sense
	right   []float64
	rows    [][]cell // row-wise coefficients, for whole-row products
	cols    [][]Entry
	cost    []float64 // as asked, plus a tiny tilt against ties
	basis   Basis
	stride  int // length of a row of the inverse in memory
	work    scratch
	pivots  int // since the inverse was last made afresh
}

type cell struct {
	col   int32
	value float64
}

type scratch struct {
	alpha, column []float64
}

// Basis is a solution to come back to: which variable stands in each row, the inverse
// of their columns, and the values and multipliers that follow.
type Basis struct {
	in        []int   // variable of each row: column, or below 0 an own one of a row
	at        []int32 // row of each column, -1 when it is out of the basis
	inverse   []float64
	x, y      []float64
	reduced   []float64 // per column
	objective float64
}

// slack and bought are the two variables that each row owns: what it is over or under
// its right side, and what is bought off at the penalty.
func slack(row int) int  { return -1 - 2*row }
func bought(row int) int { return -2 - 2*row }

func ownRow(v int) int    { return (-1 - v) / 2 }
func isBought(v int) bool { return v < 0 && (-v)%2 == 0 }

// sign gives the coefficient of a row's own variable in that row.
func (p *Program) sign(v int) float64 {
	if (p.sense[ownRow(v)] == AtMost) == isBought(v) {
		return -1
	}
	return 1
}

func (p *Program) price(v int) float64 {
	switch {
	case v >= 0:
		return p.cost[v]
	case isBought(v):
		return p.penalty
	}
	return 0
}

// spare rows are kept free in the inverse, so that a search can add rows without
// moving it.
const spare = 48

// New gives a programme without columns. Costs of columns should be about 1, and the
// penalty well above the cost of any solution.
func New(sense []Sense, right []float64, penalty float64) *Program {
	m := len(sense)
	p := &Program{
		penalty: penalty, sense: append([]Sense(nil), sense...), right: append([]float64(nil), right...),
		rows: make([][]cell, m), stride: m + spare,
	}
	p.work.column = make([]float64, m+spare)
	p.Restart()
	return p
}

// Restart puts the slack of each row into the basis.
func (p *Program) Restart() {
	m := len(p.sense)
	b := &p.basis
	b.in = make([]int, m, p.stride)
	b.x, b.y = make([]float64, m, p.stride), make([]float64, m, p.stride)
	b.inverse = make([]float64, m*p.stride, p.stride*p.stride)
	b.at = make([]int32, len(p.cost))
	b.reduced = append([]float64(nil), p.cost...)
	for j := range b.at {
		b.at[j] = -1
	}
	for i := range m {
		b.in[i] = slack(i)
		b.inverse[i*p.stride+i] = p.sign(slack(i))
	}
	p.pivots = 0
	p.values()
}

// tilt is the largest relative change of a cost that keeps ties apart.
const tilt = 2e-9

// AddColumn adds a column and gives its number. Its cost is raised by less than one
// part in ten million, differently for each, so that few choices are ties.
func (p *Program) AddColumn(cost float64, entries []Entry) int {
	j := len(p.cost)
	// The golden ratio's multiples are spread evenly and never repeat.
	_, spread := math.Modf(float64(j+1) * math.Phi)
	cost += tilt * (0.5 + 0.5*spread)
	p.cost = append(p.cost, cost)
	p.cols = append(p.cols, entries)
	reduced := cost
	for _, e := range entries {
		p.rows[e.Row] = append(p.rows[e.Row], cell{int32(j), e.Value})
		reduced -= p.basis.y[e.Row] * e.Value
	}
	p.basis.at = append(p.basis.at, -1)
	p.basis.reduced = append(p.basis.reduced, reduced)
	return j
}

// AddRow adds a row that sums the given columns, each as often as it is named. The solution stays the
// same; it may now break the new row, which Dual puts right.
func (p *Program) AddRow(sense Sense, right float64, members []int) {
	i := len(p.sense)
	if i == p.stride {
		p.widen()
	}
	p.sense = append(p.sense, sense)
	p.right = append(p.right, right)
	row := make([]cell, len(members))
	b := &p.basis
	b.inverse = b.inverse[:(i+1)*p.stride]
	last := b.inverse[i*p.stride : (i+1)*p.stride]
	clear(last)
	sign := p.sign(slack(i))
	sum := 0.0
	for k, j := range members {
		row[k] = cell{int32(j), 1}
		p.cols[j] = append(p.cols[j], Entry{i, 1})
		if at := int(b.at[j]); at >= 0 {
			sum += b.x[at]
			for c, v := range b.inverse[at*p.stride : at*p.stride+i] {
				last[c] -= sign * v
			}
		}
	}
	last[i] = sign
	p.rows = append(p.rows, row)
	b.in = append(b.in, slack(i))
	b.x = append(b.x, (right-sum)*sign)
	b.y = append(b.y, 0)
}

// DropRow takes the last row away again. The basis that stood before AddRow has to be
// brought back by Restore.
func (p *Program) DropRow() {
	last := len(p.sense) - 1
	for _, c := range p.rows[last] {
		p.cols[c.col] = p.cols[c.col][:len(p.cols[c.col])-1]
	}
	p.sense, p.right, p.rows = p.sense[:last], p.right[:last], p.rows[:last]
}

func (p *Program) widen() {
	m, wide := len(p.sense), p.stride+spare
	inverse := make([]float64, m*wide, wide*wide)
	for i := range m {
		copy(inverse[i*wide:i*wide+m], p.basis.inverse[i*p.stride:i*p.stride+m])
	}
	p.basis.inverse, p.stride = inverse, wide
	p.work.column = make([]float64, wide)
}

// SetRight changes the right side of a row; Dual solves again.
func (p *Program) SetRight(row int, right float64) {
	change := right - p.right[row]
	p.right[row] = right
	for i := range p.basis.x {
		p.basis.x[i] += change * p.basis.inverse[i*p.stride+row]
	}
	p.basis.objective += change * p.basis.y[row]
}

// Right gives the right side of a row.
func (p *Program) Right(row int) float64 { return p.right[row] }
