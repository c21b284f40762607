package cure

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// differential is the least band between cut-in and cut-out that a pressure
// switch of a shop compressor is set to: custom of the trade, Pa.
const differential = 70e3

// round puts a pressure up to the next step that people set by: 5 psi or 10 kPa.
func (b *Bench) round(p float64) float64 {
	step := 10e3
	if b.system == unit.US {
		step = 5 * 6894.757293168361
	}
	return step * math.Ceil(p/step-1e-6)
}

// roundDown puts a pressure down to such a step.
func (b *Bench) roundDown(p float64) float64 { return -b.round(-p) }

// kilo is a pressure as the file's kPa, to a tenth.
func kilo(p float64) float64 { return math.Round(p/100) / 10 }

// cutIn proposes to raise the cut-in of the compressors, by what is lacking,
// and not nearer to their cut-out than a pressure switch allows.
func (b *Bench) cutIn(got *flow.Tool, lack float64) []*proposal {
	now, top := math.Inf(1), math.Inf(1)
	for _, c := range b.model.Compressors() {
		now, top = math.Min(now, float64(c.CutIn)), math.Min(top, float64(c.CutOut))
	}
	// A tool behind a regulator that holds gains nothing by it.
	for i := range got.Path {
		if k, ok := b.shelf.Kind(b.model.Elements()[got.Path[i].Element].Kind); ok && k.Has(catalog.Regulates) && !wideOpen(&got.Path[i]) {
			return nil
		}
	}
	limit := top - differential
	to := math.Min(b.round(now+1.1*lack), limit)
	if !(to > now+1e3) {
		return nil
	}
	var edits []job.Edit
	for _, c := range b.model.Compressors() {
		if float64(c.CutIn) < to {
			edits = append(edits, Set(c.ID, "part.compressor.cut_in_kPa_g", kilo(to)))
		}
	}
	return []*proposal{{
		words: "cut-in raised from " + b.text(unit.KindGauge, now) + " to " + b.text(unit.KindGauge, to),
		edits: edits, place: "supply", guess: to - now,
	}}
}

// wideOpen: a regulator that passes what it gets: it takes more than holding a
// set pressure explains, or nearly nothing.
func wideOpen(s *flow.Step) bool { return float64(s.Loss) < 0.03*float64(s.In) }

// treatment proposes the next size of a part that the catalogue fills in, and
// for a regulator that holds its set pressure a higher one.
func (b *Bench) treatment(e *model.Element, s *flow.Step, lack float64) []*proposal {
	kind, _ := b.shelf.Kind(e.Kind)
	part, key := b.part(e)
	if part == nil {
		return nil
	}
	holds := kind.Has(catalog.Regulates) && !wideOpen(s)
	if holds {
		return b.setting(e, part, key, lack)
	}
	row, ok := b.shelf.Treat(part.Item)
	if !ok || part.C != nil || part.Flow != nil || part.Clean != nil || part.Loaded != nil {
		return nil // the maker's own figures stand: no other size is known
	}
	rows := slices.DeleteFunc(b.shelf.Treatment(), func(t catalog.Treat) bool {
		return t.Kind != row.Kind || t.RatedFlow <= row.RatedFlow
	})
	slices.SortStableFunc(rows, func(x, y catalog.Treat) int { return cmp.Compare(x.RatedFlow, y.RatedFlow) })
	var steps []*proposal
	for _, t := range rows[:min(len(rows), 2)] {
		ratio := float64(row.RatedFlow) / float64(t.RatedFlow)
		edits := []job.Edit{Set(e.ID, key+"item", t.Item)}
		if part.Size != "" && t.Size != "" {
			edits = append(edits, Set(e.ID, key+"size", t.Size))
		}
		steps = append(steps, &proposal{
			words: t.Words + " instead of " + row.Words + at(b.idx, e.Outlet), edits: edits, place: string(e.ID) + "/" + e.Kind,
			guess: float64(s.Loss) * (1 - ratio*ratio), price: b.priceOf(amount{t.Item, 1, 0}), touches: []int{e.Index},
		})
	}
	return enough(steps, lack)
}

// part is the part of the job that an element stands for and where its keys
// stand in the thing of the element's id; nil where there is none. A part that
// hangs without an id of its own goes by its outlet's and is found by its kind.
func (b *Bench) part(e *model.Element) (part *job.Part, key string) {
	if p := b.idx.Point(e.ID); p != nil {
		return &p.Part, "part."
	}
	o := b.idx.Outlet(e.Outlet)
	if o == nil {
		return nil, ""
	}
	for i := range o.Hang {
		switch {
		case o.Hang[i].ID == e.ID:
			return &o.Hang[i], ""
		case o.ID == e.ID && o.Hang[i].ID == "" && o.Hang[i].Kind == e.Kind:
			return &o.Hang[i], fmt.Sprintf("hang[%d].", i)
		}
	}
	return nil, ""
}

// setting proposes a higher set pressure, not above what any tool behind the
// regulator bears.
func (b *Bench) setting(e *model.Element, part *job.Part, key string, lack float64) []*proposal {
	if part.Set == nil {
		return nil
	}
	now := float64(*part.Set)
	to := math.Min(b.round(now+1.05*lack), b.bears(e))
	if !(to > now+1e3) {
		return nil
	}
	return []*proposal{{
		words: "the regulator" + at(b.idx, e.Outlet) + " set from " + b.text(unit.KindGauge, now) + " to " + b.text(unit.KindGauge, to),
		edits: []job.Edit{Set(e.ID, key+"set_kPa_g", kilo(to))}, place: string(e.ID), guess: to - now, touches: []int{e.Index},
	}}
}

// bears is the least of the greatest pressures of the tools whose air passes an
// element; without bound where none states one.
func (b *Bench) bears(e *model.Element) float64 {
	behind := map[job.InUse]bool{}
	for i := range b.flow.Sets {
		for k := range b.flow.Sets[i].CutIn.Tools {
			t := &b.flow.Sets[i].CutIn.Tools[k]
			for n := range t.Path {
				if t.Path[n].Element == e.Index {
					behind[job.InUse{Tool: t.Tool, Outlet: t.Outlet}] = true
				}
			}
		}
	}
	limit := math.Inf(1)
	for _, p := range b.model.Pairs() {
		mine := behind[job.InUse{Tool: p.Tool, Outlet: p.Outlet}] || (e.Outlet != "" && p.Outlet == e.Outlet)
		if mine && p.Most > 0 {
			limit = math.Min(limit, float64(p.Most))
		}
	}
	return limit
}
