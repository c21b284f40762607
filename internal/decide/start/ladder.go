package start

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/air"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/model"
)

// ladders list what there is to choose from before sizes are picked, low to high.
type ladders struct {
	grades  []grade
	filters []catalog.Treat // of the main
	holders []catalog.Treat // regulators with filter, at outlets
	fine    []catalog.Treat // fine filters, at outlets for paint
}

// sizes is what a shop is drawn with before its sizes are picked: places on the ladders.
type sizes struct {
	line    string // of the lines of the plant
	grade   int    // hoses and couplers of the whole shop
	filter  int    // the main filter
	holders []int  // regulators, by seat
}

func (b *brief) ladders() *ladders {
	l := &ladders{}
	for _, g := range grades(b.Units) {
		_, hose := b.shelf.Hose(g.hose)
		_, coupler := b.shelf.Coupler(g.coupler)
		if hose && coupler {
			l.grades = append(l.grades, g)
		}
	}
	l.filters = b.treats(func(k catalog.Kind) bool {
		return k.Has(catalog.Filters) && !k.Has(catalog.Regulates) && !k.Has(catalog.DeOils)
	})
	l.filters = slices.DeleteFunc(l.filters, func(t catalog.Treat) bool { return relief(b.cutOut(), t.Rating) > t.Rating })
	if b.bare = len(l.filters) == 0; b.bare {
		// No filter bears what the relief valve opens at: a plain separator does.
		l.filters = b.treats(func(k catalog.Kind) bool { return k.Has(catalog.Separates) })
	}
	l.holders = b.treats(func(k catalog.Kind) bool { return k.Has(catalog.Filters) && k.Has(catalog.Regulates) })
	l.fine = b.treats(func(k catalog.Kind) bool { return k.Has(catalog.DeOils) })
	return l
}

// treats lists the rows of the kinds that do something, by their flow.
func (b *brief) treats(does func(catalog.Kind) bool) []catalog.Treat {
	var out []catalog.Treat
	for _, row := range b.shelf.Treatment() {
		if k, ok := b.shelf.Kind(row.Kind); ok && does(k) && row.RatedFlow > 0 {
			out = append(out, row)
		}
	}
	slices.SortStableFunc(out, func(x, y catalog.Treat) int { return cmp.Compare(x.RatedFlow, y.RatedFlow) })
	return out
}

// begin is what the shop is drawn with at first: treatment at outlets by its rated flow for
// the thirstiest tool, lines of the plant wide enough for two such tools, and the main filter
// so that what two of them take costs it no more than it may cost when it is loaded.
func (b *brief) begin(c stand, l *ladders) sizes {
	z := sizes{holders: make([]int, len(c.seats))}
	most := 0.0
	for k, s := range c.seats {
		q := 0.0
		for _, i := range s.tools {
			q = math.Max(q, b.tools[i].Flow.Value)
		}
		most = math.Max(most, q)
		z.holders[k] = rung(len(l.holders), func(i int) bool { return float64(l.holders[i].RatedFlow) >= 1.5*q })
	}
	lines := slices.Clone(b.stock.Sizes)
	slices.SortStableFunc(lines, func(x, y catalog.Size) int { return cmp.Compare(x.Bore, y.Bore) })
	z.line = lines[rung(len(lines), func(i int) bool {
		return float64(lines[i].Bore) >= atLeast && b.speed(2*most, float64(lines[i].Bore)) <= mainFast
	})].Size
	in := b.cutIn().Abs(air.StandardPressure)
	z.filter = rung(len(l.filters), func(i int) bool {
		kind, _ := b.shelf.Kind(l.filters[i].Kind)
		return float64(model.Carries(kind, l.filters[i], in, air.StandardPressure)) >= 2*most
	})
	return z
}

// The velocity, m/s, and the least bore, m, that lines of the plant are drawn with at
// first: the default of the rules, and what is usual behind a small receiver.
const mainFast, atLeast = 6, 0.015

// speed is the velocity of free air q in a bore at about the cut-in pressure, m/s.
func (b *brief) speed(q, bore float64) float64 {
	const free = 1e5 // Pa, free air
	return q * free / (free + float64(b.cutIn())) / (math.Pi / 4 * bore * bore)
}

// rung is the first of n that does, else the last.
func rung(n int, does func(int) bool) int {
	for i := range n {
		if does(i) {
			return i
		}
	}
	return max(0, n-1)
}
