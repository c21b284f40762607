package buy

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/num/mip"
)

// Line is one offer and how often it is bought.
type Line struct {
	Offer string
	Times int
	Cost  Money
}

// Delivery is what one supplier that is used charges, and for goods of what value.
type Delivery struct {
	Supplier string
	Goods    Money
	Charge   Money // 0 when there is none or the goods reach the sum
}

// Basket is an answer with its proof. Lines and deliveries stand in the order of the
// question.
type Basket struct {
	Lines      []Line
	Deliveries []Delivery
	Price      Money
	Bound      Money              // no basket costs less
	Proven     bool               // Price equals Bound
	Left       map[string]float64 // of what is bought, how much no need asks for
	Nodes      int                // parts of the search that were looked at
}

// Alone is the cheapest basket from one supplier.
type Alone struct {
	Supplier string
	Basket
}

// OneSupplier gives, for each supplier that can cover the need alone, its cheapest
// basket; the cheapest first, then as listed. The list is empty when none can.
func OneSupplier(ctx context.Context, q Question) ([]Alone, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	var list []Alone
	for _, s := range q.Suppliers {
		own := q
		own.Suppliers, own.Offers = []Supplier{s}, nil
		for _, o := range q.Offers {
			if o.Supplier == s.ID {
				own.Offers = append(own.Offers, o)
			}
		}
		b, err := cheapest(ctx, own)
		var short *UncoveredError
		if errors.As(err, &short) {
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("from %s alone: %w", s.ID, err)
		}
		list = append(list, Alone{s.ID, b})
	}
	slices.SortStableFunc(list, func(a, b Alone) int { return cmp.Compare(a.Price, b.Price) })
	return list, nil
}

// Cheapest gives the basket of least price. When ctx ends first, it gives the best
// one found so far, not proven.
func Cheapest(ctx context.Context, q Question) (Basket, error) {
	if err := q.check(); err != nil {
		return Basket{}, err
	}
	return cheapest(ctx, q)
}

func cheapest(ctx context.Context, q Question) (Basket, error) {
	p, err := newProgramme(q)
	if err != nil {
		return Basket{}, err
	}
	r, err := mip.Solve(ctx, p.problem, mip.Options{Step: p.step()})
	if err != nil {
		return Basket{}, err
	}
	if r.X == nil {
		return Basket{}, ErrNoTime
	}
	times := make([]int, len(p.offers))
	for j := range times {
		times[j] = int(math.Round(r.X[j]))
	}
	p.gather(times)
	b := p.basket(times)
	b.Nodes = r.Nodes
	// The ranks of a basket come to less than one unit: what costs r.Bound with them
	// costs no less than the whole units of it.
	b.Bound = min(b.Price, Money(math.Floor(max(r.Bound, 0)/p.unit)))
	b.Proven = b.Price == b.Bound
	return b, nil
}

// basket counts everything anew from how often each offer is bought.
func (p *programme) basket(counts []int) Basket {
	b := Basket{Left: map[string]float64{}}
	goods := map[string]Money{}
	bought := map[string]float64{}
	for j, k := range p.offers {
		o, times := p.q.Offers[k], counts[j]
		if times == 0 {
			continue
		}
		cost := o.Price * Money(times)
		b.Lines = append(b.Lines, Line{o.ID, times, cost})
		b.Price += cost
		goods[o.Supplier] += cost
		for article, n := range o.Contains {
			bought[article] += n * float64(times)
		}
	}
	for _, s := range p.q.Suppliers {
		value, used := goods[s.ID]
		if !used {
			continue
		}
		d := Delivery{Supplier: s.ID, Goods: value, Charge: s.Delivery}
		if s.FreeFrom > 0 && value >= s.FreeFrom {
			d.Charge = 0
		}
		b.Price += d.Charge
		b.Deliveries = append(b.Deliveries, d)
	}
	for _, l := range p.lacks {
		bought[l.article] -= l.amount
	}
	for article, n := range bought {
		if n >= leastAmount {
			b.Left[article] = n
		}
	}
	return b
}
