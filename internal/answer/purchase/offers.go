package purchase

import (
	"cmp"
	"fmt"
	"slices"

	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/cut"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

// readOffers reads the offers and the own price list by the needs that they cover. What
// holds nothing that is needed is left out.
func (w *works) readOffers() {
	for i := range w.job.Prices.Offers {
		o := &w.job.Prices.Offers[i]
		if !w.reckons(o.Currency) {
			continue
		}
		x := offer{
			Offer: buy.Offer{ID: string(o.ID), Supplier: o.Supplier, Price: cents(o.Price), Contains: map[string]float64{}},
			words: o.Words, holds: o.Holds, bars: map[string]map[cut.Length]int{},
		}
		if x.words == "" {
			x.words = string(o.ID)
		}
		for _, a := range o.Holds {
			w.holds(&x, a)
		}
		x.kit = len(x.bars) > 0 && len(o.Holds) > 1
		if len(x.Contains) > 0 {
			w.offers = append(w.offers, x)
		}
	}
	for i, p := range w.job.OwnPrices() {
		w.price(i, p)
	}
}

// reckons says whether a price in a currency can stand beside the others.
func (w *works) reckons(currency string) bool { return currency == "" || currency == w.money }

// foreign lists what is left out for its currency.
func (w *works) foreign() []Foreign {
	out := []Foreign{}
	for _, p := range w.job.Prices.List {
		if !w.reckons(p.Currency) {
			out = append(out, Foreign{"", OwnList, p.Article, p.Currency})
		}
	}
	for i := range w.job.Prices.Offers {
		if o := &w.job.Prices.Offers[i]; !w.reckons(o.Currency) {
			out = append(out, Foreign{string(o.ID), o.Supplier, cmp.Or(o.Words, string(o.ID)), o.Currency})
		}
	}
	return out
}

// holds adds an article that an offer holds.
func (w *works) holds(x *offer, a job.Amount) {
	name := parts.Fold(a.Article)
	for _, s := range w.stocks {
		if !slices.Contains(s.names, name) {
			continue
		}
		if each, n := s.barsOf(a); n > 0 {
			x.Contains[lengthName(s.article, each)] += float64(n)
			x.bars[s.article] = map[cut.Length]int{each: n}
		}
	}
	for i := range w.needs {
		if slices.Contains(w.needs[i].names, name) && a.Number > 0 {
			x.Contains[w.needs[i].Article] += a.Number
			break
		}
	}
}

// price makes an offer of a row of the own price list: one piece, one metre, one usual
// length of stick.
func (w *works) price(i int, p job.Price) {
	name := parts.Fold(p.Article)
	one := func(what, article, words string, price buy.Money) {
		w.offers = append(w.offers, offer{
			Offer: buy.Offer{ID: fmt.Sprintf("price %d%s", i, what), Supplier: OwnList, Price: price, Contains: map[string]float64{article: 1}},
			words: words, holds: []job.Amount{{Article: p.Article, Number: 1}},
		})
	}
	for _, s := range w.stocks {
		if p.Per != "m" || !slices.Contains(s.names, name) {
			continue
		}
		if s.coil {
			one("", s.byMetre(), s.words+", cut to length, by the metre", cents(p.Each))
			continue
		}
		for k, l := range s.usual {
			long := toCut(float64(l))
			one(fmt.Sprintf(" length %d", k), lengthName(s.article, long), s.words, centsUp(p.Each*float64(l)))
			x := &w.offers[len(w.offers)-1]
			x.holds[0].Number, x.long = float64(l), l
			x.bars = map[string]map[cut.Length]int{s.article: {long: 1}}
		}
	}
	for k := range w.needs {
		n := &w.needs[k]
		if slices.Contains(n.names, name) && n.Metres == (p.Per == "m") {
			words := n.Words
			if n.Metres {
				words += ", by the metre"
			}
			one("", n.Article, words, cents(p.Each))
			return
		}
	}
}

// lineNeeds is the needs with the lines that are cut, each marked whether anybody sells it.
func (w *works) lineNeeds() []Need {
	var out []Need
	g := newGatherer(w.job, w.shelf)
	for _, s := range w.stocks {
		n := Need{Article: s.article, Words: s.words, Group: parts.Stock, Metres: true, Stages: map[Stage]float64{}, From: []string{}, names: s.names}
		n.Offered = w.sold(s)
		for _, p := range s.pieces {
			long := float64(metres(p.Length))
			n.Amount += long
			n.From = append(n.From, p.ID)
			n.Stages[g.stage(p.ID)] += long
		}
		out = append(out, n)
	}
	for i := range w.needs {
		n := w.needs[i]
		n.Offered = slices.ContainsFunc(w.offers, func(o offer) bool { return o.Contains[n.Article] > 0 })
		out = append(out, n)
	}
	return out
}

// supposed says what the purchase rests on.
func (w *works) supposed() []string {
	out := []string{}
	for _, s := range w.stocks {
		if !s.coil {
			ends := "the ends of a length are used as they come"
			if trim := w.job.RuleEndTrim().Value; trim > 0 {
				ends = fmt.Sprintf("%g mm are trimmed off the end of a length", float64(trim)*1e3)
			}
			out = append(out, fmt.Sprintf("a saw cut takes %g mm; %s", float64(w.job.RuleStickKerf().Value)*1e3, ends))
			break
		}
	}
	for _, s := range w.stocks {
		if s.unknown > 0 {
			out = append(out, fmt.Sprintf("%s: %d pieces of a length that is not known are not in it", s.article, s.unknown))
		}
	}
	return out
}

// lengthsFirst: some supplier of lines charges for delivery.
func (w *works) lengthsFirst() bool {
	return slices.ContainsFunc(w.offers, func(o offer) bool {
		return len(o.bars) > 0 && w.supplier(o.Supplier).Delivery > 0
	})
}
