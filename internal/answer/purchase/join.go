package purchase

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/cut"
	"dropleg/internal/answer/parts"
)

// join asks whether it pays to make a piece of two ends rather than to buy one more
// length: for the longest pieces of a stock that coils, or that has no plan as a piece is
// longer than any length. The coupling's price decides; without one nothing is asked.
func (w *works) join(ctx context.Context, s *stock, p *Plan) error {
	article, price, ok := w.coupling(s)
	if !ok || !s.coil && p.Untold == "" || len(p.Bars) == 1 {
		return nil
	}
	q, _ := s.question(nil)
	if len(q.Stocks) == 0 {
		return nil
	}
	known, err := cut.Solve(ctx, q, nil)
	var long *cut.TooLongError
	if err != nil && !errors.As(err, &long) {
		return ctx.Err()
	}
	asked := s.longest(toCut(2 * leastEnd))
	if long != nil {
		asked = long.Pieces
	}
	found, err := cut.Joinable(ctx, q, known, cut.Union{Price: int64(price), Shortest: toCut(leastEnd)}, asked)
	if err != nil {
		return ctx.Err()
	}
	best := -1
	for i := range found {
		if found[i].Pays && (best < 0 || found[i].Saves > found[best].Saves) {
			best = i
		}
	}
	if best >= 0 {
		f := found[best]
		p.Join = &Join{Piece: q.Pieces[f.Piece].ID, Ends: [2]unit.Length{metres(f.Ends[0]), metres(f.Ends[1])}, Coupling: article, Saves: buy.Money(f.Saves), Proven: f.Proven}
	}
	return nil
}

// longest lists the longest pieces from a length on.
func (s *stock) longest(from cut.Length) []int {
	var out []int
	for i := range s.pieces {
		if s.pieces[i].Length >= from {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(s.pieces[b].Length, s.pieces[a].Length) })
	return out[:min(len(out), mostJoined)]
}

// coupling is what joins two ends of a stock, and its price for one.
func (w *works) coupling(s *stock) (article string, price int64, ok bool) {
	name := parts.Fold(s.id + " coupling " + s.size)
	for _, p := range w.job.OwnPrices() {
		if parts.Fold(p.Article) == name && p.Per != "m" {
			return name, int64(cents(p.Each)), true
		}
	}
	for i := range w.job.Prices.Offers {
		o := &w.job.Prices.Offers[i]
		if w.reckons(o.Currency) && len(o.Holds) == 1 && parts.Fold(o.Holds[0].Article) == name && o.Holds[0].Number > 0 {
			each := int64(centsUp(o.Price / o.Holds[0].Number))
			if !ok || each < price {
				price, ok = each, true
			}
		}
	}
	return name, price, ok
}
