package cut

import (
	"cmp"
	"slices"
)

// shape is a question in the form that is searched: every piece carries the kerf
// behind it and every bar is one kerf longer, so that lengths simply add up.
type shape struct {
	bars  []bar
	kinds []kind // longest first
	joint joint
	grain int64 // every price is a multiple of it
	limit int64 // above the price of any plan
	fine  int64 // multipliers and proofs are whole numbers of this part of a coin
}

// bar is one way to get a length: stocks alike in length and price taken together.
type bar struct {
	room   int64
	price  int64
	most   int // never above the number of pieces
	scarce bool
	stocks []int
}

// kind is one length that is needed.
type kind struct {
	size   int64
	need   int
	pieces []int
}

// joint asks for one more piece that is made of two ends.
type joint struct {
	size  int64 // of both ends with their kerfs; 0: no such piece
	least int64 // of one end with its kerf
	both  bool  // one bar may hold both, as the union saves length
}

// ending is room that a pattern keeps for the joined piece, and by how much more it can
// use.
type ending struct{ keep, loose int64 }

// endings gives what patterns are to keep room for: nothing, one end, or both.
func (j joint) endings() []ending {
	all := []ending{{}}
	if j.size > 0 {
		all = append(all, ending{j.least, j.size - 2*j.least})
	}
	if j.both {
		all = append(all, ending{j.size, 0})
	}
	return all
}

func shapeOf(q Question) *shape {
	s := &shape{}
	at := map[Length]int{}
	total := 0
	for i, p := range q.Pieces {
		if p.Count == 0 {
			continue
		}
		k, ok := at[p.Length]
		if !ok {
			k = len(s.kinds)
			at[p.Length] = k
			s.kinds = append(s.kinds, kind{size: int64(p.Length + q.Kerf)})
		}
		s.kinds[k].need += p.Count
		s.kinds[k].pieces = append(s.kinds[k].pieces, i)
		total += p.Count
	}
	slices.SortFunc(s.kinds, func(a, b kind) int { return cmp.Compare(b.size, a.size) })
	s.setBars(q, total)
	return s
}

// setBars sets the bars for a number of pieces, and what follows from their prices.
func (s *shape) setBars(q Question, total int) {
	s.bars = barsOf(q, total)
	s.dropPoor()
	s.grain, s.limit = 0, 0
	for _, b := range s.bars {
		s.grain = gcd(s.grain, b.price)
		s.limit += int64(b.most) * b.price
	}
	s.grain = max(s.grain, 1)
	s.limit += s.grain
	s.fine = fineness(s.limit, total)
}

func barsOf(q Question, total int) []bar {
	var bars []bar
	for i, stock := range q.Stocks {
		most := total
		if stock.Available != nil {
			most = min(total, *stock.Available)
		}
		room := int64(stock.Length - q.EndTrim + q.Kerf)
		if most == 0 || room <= 0 {
			continue
		}
		k := slices.IndexFunc(bars, func(b bar) bool { return b.room == room && b.price == stock.Price })
		if k < 0 {
			k = len(bars)
			bars = append(bars, bar{room: room, price: stock.Price})
		}
		bars[k].most = min(total, bars[k].most+most)
		bars[k].scarce = bars[k].most < total
		bars[k].stocks = append(bars[k].stocks, i)
	}
	return bars
}

// dropPoor leaves out what is no longer and no cheaper than a bar of which there are
// enough.
func (s *shape) dropPoor() {
	all := slices.Clone(s.bars)
	s.bars = slices.DeleteFunc(s.bars, func(b bar) bool {
		return slices.ContainsFunc(all, func(o bar) bool {
			return !o.scarce && o.room >= b.room && o.price <= b.price && (o.room > b.room || o.price < b.price)
		})
	})
}

// raise gives the least price of the grain that is not below a bound in fine parts.
func (s *shape) raise(bound int64) int64 {
	if bound <= 0 {
		return 0
	}
	return ceilDiv(bound, s.grain*s.fine) * s.grain
}

// priceOf adds up what loads cost.
func (s *shape) priceOf(loads []load) int64 {
	price := int64(0)
	for _, l := range loads {
		price += s.bars[l.bar].price
	}
	return price
}

func ceilDiv(a, b int64) int64 { return (a + b - 1) / b }

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
