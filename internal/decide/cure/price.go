package cure

import "dropleg/engine/unit"

// amount is a number of one article, or of metres of it; metres is what a price
// per metre counts where the number is one of pieces.
type amount struct {
	article string
	number  float64
	metres  float64
}

// priceOf is what an amount costs by the job's own price list; nil where the
// list does not know it. What lies in the drawer is not counted: it may be
// wanted elsewhere.
func (b *Bench) priceOf(a amount) *float64 {
	for _, p := range b.job.OwnPrices() {
		if p.Article != a.article {
			continue
		}
		total := p.Each * a.number
		if p.Per == "m" && a.metres > 0 {
			total = p.Each * a.metres
		}
		return &total
	}
	return nil
}

// long is a length in words.
func (b *Bench) long(metres float64) string { return b.text(unit.KindLength, metres) }
