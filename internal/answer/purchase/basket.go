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
	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// OwnList is the supplier of what the own price list has, which charges no delivery.
const OwnList = "own price list"

// works is a purchase while it is put together.
type works struct {
	job    *job.Job
	shelf  *catalog.Catalog
	needs  []Need
	stocks []*stock
	offers []offer
	money  string // the currency that is reckoned in
}

// offer is an offer or a price of the job, by the needs that it covers.
type offer struct {
	buy.Offer
	words string
	long  unit.Length // of a stick of the own price list
	holds []job.Amount
	kit   bool                          // it holds lines among other things
	bars  map[string]map[cut.Length]int // by article of stock
}

// Of puts together what a job has to buy. The error is that of ctx or of the program.
func Of(ctx context.Context, j *job.Job, shelf *catalog.Catalog, p *parts.Answer, h *hold.Answer) (*Answer, error) {
	ctx, stop := context.WithTimeout(ctx, mostSought)
	defer stop()
	w := &works{job: j, shelf: shelf, money: j.Money(), needs: needsOf(j, shelf, p, h)}
	w.stocks = w.stocksOf(p)
	w.readOffers()
	a := &Answer{Currency: w.money, Foreign: w.foreign(), Plans: []Plan{}, Alone: []Alone{}, Unsold: []string{}, Uncut: []string{}, Tools: p.Tools, Supposed: w.supposed(), LengthsFirst: w.lengthsFirst()}
	basket, err := w.cheapest(ctx, w.offers)
	if err != nil {
		return nil, err
	}
	a.Plans, a.Needs = basket.plans, w.lineNeeds()
	for i := range a.Plans {
		if err := w.join(ctx, w.among(w.stocks[i], w.offers), &a.Plans[i]); err != nil {
			return nil, err
		}
	}
	for i := range a.Needs {
		if n := &a.Needs[i]; !n.Offered && n.Amount > n.Drawer {
			a.Unsold = append(a.Unsold, n.Article)
		}
	}
	for i := range a.Plans {
		if len(w.stocks[i].pieces) > 0 && a.Plans[i].Untold != "" && !slices.Contains(a.Unsold, a.Plans[i].Article) {
			a.Uncut = append(a.Uncut, a.Plans[i].Article)
		}
	}
	if len(basket.Lines) > 0 {
		a.Basket = &basket
	}
	if a.Alone, err = w.alone(ctx); err != nil {
		return nil, err
	}
	return a, nil
}

// alone lists the suppliers that sell all that is sold by anybody, the cheapest first.
func (w *works) alone(ctx context.Context) ([]Alone, error) {
	out := []Alone{}
	var names []string
	for _, o := range w.offers {
		if o.Supplier != OwnList && !slices.Contains(names, o.Supplier) {
			names = append(names, o.Supplier)
		}
	}
	for _, name := range names {
		var own []offer
		for _, o := range w.offers {
			if o.Supplier == name {
				own = append(own, o)
			}
		}
		if !w.coverAll(own) {
			continue
		}
		b, err := w.cheapest(ctx, own)
		if err != nil {
			return nil, err
		}
		out = append(out, Alone{name, b})
	}
	slices.SortStableFunc(out, func(a, b Alone) int { return cmp.Compare(a.Price, b.Price) })
	return out, nil
}

// coverAll: whatever somebody sells, these offers have.
func (w *works) coverAll(own []offer) bool {
	has := func(list []offer, name string) bool {
		return slices.ContainsFunc(list, func(o offer) bool { return o.Contains[name] > 0 })
	}
	for i := range w.needs {
		if n := &w.needs[i]; has(w.offers, n.Article) && !has(own, n.Article) {
			return false
		}
	}
	for _, s := range w.stocks {
		sells := func(list []offer) bool {
			return slices.ContainsFunc(list, func(o offer) bool { return o.sells(s) })
		}
		if sells(w.offers) && !sells(own) {
			return false
		}
	}
	return true
}

// cheapest is the cheapest basket out of some offers, over how often each kit is taken.
func (w *works) cheapest(ctx context.Context, offers []offer) (Basket, error) {
	var kits []int
	for i := range offers {
		if offers[i].kit {
			kits = append(kits, i)
		}
	}
	var best Basket
	found := false
	tried := 0
	for taken := make([]int, len(kits)); ; {
		if tried++; tried > mostMixed {
			best.Proven = false
			break
		}
		b, ok, err := w.with(ctx, offers, kits, taken)
		if err != nil {
			return Basket{}, err
		}
		if ok && (!found || b.Price < best.Price) {
			proven := b.Proven && (!found || best.Proven)
			best, found = b, true
			best.Proven = proven
		}
		if !next(taken) {
			break
		}
	}
	return best, nil
}

// next counts on: no, one, two of each kit.
func next(taken []int) bool {
	for i := range taken {
		if taken[i]++; taken[i] <= mostKits {
			return true
		}
		taken[i] = 0
	}
	return false
}

// with is the cheapest basket with each kit taken so often; ok is false where the offers
// do not cover what they should.
func (w *works) with(ctx context.Context, offers []offer, kits, taken []int) (Basket, bool, error) {
	q := buy.Question{Need: map[string]float64{}, Drawer: map[string]float64{}}
	proven := true
	var plans []Plan
	for _, s := range w.stocks {
		free := map[cut.Length]int{}
		for k, i := range kits {
			for l, n := range offers[i].bars[s.article] {
				if taken[k] > 0 {
					free[l] += n * taken[k]
				}
			}
		}
		p, bars, err := w.among(s, offers).plan(ctx, free)
		if err != nil {
			return Basket{}, false, err
		}
		plans = append(plans, p)
		proven = proven && (p.Proven || p.Untold != "")
		for name, n := range bars {
			q.Need[name] += n
		}
	}
	for i := range w.needs {
		n := &w.needs[i]
		q.Need[n.Article] += n.Amount
		q.Drawer[n.Article] += n.Drawer
	}
	list, marks := pinned(&q, offers, kits, taken)
	w.drop(&q, list)
	b, err := buy.Cheapest(ctx, q)
	var short *buy.UncoveredError
	if errors.As(err, &short) {
		return Basket{}, false, nil
	}
	if err != nil {
		return Basket{}, false, fmt.Errorf("buying: %w", err)
	}
	for _, mark := range marks {
		delete(b.Left, mark)
	}
	return w.told(b, list, plans, proven), true, nil
}

// pinned are offers of which each kit is bought exactly so often: it holds an article of
// its own, which is needed so often, and is there no more often.
func pinned(q *buy.Question, offers []offer, kits, taken []int) (list []offer, marks []string) {
	list = slices.Clone(offers)
	for k, i := range kits {
		mark := fmt.Sprintf("taken %d", k)
		marks = append(marks, mark)
		list[i].Contains = maps.Clone(list[i].Contains)
		list[i].Contains[mark] = 1
		list[i].Available = new(taken[k])
		q.Need[mark] = float64(taken[k])
	}
	return list, marks
}

// drop leaves out of a question what nobody sells, and adds the suppliers and offers.
func (w *works) drop(q *buy.Question, offers []offer) {
	sold := map[string]bool{}
	for i := range offers {
		o := offers[i].Offer
		q.Offers = append(q.Offers, o)
		for name := range o.Contains {
			sold[name] = true
		}
		if !slices.ContainsFunc(q.Suppliers, func(s buy.Supplier) bool { return s.ID == o.Supplier }) {
			q.Suppliers = append(q.Suppliers, w.supplier(o.Supplier))
		}
	}
	for name, n := range q.Need {
		if !sold[name] || n <= 0 {
			delete(q.Need, name)
		}
	}
}

func (w *works) supplier(id string) buy.Supplier {
	s := buy.Supplier{ID: id}
	for _, d := range w.job.Prices.Delivery {
		if d.Supplier != id {
			continue
		}
		s.Delivery = cents(d.Charge)
		if d.FreeFrom != nil {
			s.FreeFrom = cents(*d.FreeFrom)
		}
	}
	return s
}

// cents is a price to the nearest hundredth: the job's own rules keep it in range.
func cents(price float64) buy.Money { return buy.Money(math.Round(price * 100)) }

// told is a basket in the words of the job.
func (w *works) told(b buy.Basket, offers []offer, plans []Plan, proven bool) Basket {
	out := Basket{Lines: []Line{}, Deliveries: b.Deliveries, Price: b.Price, Bound: b.Bound, Proven: b.Proven && proven, Left: map[string]float64{}, plans: plans}
	for _, l := range b.Lines {
		i := slices.IndexFunc(offers, func(o offer) bool { return o.ID == l.Offer })
		o := offers[i]
		line := Line{Offer: o.ID, Supplier: o.Supplier, Words: o.words, Length: o.long, Times: l.Times, Each: o.Price, Cost: l.Cost, Holds: o.holds}
		if o.Supplier == OwnList {
			line.Offer = ""
		}
		out.Lines = append(out.Lines, line)
	}
	slices.SortStableFunc(out.Lines, func(a, b Line) int { return cmp.Compare(a.Supplier, b.Supplier) })
	for name, n := range b.Left {
		if n > 1e-9 {
			out.Left[name] = n
		}
	}
	return out
}
