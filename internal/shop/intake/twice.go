package intake

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"dropleg/internal/shop/job"
)

// twice tells rows that speak of the same article of the same supplier. With another
// price neither is taken; with the same, the first.
func (c *clerk) twice() {
	first := map[string]int{}
	for i := range c.in.Lines {
		l := &c.in.Lines[i]
		id, price := same(l)
		if l.State != Take || id == "" {
			continue
		}
		k, again := first[id]
		if !again {
			first[id] = i
			continue
		}
		before := &c.in.Lines[k]
		if _, earlier := same(before); earlier == price {
			l.State = Head
			l.Problems = []Problem{{Row: l.Row, Code: "again", Read: fmt.Sprintf("the same as row %d", before.Row), Want: "each article once"}}
			continue
		}
		for _, one := range []*Line{before, l} {
			other := before.Row + l.Row - one.Row
			one.State = Fault
			if !slices.ContainsFunc(one.Problems, func(p Problem) bool { return p.Code == "twice" }) {
				one.Problems = append(one.Problems, Problem{
					Row: one.Row, Column: c.name(Price), Code: "twice",
					Read: fmt.Sprintf("the same article as row %d, at another price", other), Want: "one price: leave one of the rows out",
					Nearest: []string{"leave out row " + strconv.Itoa(other), "leave out row " + strconv.Itoa(one.Row)},
				})
			}
		}
		first[id] = i
	}
	for i := range c.in.Lines {
		if l := &c.in.Lines[i]; l.State == Fault {
			l.Offer, l.Price = nil, nil
		}
	}
}

func (c *clerk) name(f Field) string {
	if i, ok := c.column[f]; ok {
		return c.in.Columns[i].Name
	}
	return ""
}

// same is what two rows of one article have in common, and what it costs.
func same(l *Line) (id string, price string) {
	switch {
	case l.Offer != nil:
		return strings.ToLower(l.Offer.Supplier) + "\x00" + holdsKey(l.Offer.Holds) + "\x00" + l.Offer.Number, fmt.Sprint(l.Offer.Price, l.Offer.Currency)
	case l.Price != nil:
		return key(l.Price.Article) + "\x00" + l.Price.Per, fmt.Sprint(l.Price.Each, l.Price.Currency)
	}
	return "", ""
}

func holdsKey(holds []job.Amount) string {
	var out strings.Builder
	for _, a := range holds {
		each := 0.0
		if a.Each != nil {
			each = float64(*a.Each)
		}
		fmt.Fprintf(&out, "%s %g %g;", key(a.Article), a.Number, each)
	}
	return out.String()
}

// known finds what the job has already: an offer of the same supplier under the same
// number, or of the same goods without one, and the same own price.
func (c *clerk) known() {
	prices := &c.index.Job().Prices
	for i := range c.in.Lines {
		l := &c.in.Lines[i]
		switch {
		case l.State != Take:
		case l.Offer != nil:
			l.knownOffer(prices.Offers)
		case l.Price != nil:
			for k := range prices.List {
				if p := &prices.List[k]; key(p.Article) == key(l.Price.Article) && perOf(p) == l.Price.Per {
					l.Was = &p.Each
					if l.Price.Currency != "" && c.home != "" && l.Price.Currency != c.home && p.Currency != l.Price.Currency {
						l.State, l.Price = Fault, nil
						l.Problems = append(l.Problems, Problem{Row: l.Row, Column: c.name(Price), Code: "other-currency", Read: "a price of your own in another currency, in the place of one in " + c.home, Want: "an offer: say who sells it"})
						break
					}
					if p.Each == l.Price.Each && p.Currency == l.Price.Currency && p.Date == l.Price.Date {
						l.State = Same
					}
				}
			}
		}
	}
}

func perOf(p *job.Price) string {
	if p.Per == "" {
		return "piece"
	}
	return p.Per
}

func (l *Line) knownOffer(all []job.Offer) {
	for k := range all {
		o := &all[k]
		if o.ID != l.Offer.ID && (l.Offer.ID != "" || !strings.EqualFold(o.Supplier, l.Offer.Supplier) || holdsKey(o.Holds) != holdsKey(l.Offer.Holds) || o.Number != "" && o.Number != l.Offer.Number) {
			continue
		}
		l.Offer.ID, l.Was = o.ID, &o.Price
		if o.Price == l.Offer.Price && o.Words == l.Offer.Words && o.Number == l.Offer.Number && o.Currency == l.Offer.Currency && o.Date == l.Offer.Date && holdsKey(o.Holds) == holdsKey(l.Offer.Holds) {
			l.State = Same
		}
		return
	}
}

// Edit is the sure rows as one edit, under a title for the history; nil where there are none.
func (in *Intake) Edit(ix *job.Index) job.Edit {
	var edits []job.Edit
	list, priced := slices.Clone(ix.Job().Prices.List), false
	taken := map[job.ID]bool{}
	n := 0
	for i := range in.Lines {
		l := &in.Lines[i]
		switch {
		case l.State != Take:
			continue
		case l.Offer != nil && l.Offer.ID != "":
			edits = append(edits, restate(ix, l.Offer)...)
		case l.Offer != nil:
			o := *l.Offer
			o.ID = fresh(ix, taken, job.OfferStem(o.Words, o.Supplier))
			edits = append(edits, job.AddOf(&o))
		case l.Price != nil:
			priced = true
			list = slices.DeleteFunc(list, func(p job.Price) bool { return key(p.Article) == key(l.Price.Article) && perOf(&p) == l.Price.Per })
			list = append(list, *l.Price)
		}
		n++
	}
	if priced {
		edits = append(edits, setTo("", "prices.list", list))
	}
	if len(edits) == 0 {
		return nil
	}
	title := "took 1 price from a list"
	if n > 1 {
		title = fmt.Sprintf("took %d prices from a list", n)
	}
	return job.AllOf(title, edits...)
}

// restate sets what an offer has otherwise now.
func restate(ix *job.Index, o *job.Offer) []job.Edit {
	was := ix.Offer(o.ID)
	now := map[string]any{"price": o.Price, "words": o.Words, "number": o.Number, "currency": o.Currency, "date": o.Date, "holds": o.Holds}
	then := map[string]any{"price": was.Price, "words": was.Words, "number": was.Number, "currency": was.Currency, "date": was.Date, "holds": was.Holds}
	var out []job.Edit
	for _, k := range slices.Sorted(maps.Keys(now)) {
		e := setTo(o.ID, k, now[k])
		if string(e.Value) != string(setTo(o.ID, k, then[k]).Value) {
			if now[k] == "" {
				e.Value = json.RawMessage("null")
			}
			out = append(out, e)
		}
	}
	return out
}

// fresh is an id that neither the job nor a row before has.
func fresh(ix *job.Index, taken map[job.ID]bool, stem job.ID) job.ID {
	id := ix.FreshID(stem)
	for n := 2; taken[id]; n++ {
		id = ix.FreshID(job.ID(fmt.Sprintf("%s-%d", stem, n)))
	}
	taken[id] = true
	return id
}

// setTo sets a key to a value that JSON holds.
func setTo(id job.ID, key string, value any) *job.Change {
	raw, err := json.Marshal(value)
	if err != nil {
		panic("intake: a value that JSON cannot hold: " + err.Error())
	}
	return &job.Change{ID: id, Key: key, Value: raw}
}
