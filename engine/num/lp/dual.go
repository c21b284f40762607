package lp

import (
	"context"
	"math"
)

// loose is how far a value may stand beyond its limit, costs and coefficients being
// about 1.
const loose = 1e-9

// afresh is how many pivots the inverse is trusted for.
const afresh = 120

// Dual solves from a basis whose reduced costs are not negative: a fresh one, or a
// solved one after rows or right sides changed. It stops early once the cost is sure
// to reach cutoff; the multipliers prove it then. Where rounding spoilt the basis it
// starts again from the slacks, and gives ErrNumeric when that happens twice.
func (p *Program) Dual(ctx context.Context, cutoff float64) error {
	mends := 0
	for {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if p.pivots >= afresh && p.refresh() != nil {
			p.Restart()
			mends++
		}
		at := p.worstRow()
		if at < 0 || p.basis.objective >= cutoff {
			return nil
		}
		alpha := p.across(p.basis.inverse[at*p.stride : at*p.stride+len(p.sense)])
		enter, reduced, alphaEnter := p.dualRatio(at, alpha)
		var column []float64
		if alphaEnter < 0 {
			column = p.ahead(enter)
		}
		if column == nil || math.Abs(column[at]-alphaEnter) > 1e-7*(1+math.Abs(alphaEnter)) {
			// Nothing can enter, which cannot be, or two ways to one figure disagree.
			switch mends++; {
			case mends > 4:
				return ErrNumeric
			case mends%2 == 0 || p.refresh() != nil:
				p.Restart()
			}
			continue
		}
		p.pivot(at, enter, column, alpha, reduced, alphaEnter)
	}
}

// worstRow gives the row whose value is most below 0 for the length of its inverse
// row, -1 when there is none.
func (p *Program) worstRow() int {
	best, at := 0.0, -1
	m := len(p.sense)
	for i, x := range p.basis.x {
		if x >= -loose {
			continue
		}
		norm := 0.0
		for _, v := range p.basis.inverse[i*p.stride : i*p.stride+m] {
			norm += v * v
		}
		if score := x * x / norm; score > best {
			best, at = score, i
		}
	}
	return at
}

// dualRatio chooses what enters: the variable whose reduced cost first comes to 0 as
// the row's multiplier grows. A row's bought-off part always can.
func (p *Program) dualRatio(at int, alpha []float64) (enter int, reduced, alphaEnter float64) {
	b := &p.basis
	least, enter := math.Inf(1), math.MinInt
	take := func(v int, cost, a float64) {
		ratio := max(cost, 0) / -a
		if ratio < least || ratio == least && -a > -alphaEnter {
			least, enter, reduced, alphaEnter = ratio, v, max(cost, 0), a
		}
	}
	for j, a := range alpha {
		if a < -1e-7 && b.at[j] < 0 {
			take(j, b.reduced[j], a)
		}
	}
	row := b.inverse[at*p.stride : at*p.stride+len(p.sense)]
	for k, f := range row {
		if math.Abs(f) < 1e-7 {
			continue
		}
		// Of a row's two own variables one has the right sign; where that one is in the
		// basis, its product is 0 but for this row, and it cannot be chosen.
		v := slack(k)
		if p.sign(v)*f > 0 {
			v = bought(k)
		}
		if p.basic(v) {
			continue
		}
		take(v, p.price(v)-p.sign(v)*b.y[k], p.sign(v)*f)
	}
	return enter, reduced, alphaEnter
}

// basic tells whether a row's own variable stands in the basis.
func (p *Program) basic(v int) bool {
	for _, in := range p.basis.in {
		if in == v {
			return true
		}
	}
	return false
}
