package screen

import (
	"context"
	"fmt"
	"strings"

	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/show/page"
)

// The lists, by what they are asked for with.
const (
	BuyList   = "buy"
	NeedList  = "parts"
	CutList   = "cut"
	JointList = "joints"
	QuoteList = "quote"
	SumList   = "sum"
)

// Book is the lists that go into one workbook with a list, that one first.
func (s *Shop) Book(ctx context.Context, name string) ([]page.Sheet, error) {
	with := map[string][]string{BuyList: {NeedList}, NeedList: {JointList}, QuoteList: {SumList}}
	var sheets []page.Sheet
	for _, n := range append([]string{name}, with[name]...) {
		sheet, err := s.List(ctx, n)
		if err != nil {
			return nil, err
		}
		sheets = append(sheets, sheet)
	}
	return sheets, nil
}

// List is one of the lists of what is bought, needed, cut, joined and quoted as a table:
// figures in the units of job files, so that a spreadsheet reckons with them. An unknown
// name is a *NotThere.
func (s *Shop) List(ctx context.Context, name string) (page.Sheet, error) {
	switch name {
	case JointList:
		take, err := s.study.Parts(ctx)
		if err != nil {
			return page.Sheet{}, fmt.Errorf("taking off: %w", err)
		}
		return jointSheet(take), nil
	case QuoteList, SumList:
		a, err := s.study.Quote(ctx)
		if err != nil {
			return page.Sheet{}, fmt.Errorf("reckoning the work: %w", err)
		}
		if name == SumList {
			return sumSheet(a), nil
		}
		return workSheet(a), nil
	}
	sheet := map[string]func(*purchase.Answer) page.Sheet{BuyList: s.buySheet, NeedList: s.needSheet, CutList: s.cutSheet}[name]
	if sheet == nil {
		return page.Sheet{}, &NotThere{name}
	}
	a, err := s.study.Purchase(ctx)
	if err != nil {
		return page.Sheet{}, fmt.Errorf("putting the purchase together: %w", err)
	}
	return sheet(a), nil
}

// buySheet is the cheapest basket with its deliveries.
func (s *Shop) buySheet(a *purchase.Answer) page.Sheet {
	out := page.Sheet{Name: "what to buy", Columns: []page.Column{
		{Head: "supplier"},
		{Head: "what"},
		{Head: "times", Kind: page.Count},
		{Head: "each, " + or(a.Currency, "money"), Kind: page.Money, Currency: a.Currency},
		{Head: "cost, " + or(a.Currency, "money"), Kind: page.Money, Currency: a.Currency, Product: &[2]int{2, 3}, Total: true},
	}}
	if a.Basket == nil {
		return out
	}
	b := &buying{Shop: s, a: a, system: s.system(Ask{})}
	for i := range a.Basket.Lines {
		l := &a.Basket.Lines[i]
		out.Rows = append(out.Rows, []any{l.Supplier, b.offered(l), l.Times, float64(l.Each) / 100, nil})
	}
	for _, d := range a.Basket.Deliveries {
		if d.Charge > 0 {
			out.Rows = append(out.Rows, []any{d.Supplier, "delivery", 1, float64(d.Charge) / 100, nil})
		}
	}
	return out
}

// needSheet is what has to be there, by stage of the work.
func (s *Shop) needSheet(a *purchase.Answer) page.Sheet {
	out := page.Sheet{Name: "what has to be there", Columns: []page.Column{
		{Head: "article"}, {Head: "what"}, {Head: "shelf"}, {Head: "number", Kind: page.Number}, {Head: "in"}, {Head: "of it spare", Kind: page.Number}, {Head: "in the drawer", Kind: page.Number},
	}}
	for _, stage := range purchase.Stages() {
		out.Columns = append(out.Columns, page.Column{Head: "for " + string(stage), Kind: page.Number})
	}
	out.Columns = append(out.Columns, page.Column{Head: "things on the drawing"})
	for i := range a.Needs {
		n := &a.Needs[i]
		in := "pieces"
		if n.Metres {
			in = "m"
		}
		row := []any{n.Article, n.Words, string(n.Group), rounded(n.Amount), in, rounded(n.Spare), rounded(n.Drawer)}
		for _, stage := range purchase.Stages() {
			row = append(row, rounded(n.Stages[stage]))
		}
		var things []string
		for _, from := range n.From {
			things = addOnce(things, string(parts.ThingOf(from)))
		}
		out.Rows = append(out.Rows, append(row, strings.Join(things, " ")))
	}
	return out
}

// rounded is a figure to a tenth of a millimetre.
func rounded(x float64) float64 { return float64(int64(x*1e4+0.5)) / 1e4 }

// cutSheet is the cuts in their order.
func (s *Shop) cutSheet(a *purchase.Answer) page.Sheet {
	out := page.Sheet{Name: "cuts", Columns: []page.Column{
		{Head: "stock"},
		{Head: "length", Kind: page.Count},
		{Head: "of m", Kind: page.Length},
		{Head: "cut m", Kind: page.Length},
		{Head: "as marked"},
		{Head: "piece"},
		{Head: "wall"},
		{Head: "along m", Kind: page.Length},
		{Head: "up m", Kind: page.Length},
	}}
	system := s.system(Ask{})
	for i := range a.Plans {
		p := &a.Plans[i]
		for n, bar := range p.Bars {
			for _, c := range bar.Cuts {
				row := []any{p.Article, n + 1, float64(bar.Length), float64(c.Length), system.Marked(c.Length), c.Piece, nil, nil, nil}
				if c.Mark != nil {
					row[6], row[7], row[8] = s.named(c.Mark.Wall), float64(c.Mark.Along), float64(c.Mark.Up)
				}
				out.Rows = append(out.Rows, row)
			}
			rest := []any{p.Article, n + 1, float64(bar.Length), float64(bar.Open), system.Marked(bar.Open), or(bar.Name, "left over"), nil, nil, nil}
			out.Rows = append(out.Rows, rest)
		}
	}
	return out
}

// jointSheet is the joints by number.
func jointSheet(take *parts.Answer) page.Sheet {
	out := page.Sheet{Name: "joints", Columns: []page.Column{
		{Head: "joint", Kind: page.Count},
		{Head: "what"},
		{Head: "state"},
		{Head: "size"},
		{Head: "one side"},
		{Head: "other side"},
		{Head: "thread"},
		{Head: "turns past hand tight", Kind: page.Number},
		{Head: "insertion mark m", Kind: page.Length},
		{Head: "seal"},
		{Head: "id"},
	}}
	for i := range take.Joints {
		k := &take.Joints[i]
		figure := func(x float64) any {
			if x <= 0 {
				return nil
			}
			return x
		}
		out.Rows = append(out.Rows, []any{
			k.Number, k.Words, string(k.State), k.Size, k.Sides[0].Thing, k.Sides[1].Thing, k.Needs.Thread,
			figure(rounded(k.Needs.Turns)), figure(float64(k.Needs.Mark)), k.Needs.Seal, k.ID,
		})
	}
	return out
}
