package lp

import (
	"context"
	"math"
)

// patience is how many pivots in a row may leave the cost as it is before Primal
// begins afresh by Dual.
const patience = 200

// Primal solves from a basis whose values are not negative: a solved one after columns
// came in. Where it stalls it starts again from the slacks.
func (p *Program) Primal(ctx context.Context) error {
	idle := 0
	for {
		if p.pivots >= afresh && p.refresh() != nil {
			p.Restart()
			return p.Dual(ctx, math.Inf(1))
		}
		if ctx.Err() != nil {
			return ctx.Err()
		}
		enter, reduced := p.cheapest()
		if reduced >= -loose {
			return nil
		}
		column := p.ahead(enter)
		at := p.primalRatio(column)
		if at < 0 || idle > patience {
			p.Restart()
			return p.Dual(ctx, math.Inf(1))
		}
		if p.basis.x[at] <= loose {
			idle++
		} else {
			idle = 0
		}
		alpha := p.across(p.basis.inverse[at*p.stride : at*p.stride+len(p.sense)])
		p.pivot(at, enter, column, alpha, reduced, column[at])
	}
}

// cheapest gives the variable outside the basis with the least reduced cost.
func (p *Program) cheapest() (enter int, reduced float64) {
	b := &p.basis
	for j, r := range b.reduced {
		if r < reduced && b.at[j] < 0 {
			enter, reduced = j, r
		}
	}
	for k, y := range b.y {
		for _, v := range [2]int{slack(k), bought(k)} {
			if r := p.price(v) - p.sign(v)*y; r < reduced-loose && !p.basic(v) {
				enter, reduced = v, r
			}
		}
	}
	return enter, reduced
}

// primalRatio gives the row whose value first comes to 0 as the variable enters, -1
// when none does.
func (p *Program) primalRatio(column []float64) int {
	least, at := math.Inf(1), -1
	for i, c := range column {
		if c < 1e-9 {
			continue
		}
		ratio := max(p.basis.x[i], 0) / c
		if ratio < least-1e-12 || ratio <= least+1e-12 && c > column[at] {
			least, at = ratio, i
		}
	}
	return at
}
