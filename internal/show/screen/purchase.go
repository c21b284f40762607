package screen

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/shop/job"
)

// The width of a plan of cuts in mm: that of the page's side.
const cutWidth = 90

// buying is a purchase while it is worded.
type buying struct {
	*Shop
	a      *purchase.Answer
	system unit.System
}

// Purchase tells what to buy and what to cut.
func (s *Shop) Purchase(ctx context.Context, ask Ask) (Purchase, error) {
	out := Purchase{Stages: []string{}, Needs: []NeedRow{}, Rooms: []RoomRow{}, Baskets: []BasketRow{}, Cuts: []CutRow{}, Tools: []string{}, Notes: []string{}}
	a, err := s.study.Purchase(ctx)
	if err != nil {
		return out, fmt.Errorf("putting the purchase together: %w", err)
	}
	b := &buying{Shop: s, a: a, system: s.system(ask)}
	out.Sentence = b.sentence()
	for _, stage := range purchase.Stages() {
		out.Stages = append(out.Stages, string(stage))
	}
	for i := range a.Needs {
		out.Needs = append(out.Needs, b.need(&a.Needs[i]))
	}
	taken, err := s.study.Parts(ctx)
	if err != nil {
		return out, fmt.Errorf("counting by room: %w", err)
	}
	out.Rooms = RoomRows(s.index, taken, b.system)
	if a.Basket != nil {
		out.Baskets = append(out.Baskets, b.basket("The cheapest", a.Basket))
	}
	for i := range a.Alone {
		out.Baskets = append(out.Baskets, b.basket("All from "+a.Alone[i].Supplier, &a.Alone[i].Basket))
	}
	for i := range a.Plans {
		if len(a.Plans[i].Bars) > 0 || a.Plans[i].Untold != "" {
			out.Cuts = append(out.Cuts, b.cuts(&a.Plans[i]))
		}
	}
	for _, t := range a.Tools {
		out.Tools = addOnce(out.Tools, t.Words)
	}
	for _, words := range a.Supposed {
		out.Notes = append(out.Notes, s.namesIn(words))
	}
	if a.LengthsFirst {
		out.Notes = append(out.Notes, "lengths of line are chosen by their own prices, before deliveries")
	}
	out.Notes = append(out.Notes, PriceNotes(s.job, a, ask.day())...)
	return out, nil
}

// PriceNotes tells prices that a basket leaves out for their currency, and those that are
// old on a day.
func PriceNotes(j *job.Job, a *purchase.Answer, today string) []string {
	out := []string{}
	if n := len(a.Foreign); n > 0 {
		var codes []string
		for _, f := range a.Foreign {
			codes = addOnce(codes, f.Currency)
		}
		out = append(out, fmt.Sprintf("%s in %s left out of the baskets, which are in %s", plural(n, "price", "prices"), strings.Join(codes, ", "), a.Currency))
	}
	if n, oldest := j.OldPrices(today); n > 0 {
		days := float64(j.RulePriceAge().Value) / 86400
		out = append(out, fmt.Sprintf("%s older than %.0f days, the oldest of %s: ask anew before you buy", plural(n, "price is", "prices are"), days, oldest))
	}
	return out
}

// sentence says what it comes to and what is open.
func (b *buying) sentence() string {
	if len(b.a.Needs) == 0 {
		return "Nothing is planned, so nothing to buy."
	}
	text := "Nobody on the lists sells any of it: bring a list in, or type prices at the articles."
	if k := b.a.Basket; k != nil {
		text = b.money(float64(k.Price) / 100)
		if len(b.a.Unsold)+len(b.a.Uncut) > 0 {
			text += " for what is on the lists"
		}
		text += b.deliveries(k) + "."
		if len(b.a.Alone) > 0 {
			one := b.a.Alone[0]
			text += fmt.Sprintf(" All from %s: %s.", one.Supplier, b.money(float64(one.Price)/100))
		}
	}
	if open := len(b.a.Uncut); open > 0 {
		text += " " + upper(plural(open, "line comes", "lines come")) + " out of no length on offer."
	}
	if open := len(b.a.Unsold); open > 0 {
		text += " " + upper(plural(open, "article has", "articles have")) + " no price."
	}
	return text
}

// deliveries says how many suppliers it comes from and what they charge to deliver.
func (b *buying) deliveries(k *purchase.Basket) string {
	charge, from := 0.0, 0
	for _, d := range k.Deliveries {
		if d.Supplier != purchase.OwnList {
			from++
		}
		charge += float64(d.Charge) / 100
	}
	text := ""
	if from > 0 {
		text = ", from " + plural(from, "supplier", "suppliers")
	}
	if charge > 0 {
		text += ", " + b.money(charge) + " of it for delivery"
	}
	return text
}

// need words one article.
func (b *buying) need(n *purchase.Need) NeedRow {
	row := NeedRow{
		Article: n.Article, Words: n.Words, Shelf: string(n.Group), Stages: []StageRow{}, Things: []string{}, Sold: n.Offered, Per: "piece", Counted: n.Counted,
		Number: b.amount(n, max(0, n.Amount-n.Drawer)),
		From:   *counted("the things of the drawing that are planned, with what their joints and supports ask for; lengths as they are cut"),
	}
	if n.Metres {
		row.Per = "m"
	}
	if n.Spare > 0 {
		row.Spare = b.amount(n, n.Spare)
	}
	if n.Drawer > 0 {
		row.Drawer = b.amount(n, n.Drawer)
	}
	for _, s := range purchase.Stages() {
		if n.Stages[s] > 1e-9 {
			row.Stages = append(row.Stages, StageRow{string(s), b.amount(n, n.Stages[s])})
		}
	}
	for _, from := range n.From {
		row.Things = addOnce(row.Things, string(parts.ThingOf(from)))
	}
	return row
}

// amount is pieces or metres of an article.
func (b *buying) amount(n *purchase.Need, x float64) string {
	if n.Metres {
		return b.system.Listed(unit.Length(x))
	}
	return strconv.FormatFloat(float64(int(x*100+0.5))/100, 'f', -1, 64)
}

// over is how much of an article is left over.
func (b *buying) over(n *purchase.Need, x float64) string {
	if n.Metres {
		return b.amount(n, x) + " of "
	}
	return b.amount(n, x) + " × "
}

// basket words one way to buy it.
func (b *buying) basket(title string, k *purchase.Basket) BasketRow {
	row := BasketRow{
		Title: title, Price: b.cents(float64(k.Price)), Proof: "nothing cheaper is possible", Shops: []ShopRow{}, Left: []string{},
		From: *from("Integer programme", "each offer a whole number of times, needs less what is in the drawer covered, a supplier's delivery unless its goods reach the sum from which it is free; the least sum, with proof"),
	}
	if !k.Proven {
		row.Proof = "not proved: nothing below " + b.cents(float64(k.Bound)) + " is possible with these lengths"
	}
	for _, l := range k.Lines {
		i := slices.IndexFunc(row.Shops, func(s ShopRow) bool { return s.Supplier == l.Supplier })
		if i < 0 {
			i = len(row.Shops)
			row.Shops = append(row.Shops, ShopRow{Supplier: l.Supplier, Lines: []BoughtRow{}})
		}
		row.Shops[i].Lines = append(row.Shops[i].Lines, BoughtRow{l.Offer, strconv.Itoa(l.Times), b.offered(&l), b.cents(float64(l.Cost))})
	}
	for _, d := range k.Deliveries {
		for i := range row.Shops {
			if s := &row.Shops[i]; s.Supplier == d.Supplier {
				s.Goods = b.cents(float64(d.Goods))
				if d.Charge > 0 {
					s.Delivery = b.cents(float64(d.Charge))
				}
			}
		}
	}
	for i := range b.a.Needs {
		n := &b.a.Needs[i]
		if over := k.Left[n.Article]; over > 1e-6 {
			row.Left = append(row.Left, b.over(n, over)+n.Words)
		}
	}
	return row
}

// offered is an offer in words.
func (b *buying) offered(l *purchase.Line) string {
	if l.Length > 0 {
		return l.Words + ", length of " + b.system.Listed(l.Length)
	}
	return l.Words
}

// cents is a sum to the hundredth.
func (b *buying) cents(x float64) string {
	text := strconv.FormatFloat(x/100, 'f', 2, 64)
	if b.a.Currency == "" {
		return text
	}
	return text + " " + b.a.Currency
}
