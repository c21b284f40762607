package route

import (
	"math"

	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/quote"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// unitsOf is how finely prices are counted in the search: fine enough that a way counts
// the same in one piece and in many.
const unitsOf = 1e6

func counted(money float64) int64 { return int64(math.Round(money * unitsOf)) }

// Prices is what the search reckons with, in money; work is in it.
type Prices struct {
	Metre    float64 `json:"metre"`  // of main, clipped to a wall within reach
	Leg      float64 `json:"leg"`    // a metre of drop leg
	Bend     float64 `json:"bend"`   // a corner
	Tee      float64 `json:"tee"`    // a branching
	Valve    float64 `json:"valve"`  //
	Hole     float64 `json:"hole"`   // through a wall
	Rate     float64 `json:"rate"`   // an hour's work
	Stated   bool    `json:"stated"` // the job has prices of this stock
	Currency string  `json:"currency,omitempty"`
}

// pen is what lines are drawn with.
type pen struct {
	stock      catalog.Stock
	main, drop string // sizes
}

// pricesOf reckons prices from the job's list and its labour, and where it has none as
// is usual.
func pricesOf(j *job.Job, p pen) Prices {
	list := map[string]float64{}
	for _, x := range j.Prices.List {
		list[parts.Fold(x.Article)] = x.Each
	}
	out := Prices{Rate: usualRate, Currency: j.Prices.Currency}
	if out.Currency == "" {
		out.Currency = j.Site.Currency
	}
	if l := j.Prices.Labour; l != nil && l.Rate != nil {
		out.Rate = *l.Rate
	}
	goods := func(kind, size string, usual float64) float64 {
		name := p.stock.Stock + " " + kind + " " + size
		if kind == "" {
			name = p.stock.Stock + " " + size
		}
		if each, ok := list[parts.Fold(name)]; ok {
			out.Stated = true
			return each
		}
		return usual
	}
	minutes := func(n float64) float64 { return n / 60 * out.Rate }
	joint := 0.0
	if len(p.stock.Joining) > 0 {
		joint = minutes(quote.Minutes(j, p.stock.Joining[0]))
	}
	metre := minutes(quote.Minutes(j, quote.Metre) + quote.Minutes(j, quote.Support)/1.5) // a clip about every 1.5 m
	out.Metre = goods("", p.main, usualMetre) + metre
	out.Leg = goods("", p.drop, usualMetre*0.7) + metre
	out.Bend = goods("elbow-90", p.main, usualElbow) + 2*joint
	if p.stock.Corners == "sweep" {
		out.Bend = minutes(bendWork)
	}
	out.Tee = goods("tee", p.main, usualTee) + 3*joint
	out.Valve = goods("ball-valve", p.drop, usualValve) + 2*joint
	out.Hole = holeGoods + minutes(holeWork)
	return out
}
