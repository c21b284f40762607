package water

import "dropleg/internal/shop/job"

// Water that a bed takes, of its own weight, before the dew point behind it rises: common
// practice without a source (fresh silica gel holds up to 0.4 in saturated air, a bed in
// service is changed long before).
const (
	bedTakes, bedLow, bedHigh = 0.15, 0.10, 0.25
)

// Days is a number of working days with its range.
type Days struct {
	Likely float64 `json:"d"`
	Low    float64 `json:"d_low"`
	High   float64 `json:"d_high"`
}

// bed is the filling of a dryer whose bed is changed, kg; 0 where that is not known or
// where the dryer needs none.
func (w *shop) bed(p *job.Part) float64 {
	if p == nil {
		return 0
	}
	if p.Desiccant != nil {
		return float64(*p.Desiccant)
	}
	row, _ := w.ground.shelf.Treat(p.Item)
	return float64(row.Desiccant)
}

// lasts is for how many working days a filling takes water; nil where there is no filling
// that is changed, or nothing for it to take.
func (d *Dryer) lasts() *Days {
	if d.Filling <= 0 || d.Takes.Likely <= 0 {
		return nil
	}
	days := func(share, litres float64) float64 { return share * float64(d.Filling) / (litres * perLitre) }
	return &Days{
		Likely: days(bedTakes, d.Takes.Likely),
		Low:    days(bedLow, max(d.Takes.High, d.Takes.Likely)),
		High:   days(bedHigh, max(min(d.Takes.Low, d.Takes.Likely), d.Takes.Likely/10)),
	}
}
