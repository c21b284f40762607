package buy

import "math"

// mostCost keeps the ranked costs of a whole basket where a float64 counts by ones.
const mostCost = 1e14

// favour ranks baskets of the same price: fewer suppliers that charge delivery come
// first, then what brings less. Prices are multiplied by unit, so that all ranks
// together weigh less than one hundredth. Where the sums are too large for that, the
// order among equals is left open.
func (p *programme) favour() {
	rank := make([]float64, len(p.problem.Columns))
	total, dearest := 0.0, 0.0
	for j, k := range p.offers {
		o, c := p.q.Offers[k], p.problem.Columns[j]
		for _, article := range sortedKeys(o.Contains) {
			rank[j] += math.Round(o.Contains[article])
		}
		total += rank[j] * c.High
		dearest += c.Cost * c.High
	}
	for _, st := range p.states {
		rank[st.charging] = total
		if st.free >= 0 {
			rank[st.free] = total
		}
	}
	total *= float64(1 + len(p.states))
	unit := 1.0
	for unit <= total {
		unit *= 10
	}
	if dearest*unit > mostCost {
		return
	}
	p.unit = unit
	for j := range p.problem.Columns {
		c := &p.problem.Columns[j]
		c.Cost = c.Cost*unit + rank[j]
	}
}

// step tells the solver that ranks only choose among the best baskets it meets: to
// prove the best rank as well would take longer than to prove the price.
func (p *programme) step() float64 {
	if p.unit == 1 {
		return 0
	}
	return p.unit
}

// gather empties suppliers without delivery charge, the last first, when another one
// that is used as well sells the same for the same price.
func (p *programme) gather(times []int) {
	for s := len(p.q.Suppliers) - 1; s >= 0; s-- {
		if p.q.Suppliers[s].Delivery > 0 {
			continue
		}
		columns := p.columnsOf(p.q.Suppliers[s].ID)
		moved := append([]int(nil), times...)
		all := true
		for _, j := range columns {
			all = all && p.move(j, moved)
		}
		if all {
			copy(times, moved)
		}
	}
}

// move turns all of column j into the same offers of other suppliers that are used,
// and tells whether none is left.
func (p *programme) move(j int, times []int) bool {
	from := p.q.Offers[p.offers[j]]
	for k, to := range p.offers {
		o := p.q.Offers[to]
		if times[j] == 0 {
			break
		}
		if o.Supplier == from.Supplier || o.Price != from.Price || !p.used(o.Supplier, times) || !sameGoods(o, from) {
			continue
		}
		n := times[j]
		if o.Available != nil {
			n = min(n, *o.Available-times[k])
		}
		times[j] -= n
		times[k] += n
	}
	return times[j] == 0
}

func (p *programme) used(supplier string, times []int) bool {
	for _, j := range p.columnsOf(supplier) {
		if times[j] > 0 {
			return true
		}
	}
	return false
}

func sameGoods(a, b Offer) bool {
	if len(a.Contains) != len(b.Contains) {
		return false
	}
	for article, n := range a.Contains {
		if m, ok := b.Contains[article]; !ok || m != n {
			return false
		}
	}
	return true
}
