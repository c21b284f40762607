package purchase

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/cut"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

// stock is one stock and size with its pieces, and the lengths that it can be had in.
type stock struct {
	article, words string
	names          []string
	coil           bool
	pieces         []cut.Piece
	marks          map[string]*parts.Mark
	unknown        int
	lengths        []length
}

// length is one length that a stock can be had in.
type length struct {
	long   cut.Length
	price  buy.Money
	priced bool
	made   bool // cut by the seller to a piece's own length, by the metre
	drawer bool
}

const tenths = 1e4 // of a millimetre in a metre

func toCut(l float64) cut.Length      { return cut.Length(math.Round(l * tenths)) }
func upCut(l float64) cut.Length      { return cut.Length(math.Ceil(l*tenths - 1e-6)) }
func metres(l cut.Length) unit.Length { return unit.Length(float64(l) / tenths) }

// stocksOf gathers the planned pieces of each stock and size.
func (w *works) stocksOf(p *parts.Answer) []*stock {
	var all []*stock
	for _, l := range p.Lines {
		if l.Group != parts.Stock || l.State != parts.Planned {
			continue
		}
		s := &stock{article: l.Article, words: l.Words, names: l.Names(), marks: map[string]*parts.Mark{}}
		row, known := w.shelf.Stock(l.Stock)
		s.coil = known && row.Form == "coil"
		for i := range p.Pieces {
			x := &p.Pieces[i]
			if x.Stock != l.Stock || x.Size != l.Size || x.State != parts.Planned {
				continue
			}
			if x.Cut == nil || *x.Cut <= 0 {
				if x.Cut == nil {
					s.unknown++
				}
				continue
			}
			s.pieces = append(s.pieces, cut.Piece{ID: x.ID, Length: upCut(float64(*x.Cut + x.Allowance)), Count: 1})
			s.marks[x.ID] = x.From.Mark
		}
		w.offerLengths(s, row.Lengths)
		all = append(all, s)
	}
	return all
}

// offerLengths lists the lengths that a stock can be had in: by offers, by the own price
// list's metre, from the drawer; where nobody sells it, those it is usually sold in.
func (w *works) offerLengths(s *stock, usual []unit.Length) {
	for i := range w.job.Prices.Offers {
		o := &w.job.Prices.Offers[i]
		for _, a := range o.Holds {
			if !slices.Contains(s.names, parts.Fold(a.Article)) || len(o.Holds) > 1 {
				continue
			}
			each, n := barsOf(a, s.coil, usual)
			price, err := buy.Hundredths(o.Price)
			if n > 0 && err == nil {
				s.add(length{long: each, price: (price + buy.Money(n) - 1) / buy.Money(n), priced: true})
			}
		}
	}
	rate, byMetre := w.metre(s)
	switch {
	case byMetre && s.coil:
		for _, p := range s.pieces {
			s.add(length{long: p.Length, price: centsUp(rate * float64(metres(p.Length))), priced: true, made: true})
		}
	case byMetre:
		for _, l := range usual {
			s.add(length{long: toCut(float64(l)), price: centsUp(rate * float64(l)), priced: true})
		}
	case len(s.lengths) == 0:
		for _, l := range usual {
			s.add(length{long: toCut(float64(l)), price: buy.Money(toCut(float64(l)))})
		}
	}
	for _, d := range w.job.Prices.Drawer {
		if slices.Contains(s.names, parts.Fold(d.Article)) && d.Number > 0 {
			s.lengths = append(s.lengths, length{long: toCut(d.Number), priced: true, drawer: true})
		}
	}
}

func centsUp(price float64) buy.Money { return buy.Money(math.Ceil(price*100 - 1e-6)) }

// metre is the own price list's price of a metre.
func (w *works) metre(s *stock) (float64, bool) {
	for _, p := range w.job.Prices.List {
		if p.Per == "m" && slices.Contains(s.names, parts.Fold(p.Article)) {
			return p.Each, true
		}
	}
	return 0, false
}

// add keeps the cheapest of each length; one that is cut by the seller beside one that is not.
func (s *stock) add(l length) {
	for i := range s.lengths {
		if x := &s.lengths[i]; x.long == l.long && x.made == l.made && !x.drawer {
			if l.price < x.price {
				*x = l
			}
			return
		}
	}
	s.lengths = append(s.lengths, l)
}

// barsOf is the length that metres of an offer come in, and how many of them.
func barsOf(a job.Amount, coil bool, usual []unit.Length) (each cut.Length, n int) {
	total := toCut(a.Number)
	if a.Each != nil {
		each = toCut(float64(*a.Each))
		return each, int(total / max(1, each))
	}
	if !coil {
		longest := unit.Length(0)
		for _, l := range usual {
			if q := a.Number / float64(l); l > longest && math.Abs(q-math.Round(q)) < centimetre && math.Round(q) >= 1 {
				longest = l
			}
		}
		if longest > 0 {
			return toCut(float64(longest)), int(math.Round(a.Number / float64(longest)))
		}
	}
	return total, 1
}

// question is what to cut, with bars that come with kits anyway.
func (s *stock) question(free map[cut.Length]int) (q cut.Question, from []string) {
	q = cut.Question{Pieces: s.pieces, Kerf: toCut(sawKerf), EndTrim: toCut(endTrim), Useful: toCut(leastRest)}
	if s.coil {
		q.Kerf = toCut(coilKerf)
	}
	for _, l := range s.lengths {
		x := cut.Stock{ID: s.barName(l), Length: l.long, Price: int64(l.price)}
		kind := "bought"
		switch {
		case l.drawer:
			x.Available, x.Leftover, kind = new(1), true, "drawer"
		case l.made:
			kind = "to length"
		}
		q.Stocks, from = append(q.Stocks, x), append(from, kind)
	}
	longs := make([]cut.Length, 0, len(free))
	for l := range free {
		longs = append(longs, l)
	}
	slices.Sort(longs)
	for _, l := range longs {
		q.Stocks = append(q.Stocks, cut.Stock{ID: s.article + " out of a kit", Length: l, Available: new(free[l])})
		from = append(from, "kit")
	}
	return q, from
}

// barName is the article of a length: what an offer of it covers.
func (s *stock) barName(l length) string {
	if l.made {
		return s.article + " by the metre"
	}
	return lengthName(s.article, l.long)
}

func lengthName(article string, l cut.Length) string {
	return fmt.Sprintf("%s, length of %.4g m", article, float64(l)/tenths)
}

// plan cuts a stock; the bars that must be bought come as articles.
func (s *stock) plan(ctx context.Context, free map[cut.Length]int, tell cut.Progress) (Plan, map[string]float64, error) {
	q, from := s.question(free)
	out := Plan{Article: s.article, Words: s.words, Kerf: metres(q.Kerf), Bars: []Bar{}, Priced: true, names: s.names}
	for _, l := range s.lengths {
		out.Priced = out.Priced && l.priced
	}
	if len(s.pieces) == 0 {
		out.Untold = "the lengths of its pieces are not known"
		return out, nil, nil
	}
	if len(q.Stocks) == 0 {
		out.Untold = "nobody says what lengths it is sold in"
		return out, nil, nil
	}
	solved, err := cut.Solve(ctx, q, tell)
	var long *cut.TooLongError
	var few *cut.NotEnoughError
	switch {
	case errors.As(err, &long):
		out.Untold = fmt.Sprintf("%s %s longer than any length on offer, %.2f m: a joint has to go in", listIDs(long.IDs), isAre(long.IDs), float64(metres(long.Fits)))
		return out, nil, nil
	case errors.As(err, &few):
		out.Untold = "the lengths on offer are not enough"
		return out, nil, nil
	case err != nil:
		return out, nil, fmt.Errorf("cutting %s: %w", s.article, err)
	}
	needs := map[string]float64{}
	out.Proven = solved.Proven
	for i := range solved.Bars {
		b := s.bar(q, &solved.Bars[i], from)
		out.Bars = append(out.Bars, b)
		if b.From == "bought" || b.From == "kit" {
			needs[lengthName(s.article, q.Stocks[solved.Bars[i].Stock].Length)]++
		}
		if b.From == "to length" {
			needs[s.article+" by the metre"] += float64(b.Length)
		}
		if b.From != "drawer" {
			out.Bought += b.Length
		}
		for _, c := range b.Cuts {
			out.Cut += c.Length
		}
	}
	name(&out)
	return out, needs, nil
}

func (s *stock) bar(q cut.Question, b *cut.Bar, from []string) Bar {
	out := Bar{Length: metres(q.Stocks[b.Stock].Length), From: from[b.Stock], Open: metres(b.Open), Cuts: []Cut{}}
	for _, c := range b.Cuts {
		id := q.Pieces[c.Piece].ID
		out.Cuts = append(out.Cuts, Cut{Piece: id, Length: metres(c.Length), Mark: s.marks[id]})
	}
	if b.Named {
		out.Name = "rest"
	}
	return out
}

// name gives each open end worth keeping a name of its own.
func name(p *Plan) {
	n := 0
	for i := range p.Bars {
		if p.Bars[i].Name != "" {
			n++
			p.Bars[i].Name = fmt.Sprintf("rest %d of %s", n, p.Article)
		}
	}
}

func listIDs(ids []string) string {
	if len(ids) == 1 {
		return ids[0]
	}
	return fmt.Sprintf("%s and %d more", ids[0], len(ids)-1)
}

func isAre(ids []string) string {
	if len(ids) == 1 {
		return "is"
	}
	return "are"
}
