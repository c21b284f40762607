package mip

import "math"

// tighten narrows bounds, closes open ones, and makes coefficients as small as whole
// points allow. It tells whether room is left.
func (m *model) tighten() bool {
	m.index()
	if !m.narrow(m.low, m.high) {
		return false
	}
	for j := range m.n {
		m.opened[j] = math.IsInf(m.low[j], 0) || math.IsInf(m.high[j], 0)
		m.low[j], m.high[j] = max(m.low[j], -farthest), min(m.high[j], farthest)
		if m.low[j] > m.high[j] {
			return false
		}
	}
	for i := range m.rows {
		m.lessen(i)
	}
	m.dropLoose()
	m.index()
	return m.narrow(m.low, m.high) && m.closeRows()
}

func (m *model) index() {
	m.touching = make([][]int, m.n)
	for i, row := range m.rows[:m.asked] {
		for _, e := range row {
			m.touching[e.Column] = append(m.touching[e.Column], i)
		}
	}
}

// closeRows gives each row the finite bounds that follow from its columns. A row
// without entries must allow zero.
func (m *model) closeRows() bool {
	for i, row := range m.rows {
		least, most := extremes(row, m.low, m.high)
		v := m.n + i
		if most < m.low[v]-slackOf(least, most) || least > m.high[v]+slackOf(least, most) {
			return false
		}
		m.low[v] = max(m.low[v], least)
		m.high[v] = max(min(m.high[v], most), m.low[v])
		if m.whole[v] {
			m.low[v], m.high[v] = math.Ceil(m.low[v]-tight), math.Floor(m.high[v]+tight)
		}
		if m.low[v] > m.high[v] {
			return false
		}
	}
	return true
}

func slackOf(least, most float64) float64 {
	return tight * (1 + max(math.Abs(least), math.Abs(most)))
}

// lessen works on a row "at least" (an "at most" is turned round first): what one step
// of a column gives beyond the whole row's lack is worth nothing, so the coefficient
// falls to that lack; and common divisors go, with the limit rounded up.
func (m *model) lessen(i int) {
	v := m.n + i
	if math.IsInf(m.low[v], -1) && !math.IsInf(m.high[v], 1) {
		for k := range m.rows[i] {
			m.rows[i][k].Value = -m.rows[i][k].Value
		}
		m.low[v], m.high[v] = -m.high[v], math.Inf(1)
	}
	least, _ := extremes(m.rows[i], m.low, m.high)
	lack := m.low[v] - least
	if !math.IsInf(m.high[v], 1) || math.Abs(least) > farthest || lack <= 1e-6*(1+math.Abs(m.low[v])) || math.IsInf(lack, 1) {
		return
	}
	for k, e := range m.rows[i] {
		j := e.Column
		if !m.whole[j] || math.Abs(e.Value) <= lack {
			continue
		}
		value, end := lack, m.low[j]
		if e.Value < 0 {
			value, end = -lack, m.high[j]
		}
		m.low[v] += (value - e.Value) * end
		m.rows[i][k].Value = value
	}
	m.divide(i)
}

func (m *model) divide(i int) {
	v, grid := m.n+i, 0.0
	m.whole[v] = true
	for _, e := range m.rows[i] {
		if !m.whole[e.Column] || e.Value != math.Round(e.Value) {
			m.whole[v] = false
			return
		}
		grid = greatestDivisor(grid, math.Abs(e.Value))
	}
	if grid == 0 || math.Abs(m.low[v]) > farthest {
		return
	}
	for k := range m.rows[i] {
		m.rows[i][k].Value /= grid
	}
	m.low[v] = math.Ceil(m.low[v]/grid - tight)
}

// dropLoose drops rows that the bounds of their columns hold by themselves.
func (m *model) dropLoose() {
	kept := 0
	for i, row := range m.rows {
		least, most := extremes(row, m.low, m.high)
		v := m.n + i
		if len(row) > 0 && least >= m.low[v] && most <= m.high[v] {
			continue
		}
		to := m.n + kept
		m.rows[kept], m.low[to], m.high[to], m.whole[to] = row, m.low[v], m.high[v], m.whole[v]
		kept++
	}
	m.rows = m.rows[:kept]
	m.low, m.high, m.whole = m.low[:m.n+kept], m.high[:m.n+kept], m.whole[:m.n+kept]
	m.asked = kept
}

// narrow tightens the bounds of columns (low, high, of which the first n entries are
// changed) by what each row leaves them. It tells whether room is left.
func (m *model) narrow(low, high []float64) bool {
	for range 8 {
		changed := false
		for i := range m.rows[:m.asked] {
			some, room := m.narrowRow(i, low, high)
			if !room {
				return false
			}
			changed = changed || some
		}
		if !changed {
			break
		}
	}
	return true
}

func (m *model) narrowRow(i int, low, high []float64) (changed, room bool) {
	row, v := m.rows[i], m.n+i
	least, most := extremes(row, low, high)
	if !math.IsInf(least, 0) && !math.IsInf(most, 0) {
		slack := slackOf(least, most)
		if most < m.low[v]-slack || least > m.high[v]+slack {
			return false, false
		}
		if least >= m.low[v] && most <= m.high[v] {
			return false, true
		}
	}
	for k, e := range row {
		from := m.low[v] - without(most, row, k, low, high, true)
		to := m.high[v] - without(least, row, k, low, high, false)
		some, room := m.narrowEntry(e, from, to, low, high)
		if !room {
			return true, false
		}
		if some {
			changed = true
			least, most = extremes(row, low, high)
		}
	}
	return changed, true
}

// without takes the share of entry k out of an extreme sum.
func without(sum float64, row []Entry, k int, low, high []float64, most bool) float64 {
	e := row[k]
	share := e.Value * low[e.Column]
	if (e.Value > 0) == most {
		share = e.Value * high[e.Column]
	}
	if !math.IsInf(share, 0) {
		return sum - share
	}
	rest := append(append([]Entry(nil), row[:k]...), row[k+1:]...)
	least, greatest := extremes(rest, low, high)
	if most {
		return greatest
	}
	return least
}

// narrowEntry holds one column to from <= value·x <= to.
func (m *model) narrowEntry(e Entry, from, to float64, low, high []float64) (changed, room bool) {
	j := e.Column
	from, to = from/e.Value, to/e.Value
	if e.Value < 0 {
		from, to = to, from
	}
	if m.whole[j] {
		from, to = math.Ceil(from-1e-7), math.Floor(to+1e-7)
	}
	// Small gains on continuous columns go on without end and help nothing.
	step := 1e-3 * (high[j] - low[j])
	if m.whole[j] {
		step = 0
	}
	if from > low[j]+step && (m.whole[j] || finite(from)) {
		low[j], changed = from, true
	}
	if to < high[j]-step && (m.whole[j] || finite(to)) {
		high[j], changed = to, true
	}
	if low[j] > high[j]+1e-9*(1+math.Abs(high[j])) {
		return changed, false
	}
	if low[j] > high[j] {
		low[j] = high[j]
	}
	return changed, true
}
