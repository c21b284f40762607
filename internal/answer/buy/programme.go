package buy

import (
	"math"

	"dropleg/engine/num/mip"
)

// programme is the question as an integer programme: a column per offer that can be
// of use (how often it is bought), and for each supplier with a delivery charge one
// or two columns of 0 or 1: it charges, it is free. Neither: it is not used.
type programme struct {
	q       Question
	lacks   []lack
	offers  []int // column → index into q.Offers
	covers  []int // per column: how often it could serve the need
	states  []state
	problem mip.Problem
	unit    float64 // cost of one hundredth in the programme
}

// lack is what has to be bought of an article.
type lack struct {
	article string
	amount  float64
	scale   float64 // makes all amounts of the article whole, when anything does
}

// state holds the two columns of a supplier; free is -1 when delivery is never free.
type state struct{ supplier, charging, free int }

func newProgramme(q Question) (*programme, error) {
	p := &programme{q: q, unit: 1}
	p.findLacks()
	for k, o := range q.Offers {
		if times := p.covering(o); times > 0 || p.fills(o) {
			p.offers = append(p.offers, k)
			p.covers = append(p.covers, times)
			p.problem.Columns = append(p.problem.Columns, mip.Column{Cost: float64(o.Price), High: float64(times), Integer: true})
		}
	}
	if err := p.uncovered(); err != nil {
		return nil, err
	}
	p.addNeeds()
	for s := range q.Suppliers {
		p.addSupplier(s)
	}
	p.favour()
	return p, nil
}

func (p *programme) findLacks() {
	wanted := map[string]float64{}
	for article, n := range p.q.Need {
		wanted[article] += n
	}
	for article, n := range p.q.Spare {
		wanted[article] += n
	}
	for _, article := range sortedKeys(wanted) {
		if amount := wanted[article] - p.q.Drawer[article]; amount >= leastAmount {
			p.lacks = append(p.lacks, lack{article, amount, p.scale(article, amount)})
		}
	}
}

// scale finds the power of ten that makes a lack and all that covers it whole.
func (p *programme) scale(article string, amount float64) float64 {
	for scale := 1.0; scale <= 1e4; scale *= 10 {
		fits := whole(amount * scale)
		for _, o := range p.q.Offers {
			fits = fits && whole(o.Contains[article]*scale)
		}
		if fits {
			return scale
		}
	}
	return 0
}

func whole(v float64) bool { return math.Abs(v-math.Round(v)) <= 1e-9*(1+v) }

func (l lack) scaled(v float64) float64 {
	if l.scale == 0 {
		return v
	}
	return math.Round(v * l.scale)
}

// covering is how often an offer could serve the need; more would only be left over.
func (p *programme) covering(o Offer) int {
	times := 0.0
	for _, l := range p.lacks {
		if n := o.Contains[l.article]; n > 0 {
			times = max(times, math.Ceil(l.scaled(l.amount)/l.scaled(n)-1e-9))
		}
	}
	if o.Available != nil {
		times = min(times, float64(*o.Available))
	}
	return int(times)
}

// fills says whether an offer that covers nothing could still make a delivery free.
func (p *programme) fills(o Offer) bool {
	for _, s := range p.q.Suppliers {
		if s.ID == o.Supplier {
			return s.FreeFrom > 0 && beyondNeed(o, 0, s.Delivery) > 0
		}
	}
	return false
}

func (p *programme) uncovered() error {
	e := &UncoveredError{Missing: map[string]float64{}}
	for _, l := range p.lacks {
		there := 0.0
		for j, k := range p.offers {
			there += float64(p.covers[j]) * p.q.Offers[k].Contains[l.article]
		}
		if there < l.amount*(1-1e-9) {
			e.Articles = append(e.Articles, l.article)
			e.Missing[l.article] = l.amount - there
		}
	}
	if len(e.Articles) > 0 {
		return e
	}
	return nil
}

func (p *programme) addNeeds() {
	for _, l := range p.lacks {
		row := mip.Row{Low: l.scaled(l.amount), High: math.Inf(1)}
		for j, k := range p.offers {
			if n := p.q.Offers[k].Contains[l.article]; n > 0 {
				row.Entries = append(row.Entries, mip.Entry{Column: j, Value: l.scaled(n)})
			}
		}
		p.problem.Rows = append(p.problem.Rows, row)
	}
}

// addSupplier ties a supplier's offers to its states. An offer is bought more often
// than the need can use only to reach free delivery, and never for more than the
// delivery that this saves.
func (p *programme) addSupplier(s int) {
	supplier := p.q.Suppliers[s]
	columns := p.columnsOf(supplier.ID)
	if supplier.Delivery == 0 || len(columns) == 0 {
		return
	}
	st := state{s, p.addSwitch(supplier.Delivery), -1}
	states := []mip.Entry{{Column: st.charging, Value: 1}}
	if supplier.FreeFrom > 0 {
		st.free = p.addSwitch(0)
		states = append(states, mip.Entry{Column: st.free, Value: 1})
	}
	p.states = append(p.states, st)
	goods := mip.Row{Low: 0, High: math.Inf(1)}
	for _, j := range columns {
		o := p.q.Offers[p.offers[j]]
		most := float64(p.covers[j])
		row := mip.Row{Low: math.Inf(-1), High: 0, Entries: []mip.Entry{{Column: j, Value: 1}, {Column: st.charging, Value: -most}}}
		if st.free >= 0 {
			most += beyondNeed(o, p.covers[j], supplier.Delivery)
			row.Entries = append(row.Entries, mip.Entry{Column: st.free, Value: -most})
			goods.Entries = append(goods.Entries, mip.Entry{Column: j, Value: float64(o.Price)})
		}
		p.problem.Columns[j].High = most
		p.problem.Rows = append(p.problem.Rows, row)
	}
	if st.free >= 0 {
		goods.Entries = append(goods.Entries, mip.Entry{Column: st.free, Value: -float64(supplier.FreeFrom)})
		p.problem.Rows = append(p.problem.Rows, goods, mip.Row{Entries: states, Low: math.Inf(-1), High: 1})
	}
}

func beyondNeed(o Offer, covers int, delivery Money) float64 {
	if o.Price == 0 {
		return 0
	}
	more := int(delivery / o.Price)
	if o.Available != nil {
		more = min(more, *o.Available-covers)
	}
	return float64(more)
}

func (p *programme) columnsOf(supplier string) []int {
	var columns []int
	for j, k := range p.offers {
		if p.q.Offers[k].Supplier == supplier {
			columns = append(columns, j)
		}
	}
	return columns
}

func (p *programme) addSwitch(cost Money) int {
	p.problem.Columns = append(p.problem.Columns, mip.Column{Cost: float64(cost), High: 1, Integer: true})
	return len(p.problem.Columns) - 1
}
