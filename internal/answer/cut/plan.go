package cut

import (
	"cmp"
	"context"
	"errors"
	"slices"
)

// Solve finds the cheapest plan. When ctx ends before the proof is complete, or the
// proof is beyond this method, it gives the best plan so far with the bound that is
// proven; an error then says only that there is no plan yet. Among plans of one price
// it looks for few bars and then for a long open end, without promise of the best.
// Errors are *ValueError, *TooLongError, *NotEnoughError, and those of ctx.
func Solve(ctx context.Context, q Question, tell Progress) (Plan, error) {
	if err := check(q); err != nil {
		return Plan{}, err
	}
	s := shapeOf(q)
	h := newHunt(ctx, s, tell)
	err := h.run()
	if h.best == nil {
		return Plan{}, h.without(err)
	}
	h.fewer()
	return q.plan(s, h.tidy(), h.bound), nil
}

// without says why there is no plan.
func (h *hunt) without(err error) error {
	if err != nil {
		return err
	}
	e := &NotEnoughError{}
	_, left := greedy(h.shape)
	for k, n := range left.kinds {
		if n > 0 {
			e.Unplaced = append(e.Unplaced, h.shape.kinds[k].pieces...)
		}
	}
	slices.Sort(e.Unplaced)
	return e
}

// fewerSteps is how many steps a search for one bar less may take.
const fewerSteps = 60

// fewer looks for a plan of the same price from fewer bars, as long as it is cheap to.
func (h *hunt) fewer() {
	if !h.done() || len(h.shape.bars) < 2 || len(h.root.worth.bar) == 0 {
		return
	}
	grain := h.shape.grain
	p, ok := patterns(h.ctx, h.shape, h.root.worth, h.price*h.shape.fine-h.root.bound, fullMost)
	if !ok {
		return
	}
	for len(h.best) > 1 {
		f := &search{relaxation: relax(h.ctx, h.shape, p), cutoff: h.price + grain, allow: fewerSteps, trials: 1}
		err := f.atMost(len(h.best) - 1)
		if f.best == nil {
			return
		}
		h.best, h.price = f.best, h.shape.priceOf(f.best)
		if err != nil && !errors.Is(err, errEnough) {
			return
		}
	}
}

// plan says in the words of the question what the loads are.
func (q Question) plan(s *shape, loads []load, bound int64) Plan {
	p := Plan{Bound: bound}
	stocks := newHandOut(s, q)
	for _, l := range loads {
		if len(l.parts) > 0 || l.end > 0 {
			p.Bars = append(p.Bars, stocks.bar(l))
			p.Price += s.bars[l.bar].price
		}
	}
	slices.SortStableFunc(p.Bars, func(a, b Bar) int {
		return cmp.Or(cmp.Compare(a.Stock, b.Stock), slices.CompareFunc(a.Cuts, b.Cuts, byPiece))
	})
	p.Bound = min(bound, p.Price)
	p.Proven = p.Bound == p.Price
	return p
}

func byPiece(a, b Cut) int {
	return cmp.Or(cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Copy, b.Copy))
}

// handOut gives out stock lengths and pieces, each once: leftovers before others, and
// pieces of one length as they were given.
type handOut struct {
	q      Question
	shape  *shape
	stocks [][]int // per bar, in the order of use
	used   []int   // per stock
	given  []int   // per piece
}

func newHandOut(s *shape, q Question) *handOut {
	h := &handOut{q: q, shape: s, used: make([]int, len(q.Stocks)), given: make([]int, len(q.Pieces))}
	for _, b := range s.bars {
		order := slices.Clone(b.stocks)
		slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(h.rank(i), h.rank(j)) })
		h.stocks = append(h.stocks, order)
	}
	return h
}

func (h *handOut) rank(stock int) int {
	if h.q.Stocks[stock].Leftover {
		return 0
	}
	return 1
}

func (h *handOut) bar(l load) Bar {
	b := Bar{Stock: h.stock(l.bar)}
	room := h.shape.bars[l.bar].room - l.end
	for _, part := range l.parts {
		kind := h.shape.kinds[part.kind]
		room -= kind.size * int64(part.times)
		for range part.times {
			b.Cuts = append(b.Cuts, h.cut(kind))
		}
	}
	slices.SortFunc(b.Cuts, byPiece)
	if l.end > 0 {
		b.Cuts = append(b.Cuts, Cut{Piece: -1, Length: Length(l.end) - h.q.Kerf, Joined: true})
	}
	// Where less than a kerf is left, the last piece ended flush or nearly so.
	b.Open = Length(max(0, room-int64(h.q.Kerf)))
	b.Named = b.Open > 0 && b.Open >= h.q.Useful
	return b
}

func (h *handOut) stock(bar int) int {
	order := h.stocks[bar]
	for _, i := range order {
		if a := h.q.Stocks[i].Available; a == nil || h.used[i] < *a {
			h.used[i]++
			return i
		}
	}
	panic("more bars are cut than there are")
}

func (h *handOut) cut(k kind) Cut {
	for _, i := range k.pieces {
		if n := h.given[i]; n < h.q.Pieces[i].Count {
			h.given[i]++
			return Cut{Piece: i, Copy: n, Length: h.q.Pieces[i].Length}
		}
	}
	panic("more pieces are cut than are needed")
}
