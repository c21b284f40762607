package quote

import (
	"math"

	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Line is work of one kind.
type Line struct {
	What    string    `json:"what"` // a way of joining, metre, support, outlet, plant part
	Words   string    `json:"words"`
	Number  float64   `json:"number"`
	Minutes float64   `json:"minutes_each"`
	Usual   bool      `json:"usual,omitempty"` // the job states no time of its own
	Hours   float64   `json:"hours"`
	Cost    buy.Money `json:"cost_cents"`
}

// Answer is a quotation in figures.
type Answer struct {
	Currency string    `json:"currency,omitempty"`
	Lines    []Line    `json:"lines"`
	Hours    float64   `json:"hours"`
	Rate     *float64  `json:"rate_1_h,omitempty"` // nil: not stated, so that work has no price
	Work     buy.Money `json:"work_cents"`
	Material buy.Money `json:"material_cents"` // the cheapest basket with deliveries
	Margin   buy.Money `json:"margin_cents"`   // on material
	Net      buy.Money `json:"net_cents"`
	Tax      buy.Money `json:"tax_cents"`
	Gross    buy.Money `json:"gross_cents"`
	MarginBy float64   `json:"margin"`
	TaxBy    float64   `json:"tax"`
	Unsold   int       `json:"without_price"` // articles that are in no price
}

// Of reckons a job that is planned; what stands is not in it.
func Of(j *job.Job, shelf *catalog.Catalog, p *parts.Answer, h *hold.Answer, bought *purchase.Answer) *Answer {
	labour := j.Prices.Labour
	if labour == nil {
		labour = &job.Labour{}
	}
	a := &Answer{Currency: bought.Currency, Rate: labour.Rate, Lines: []Line{}, Unsold: len(bought.Unsold) + len(bought.Uncut)}
	numbers := count(j, shelf, p, h)
	for _, t := range usual {
		n := numbers[t.what]
		if n <= 0 {
			continue
		}
		l := Line{What: t.what, Words: t.words, Number: n}
		l.Minutes, l.Usual = t.in(j)
		l.Hours = n * l.Minutes / 60
		if labour.Rate != nil {
			l.Cost = round(l.Hours * *labour.Rate)
		}
		a.Hours += l.Hours
		a.Work += l.Cost
		a.Lines = append(a.Lines, l)
	}
	if bought.Basket != nil {
		a.Material = bought.Basket.Price
	}
	if labour.Margin != nil {
		a.MarginBy = float64(*labour.Margin)
	}
	if labour.Tax != nil {
		a.TaxBy = float64(*labour.Tax)
	}
	a.Margin = share(a.Material, a.MarginBy)
	a.Net = a.Work + a.Material + a.Margin
	a.Tax = share(a.Net, a.TaxBy)
	a.Gross = a.Net + a.Tax
	return a
}

// count is how much there is to do of each kind.
func count(j *job.Job, shelf *catalog.Catalog, p *parts.Answer, h *hold.Answer) map[string]float64 {
	numbers := map[string]float64{}
	for i := range p.Joints {
		if p.Joints[i].State == parts.Planned {
			numbers[usual[find(usual, p.Joints[i].Kind)].what]++
		}
	}
	for i := range p.Lines {
		l := &p.Lines[i]
		if l.State != parts.Planned {
			continue
		}
		switch {
		case l.Group == parts.Stock && l.Length != nil:
			numbers[Metre] += float64(*l.Length)
		case l.Group == parts.Plant || l.Group == parts.Treatment:
			numbers[Plant] += float64(l.Pieces)
		}
	}
	for i := range h.Supports {
		if h.Supports[i].State == string(parts.Planned) {
			numbers[Support]++
		}
	}
	numbers[Metre] = math.Round(numbers[Metre]*1e4) / 1e4 // to a tenth of a millimetre, as lists state it
	index := job.NewIndex(j)
	for i := range j.Outlets {
		if at := index.Point(j.Outlets[i].Point); at == nil || at.State == "" || at.State == string(parts.Planned) {
			numbers[Outlet]++
		}
	}
	return numbers
}

func round(money float64) buy.Money { return buy.Money(math.Round(money * 100)) }

func share(of buy.Money, by float64) buy.Money { return buy.Money(math.Round(float64(of) * by)) }
