package size

import (
	"context"
	"math"
	"slices"

	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

// prices is the least that one piece or one metre of an article costs, by the own list and
// the offers that hold nothing else.
type prices struct {
	piece, metre map[string]float64
}

func newPrices(j *job.Job) *prices {
	p := &prices{piece: map[string]float64{}, metre: map[string]float64{}}
	put := func(at map[string]float64, article string, each float64) {
		name := parts.Fold(article)
		if was, ok := at[name]; !ok || each < was {
			at[name] = each
		}
	}
	for _, x := range j.Prices.List {
		if x.Per == "m" {
			put(p.metre, x.Article, x.Each)
		} else {
			put(p.piece, x.Article, x.Each)
		}
	}
	for _, o := range j.Prices.Offers {
		if len(o.Holds) == 1 && o.Holds[0].Number > 0 {
			each := o.Price / o.Holds[0].Number
			// An offer says pieces or metres by its article alone: each is looked up where it fits.
			put(p.piece, o.Holds[0].Article, each)
			put(p.metre, o.Holds[0].Article, each)
		}
	}
	return p
}

// price puts prices to all options, and to what they meet in. Sizes without one are left
// out and told.
func (w *work) price(ctx context.Context) error {
	w.prices = newPrices(w.job)
	if !w.anyPriced() {
		w.prices = nil
		w.notes = append(w.notes, "the job has no prices for its lines: the least is that of metres times millimetres of bore, couplers and treatment in proportion, a step in a line as half a metre of the larger")
		w.byBore()
		w.meetings()
		return nil
	}
	if l := w.job.Prices.Labour; l != nil && l.Rate != nil {
		w.rate = *l.Rate
	}
	for k := range w.rungs {
		taken, err := w.rungs[k].study.Parts(ctx)
		if err != nil {
			return err
		}
		clips, err := w.clips(ctx, w.rungs[k].study)
		if err != nil {
			return err
		}
		for _, c := range w.choices {
			if c.line && k < len(c.options) {
				more := w.lineCost(w.rungs[k].study, taken, c)
				for _, id := range c.ids {
					more.add(clips[id])
					c.options[k].clips += clips[id].price
				}
				c.options[k].price, c.options[k].guessed = w.linePrice(c, k)+more.price, more.guessed
			}
		}
	}
	for _, c := range w.choices {
		switch {
		case c.line:
			w.dropUnpriced(c)
		case c.hose:
			w.hosePrices(c)
		default:
			w.partPrices(c)
		}
		w.stands(c)
	}
	w.meetings()
	return nil
}

// anyPriced: some size of a line that may change has a price.
func (w *work) anyPriced() bool {
	return slices.ContainsFunc(w.choices, func(c *choice) bool {
		for k := range c.options {
			if c.line && !math.IsInf(w.linePrice(c, k), 1) {
				return true
			}
		}
		return false
	})
}

// linePrice is what the metres of a stretch cost in a size; +Inf without a price.
func (w *work) linePrice(c *choice, k int) float64 {
	each, ok := w.prices.metre[parts.Fold(w.idx.Run(c.ids[0]).Stock+" "+c.options[k].size)]
	if !ok {
		return math.Inf(1)
	}
	return each * w.length(c)
}

// length is the metres of a choice as far as they are known.
func (w *work) length(c *choice) float64 {
	sum := 0.0
	for _, id := range c.ids {
		if r := w.idx.Run(id); r != nil {
			l, _ := w.idx.LengthOf(r)
			sum += float64(l)
		}
		if o := w.idx.OutletOfHose(id); o != nil {
			sum += float64(o.Hose.Length)
		}
	}
	return sum
}

func (w *work) note(text string) {
	if !slices.Contains(w.notes, text) {
		w.notes = append(w.notes, text)
	}
}

// dropUnpriced leaves out the sizes that nobody sells. Where the one that stands has no
// price either, that of its neighbours by bore stands for it; where none has, it stays.
func (w *work) dropUnpriced(c *choice) {
	if c.held || len(c.options) == 1 {
		for k := range c.options {
			if math.IsInf(c.options[k].price, 1) {
				c.options[k].price = 0
			}
		}
		return
	}
	stock := w.idx.Run(c.ids[0]).Stock
	w.leave(c, func(k int) string { return stock + " " + c.options[k].size })
}

// leave takes out of a choice what has no price, but for what stands.
func (w *work) leave(c *choice, article func(int) string) {
	var kept []option
	now, known := 0, -1
	for k, o := range c.options {
		if math.IsInf(o.price, 1) {
			w.unsold = append(w.unsold, article(k))
		} else {
			known = k
		}
	}
	for k, o := range c.options {
		if math.IsInf(o.price, 1) {
			if k != c.now {
				continue
			}
			o.price = 0
			if known >= 0 && c.options[known].bore > 0 {
				o.price = c.options[known].price * o.bore / c.options[known].bore
			}
		}
		if k == c.now {
			now = len(kept)
		}
		kept = append(kept, o)
	}
	c.options, c.now = kept, now
}

// byBore prices without prices. A half of a coupler counts as two metres of line of its
// bore, and what treats air as so many of the bore that carries its rated flow at about
// 6 m/s and 7 bar: proportions of common practice, no source.
func (w *work) byBore() {
	const half, treats = 2, 8
	for _, c := range w.choices {
		for k := range c.options {
			o := &c.options[k]
			switch {
			case c.line || c.hose:
				o.price = w.length(c) * o.bore * 1e3
			case o.flow > 0:
				o.price = treats * math.Sqrt(o.flow/(math.Pi/4*6*9.5)) * 1e3
			default:
				o.price = half * float64(o.sockets+o.plugs) * o.bore * 1e3
			}
		}
		w.stands(c)
	}
}

// stands makes what is installed free.
func (w *work) stands(c *choice) {
	for k := range c.options {
		c.options[k].price = math.Round(c.options[k].price*100) / 100
	}
	for _, id := range c.ids {
		r, o := w.idx.Run(id), w.idx.OutletOfHose(id)
		if o == nil {
			o = w.idx.Outlet(id)
		}
		if o != nil {
			p := w.idx.Point(o.Point)
			if p == nil || p.State != "existing" {
				return
			}
		} else if r == nil || r.State != "existing" {
			return
		}
	}
	c.options[c.now].price = 0
}
