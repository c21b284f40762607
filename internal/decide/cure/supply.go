package cure

import (
	"cmp"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// mostClasses is how many larger classes of compressor are tried.
const mostClasses = 2

// compressors proposes the next classes of the catalogue in place of the compressor
// that delivers least: those that reach the present cut-out, and with which all
// together deliver more than is taken in the mean. The band stays as it is.
func (b *Bench) compressors(a *day.Answer) []*proposal {
	all := unit.FreeAir(0)
	var now *model.Compressor
	for i := range b.model.Compressors() {
		c := &b.model.Compressors()[i]
		all += c.FreeAir
		if b.idx.Point(c.ID) != nil && (now == nil || c.FreeAir < now.FreeAir) {
			now = c
		}
	}
	if now == nil {
		return nil
	}
	rows := slices.DeleteFunc(b.shelf.Machines(), func(m catalog.Machine) bool {
		delivers := unit.FreeAir(m.FreeAir.Value)
		return delivers <= now.FreeAir || m.CutOut < now.CutOut || all-now.FreeAir+delivers <= a.Taken
	})
	slices.SortStableFunc(rows, func(x, y catalog.Machine) int { return cmp.Compare(x.FreeAir.Value, y.FreeAir.Value) })
	var out []*proposal
	for _, m := range rows[:min(len(rows), mostClasses)] {
		plate := map[string]any{"cut_in_kPa_g": kilo(float64(now.CutIn)), "cut_out_kPa_g": kilo(float64(now.CutOut)), "control": m.Control}
		out = append(out, &proposal{
			words: "a larger compressor, of the class " + m.Words, place: "compressor",
			edits: []job.Edit{Set(now.ID, "part.item", m.Machine), Set(now.ID, "part.compressor", plate)},
			guess: m.FreeAir.Value, price: b.priceOf(amount{m.Machine, 1, 0}),
		})
	}
	return out
}

// band proposes other ends of the band: where tools go short a higher cut-in, half the
// way to the least band and all of it; where a motor starts too often a lower one.
func (b *Bench) band(d Days) []*proposal {
	now, top := math.Inf(1), math.Inf(1)
	for _, c := range b.model.Compressors() {
		now, top = math.Min(now, float64(c.CutIn)), math.Min(top, float64(c.CutOut))
	}
	limit := top - differential
	wanted := []float64{(now + limit) / 2, limit}
	if len(d.Short) == 0 {
		wanted = []float64{top - (top-now)*math.Max(d.Times, 1)}
	}
	if r := remedy(d.Answer, day.HigherIn); r != nil && r.Does && len(d.Short) > 0 {
		wanted = []float64{float64(r.CutIn)}
	}
	var out []*proposal
	for _, w := range wanted {
		to, words := math.Min(b.round(w), limit), "raised"
		if len(d.Short) == 0 {
			to, words = b.roundDown(w), "lowered"
		}
		if math.Abs(to-now) < 1e3 || to <= 0 || len(d.Short) == 0 && to > now || len(d.Short) > 0 && to < now || len(out) > 0 && to == out[0].guess {
			continue
		}
		p := &proposal{
			words: "cut-in " + words + " from " + b.text(unit.KindGauge, now) + " to " + b.text(unit.KindGauge, to), place: "band", guess: to,
		}
		for _, c := range b.model.Compressors() {
			if b.idx.Point(c.ID) != nil && (float64(c.CutIn) < to || len(d.Short) == 0) {
				p.edits = append(p.edits, Set(c.ID, "part.compressor.cut_in_kPa_g", kilo(to)))
			}
		}
		if len(p.edits) > 0 {
			out = append(out, p)
		}
	}
	return out
}
