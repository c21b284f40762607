package mip

import "math"

// model is the problem in working form: min cost·x, and for each row its sum as a
// variable of its own, so that rows have bounds as columns do. Variables are numbered
// columns first (0 … n-1), then rows. All bounds are finite.
type model struct {
	n         int
	cost      []float64
	rows      [][]Entry
	low, high []float64 // per variable
	whole     []bool    // per variable: takes whole values only
	asked     int       // rows that came with the problem; cuts stand behind them
	grid      float64   // all costs of points are multiples of it; 0 when nothing is known
	opened    []bool    // per column: a bound was missing
	touching  [][]int   // per column: rows that hold it
}

// newModel tells by its second value whether every limit leaves room.
func newModel(p Problem) (*model, bool) {
	n := len(p.Columns)
	m := &model{n: n, cost: make([]float64, n), opened: make([]bool, n)}
	for j, c := range p.Columns {
		low, high := c.Low, c.High
		if c.Integer {
			low, high = math.Ceil(low-tight), math.Floor(high+tight)
		}
		m.cost[j] = c.Cost
		m.low, m.high = append(m.low, low), append(m.high, high)
		m.whole = append(m.whole, c.Integer)
		if low > high {
			return nil, false
		}
	}
	for _, r := range p.Rows {
		if r.Low > r.High {
			return nil, false
		}
		m.addRow(gather(r.Entries), r.Low, r.High)
	}
	m.asked = len(m.rows)
	m.grid = m.costGrid()
	return m, true
}

// gather adds up the entries of each column and drops those that cancel out.
func gather(entries []Entry) []Entry {
	at := map[int]int{}
	var sums []Entry
	for _, e := range entries {
		if k, ok := at[e.Column]; ok {
			sums[k].Value += e.Value
			continue
		}
		at[e.Column] = len(sums)
		sums = append(sums, e)
	}
	kept := sums[:0]
	for _, e := range sums {
		if e.Value != 0 {
			kept = append(kept, e)
		}
	}
	return kept
}

func (m *model) addRow(entries []Entry, low, high float64) {
	whole := true
	for _, e := range entries {
		whole = whole && m.whole[e.Column] && e.Value == math.Round(e.Value)
	}
	m.rows = append(m.rows, entries)
	m.low, m.high = append(m.low, low), append(m.high, high)
	m.whole = append(m.whole, whole)
}

// costGrid finds the greatest step that divides all costs, when they are whole
// numbers on whole columns.
func (m *model) costGrid() float64 {
	grid := 0.0
	for j, c := range m.cost {
		if c == 0 {
			continue
		}
		if !m.whole[j] || c != math.Round(c) || math.Abs(c) > 1e12 {
			return 0
		}
		grid = greatestDivisor(grid, math.Abs(c))
	}
	return grid
}

func greatestDivisor(a, b float64) float64 {
	for b != 0 {
		a, b = b, math.Mod(a, b)
	}
	return a
}

// extremes gives the least and the greatest sum that the bounds of its columns allow
// a row.
func extremes(row []Entry, low, high []float64) (least, most float64) {
	for _, e := range row {
		if e.Value > 0 {
			least += e.Value * low[e.Column]
			most += e.Value * high[e.Column]
			continue
		}
		least += e.Value * high[e.Column]
		most += e.Value * low[e.Column]
	}
	return least, most
}
