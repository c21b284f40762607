package parts

import (
	"strings"

	"dropleg/internal/shop/job"
)

// price puts the job's own prices and what is in the drawer to the lines.
func (c *counter) price(a *Answer) {
	prices, drawer := map[string]job.Price{}, map[string]float64{}
	for _, p := range c.job.OwnPrices() {
		prices[fold(p.Article)] = p
	}
	for _, d := range c.job.Prices.Drawer {
		drawer[fold(d.Article)] += d.Number
	}
	a.Cost, a.Unpriced = c.priceLines(a.Lines, prices, drawer)
	a.ImpliedCost, a.ImpliedUnpriced = c.priceLines(a.Implied, prices, drawer)
}

// priceLines prices the planned lines and takes what there is out of the drawer.
func (c *counter) priceLines(lines []Line, prices map[string]job.Price, drawer map[string]float64) (cost float64, unpriced int) {
	for i := range lines {
		l := &lines[i]
		if l.Group == Made || l.State != Planned {
			continue
		}
		amount := float64(l.Pieces)
		if l.Group == Stock || l.Group == Supplies {
			amount = float64(lengthOf(l.Length))
		}
		p, ok := c.priceOf(prices, l)
		if l.Group == Supplies { // rolls and tins in the drawer, metres here
			ok = ok && p.Per == "m" && amount > 0
		} else {
			// What is in the drawer serves the first line that asks for it.
			name := fold(l.Article)
			l.Drawer = min(drawer[name], amount)
			drawer[name] -= l.Drawer
		}
		if !ok {
			unpriced++
			continue
		}
		each := p.Each
		if p.Per == "m" && l.Group == Hose {
			each *= float64(lengthOf(l.Length))
		}
		sum := rounded((amount-l.Drawer)*each, 100)
		l.Each, l.Cost = &each, &sum
		cost = rounded(cost+sum, 100)
	}
	return cost, unpriced
}

// priceOf finds a price by the article's full name, then without its stock.
func (c *counter) priceOf(prices map[string]job.Price, l *Line) (job.Price, bool) {
	for _, n := range l.Names() {
		if p, ok := prices[n]; ok {
			return p, true
		}
	}
	return job.Price{}, false
}

// Names is what a price list may know the line by, folded: the article's full name, then
// without its stock, then the row of the catalogue.
func (l *Line) Names() []string {
	names := []string{fold(l.Article)}
	if l.Stock != "" && l.Group != Stock {
		names = append(names, fold(strings.TrimPrefix(l.Article, l.Stock+" ")))
	}
	if l.Item != "" && l.Group != Coupler {
		names = append(names, fold(l.Item))
	}
	return names
}

// Fold writes an article so that case, × and spacing do not part two spellings.
func Fold(article string) string { return fold(article) }

// fold writes an article so that case, × and spacing do not part two spellings.
func fold(article string) string {
	return strings.Join(strings.Fields(strings.ToLower(strings.ReplaceAll(article, "×", "x"))), " ")
}
