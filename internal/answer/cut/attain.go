package cut

import (
	"cmp"
	"math"
	"slices"
)

// attainSteps bounds how many sums of bars are looked at for one bound.
const attainSteps = 50_000

// attain gives the least price, not below a given one, that whole bars add up to whose
// lengths together hold all pieces: no plan costs anything in between. Where the sums are
// too many to look at, the price itself stands.
func (s *shape) attain(price int64) int64 {
	a := attainer{least: price, best: math.MaxInt64, steps: attainSteps}
	need := s.joint.size
	for _, k := range s.kinds {
		need += k.size * int64(k.need)
	}
	for _, b := range s.bars {
		if b.price <= 0 {
			need -= b.room * int64(b.most)
			continue
		}
		a.bars = append(a.bars, b)
	}
	if len(a.bars) == 0 {
		return price
	}
	slices.SortStableFunc(a.bars, func(x, y bar) int { return cmp.Compare(y.price, x.price) })
	a.try(0, 0, max(0, need))
	if a.steps <= 0 || a.best == math.MaxInt64 {
		return price
	}
	return max(price, a.best)
}

type attainer struct {
	bars  []bar // the dearer first
	least int64 // price from which sums count
	best  int64
	steps int
}

// try adds up bars from one on, with so much paid and so much length still to find.
func (a *attainer) try(from int, paid, need int64) {
	if a.steps--; a.steps <= 0 || paid >= a.best {
		return
	}
	b := a.bars[from]
	if from == len(a.bars)-1 {
		n := max(ceilDiv(max(0, need), b.room), ceilDiv(max(0, a.least-paid), b.price))
		if n <= int64(b.most) {
			a.best = min(a.best, paid+n*b.price)
		}
		return
	}
	for n := int64(0); n <= int64(b.most); n++ {
		sum := paid + n*b.price
		if sum >= a.best {
			return
		}
		a.try(from+1, sum, need-n*b.room)
		if need-n*b.room <= 0 && sum >= a.least {
			return // more of it only costs
		}
	}
}
