package purchase

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
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
	id, size       string // of its row of the catalogue
	names          []string
	coil           bool
	usual          []unit.Length // that it is sold in as a rule
	pieces         []cut.Piece
	marks          map[string]*parts.Mark
	unknown        int // pieces of a length that is not known
	lengths        []length
	rules          *job.Job // that says what a cut takes and what is worth keeping
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
		row, known := w.shelf.Stock(l.Stock)
		s := &stock{
			article: l.Article, words: l.Words, id: l.Stock, size: l.Size, names: l.Names(), coil: known && row.Form == "coil",
			usual: row.Lengths, marks: map[string]*parts.Mark{}, rules: w.job,
		}
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
		all = append(all, s)
	}
	return all
}

func centsUp(price float64) buy.Money { return buy.Money(math.Ceil(price*100 - 1e-6)) }

// among is a stock with the lengths that some offers have, each at its least price, and
// with what lies in the drawer. A stock that nobody sells at all is cut from what it is
// usually sold in, the price of a length its length.
func (w *works) among(s *stock, offers []offer) *stock {
	kept := *s
	kept.lengths = nil
	for i := range offers {
		o := &offers[i]
		if o.kit {
			continue
		}
		for _, long := range sortedLengths(o.bars[s.article]) {
			kept.add(length{long: long, price: centsUp(float64(o.Price) / 100 / o.Contains[lengthName(s.article, long)]), priced: true})
		}
		if o.Contains[s.byMetre()] > 0 {
			for _, p := range s.pieces {
				long := p.Length + toCut(float64(w.job.RuleEndTrim().Value))
				kept.add(length{long: long, price: centsUp(float64(o.Price) / 100 * float64(metres(long))), priced: true, made: true})
			}
		}
	}
	if !w.sold(s) {
		for _, l := range s.usual {
			kept.add(length{long: toCut(float64(l)), price: buy.Money(toCut(float64(l)))})
		}
	}
	for _, d := range w.job.Prices.Drawer {
		if slices.Contains(s.names, parts.Fold(d.Article)) && d.Number > 0 {
			kept.lengths = append(kept.lengths, length{long: toCut(d.Number), priced: true, drawer: true})
		}
	}
	return &kept
}

// sold says whether somebody sells a stock by itself.
func (w *works) sold(s *stock) bool {
	return slices.ContainsFunc(w.offers, func(o offer) bool { return !o.kit && o.sells(s) })
}

// sells says whether an offer has lengths of a stock.
func (o *offer) sells(s *stock) bool {
	return len(o.bars[s.article]) > 0 || o.Contains[s.byMetre()] > 0
}

// sortedLengths are the lengths of bars, the shortest first.
func sortedLengths(bars map[cut.Length]int) []cut.Length { return slices.Sorted(maps.Keys(bars)) }

// add keeps the cheapest of each length; one that is cut by the seller beside one that is not.
func (s *stock) add(l length) {
	i := slices.IndexFunc(s.lengths, func(x length) bool { return x.long == l.long && x.made == l.made && !x.drawer })
	switch {
	case i < 0:
		s.lengths = append(s.lengths, l)
	case l.price < s.lengths[i].price:
		s.lengths[i] = l
	}
}

// barsOf is the length that metres of an offer come in, and how many of them.
func (s *stock) barsOf(a job.Amount) (each cut.Length, n int) {
	total := toCut(a.Number)
	if a.Each != nil {
		each = toCut(float64(*a.Each))
		return each, int(total / max(1, each))
	}
	if !s.coil {
		longest := unit.Length(0)
		for _, l := range s.usual {
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
	rule := func(r job.Ruled[unit.Length]) cut.Length { return toCut(float64(r.Value)) }
	q = cut.Question{Pieces: s.pieces, Kerf: rule(s.rules.RuleStickKerf()), EndTrim: rule(s.rules.RuleEndTrim()), Useful: rule(s.rules.RuleLeastRest())}
	if s.coil {
		q.Kerf = rule(s.rules.RuleCoilKerf())
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
	for _, l := range sortedLengths(free) {
		q.Stocks = append(q.Stocks, cut.Stock{ID: s.article + " out of a kit", Length: l, Available: new(free[l])})
		from = append(from, "kit")
	}
	return q, from
}

// barName is the article of a length: what an offer of it covers.
func (s *stock) barName(l length) string {
	if l.made {
		return s.byMetre()
	}
	return lengthName(s.article, l.long)
}

// byMetre is the article of a stock that the seller cuts to length.
func (s *stock) byMetre() string { return s.article + " by the metre" }

func lengthName(article string, l cut.Length) string {
	return fmt.Sprintf("%s, length of %.4g m", article, float64(l)/tenths)
}

// plan cuts a stock; the bars that must be bought come as articles.
func (s *stock) plan(ctx context.Context, free map[cut.Length]int) (Plan, map[string]float64, error) {
	q, from := s.question(free)
	out := Plan{Article: s.article, Words: s.words, Kerf: metres(q.Kerf), Bars: []Bar{}, Priced: true}
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
	solved, err := cut.Solve(ctx, q, nil)
	var long *cut.TooLongError
	var few *cut.NotEnoughError
	switch {
	case errors.As(err, &long):
		out.Untold = "no length on offer is as long as its longest pieces: joints have to go in"
		out.Long = tooLong(q, long)
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
		switch b.From {
		case "bought", "kit":
			needs[lengthName(s.article, q.Stocks[solved.Bars[i].Stock].Length)]++
		case "to length":
			needs[s.byMetre()] += float64(b.Length)
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

// tooLong lists the pieces that come out of no length, the longest first.
func tooLong(q cut.Question, e *cut.TooLongError) []Long {
	var out []Long
	for _, i := range e.Pieces {
		l := q.Pieces[i].Length
		out = append(out, Long{q.Pieces[i].ID, metres(l), metres(e.Fits), int((l - 1) / max(1, e.Fits))})
	}
	slices.SortStableFunc(out, func(a, b Long) int { return cmp.Compare(b.Length, a.Length) })
	return out
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
