package extend

import (
	"context"
	"fmt"
	"slices"

	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// machines are the two ways to have another compressor.
func (w *work) machines(ctx context.Context) ([]Proposal, error) {
	m, err := w.study.Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	var out []Proposal
	for _, way := range []struct {
		name string
		put  func(d *draft) error
	}{
		{"in its place", func(d *draft) error { return d.machine(m, w.wish.Machine) }},
		{"beside it", func(d *draft) error { return d.beside(m, w.wish.Machine) }},
	} {
		d := draft{study: w.study}
		if err := way.put(&d); err != nil {
			if fatal := w.remember(err); fatal != nil {
				return nil, fatal
			}
			continue
		}
		p, err := w.finish(ctx, &Proposal{Name: way.name, Notes: w.setting(m, &d)}, d)
		if err != nil {
			return nil, err
		}
		out = append(out, *p)
	}
	for i := range out {
		if w.refused != nil { // of two ways the other
			out[i].Notes = append(slices.Clone(out[i].Notes), "There is another way that it could not take: "+why(w.refused))
		}
	}
	return out, nil
}

// setting is what to know of a second compressor; nothing where none has come.
func (w *work) setting(m *model.Model, d *draft) []string {
	for i := range d.study.Job().Net.Points {
		p := &d.study.Job().Net.Points[i]
		now := w.study.Index().Point(p.ID)
		if k, ok := d.study.Catalog().Kind(p.Part.Kind); now != nil || !ok || !k.Has(catalog.Supplies) {
			continue
		}
		first, second := d.least(m), ""
		if plate := p.Part.Compressor; plate != nil && plate.CutIn != nil && plate.CutOut != nil {
			second = band(*plate.CutIn, *plate.CutOut, w.wish.System)
		}
		return besideNotes(band(first.CutIn, first.CutOut, w.wish.System), second)
	}
	return nil
}

// least is the compressor that delivers least; nil without one on the drawing.
func (d *draft) least(m *model.Model) *model.Compressor {
	var now *model.Compressor
	for i := range m.Compressors() {
		c := &m.Compressors()[i]
		if d.study.Index().Point(c.ID) != nil && (now == nil || c.FreeAir < now.FreeAir) {
			now = c
		}
	}
	return now
}

// machine puts another class in place of the compressor that delivers least; its pressure band
// stays, as far as the class reaches it.
func (d *draft) machine(m *model.Model, class string) error {
	row, _ := d.study.Catalog().Machine(class)
	now := d.least(m)
	if now == nil {
		return refuse("no-compressor", "machine", "the job has no compressor whose place another could take", "draw the compressor with its line to the receiver")
	}
	plate := map[string]any{"control": row.Control}
	if row.CutOut >= now.CutOut {
		plate["cut_in_kPa_g"], plate["cut_out_kPa_g"] = float64(now.CutIn)/1e3, float64(now.CutOut)/1e3
	}
	return d.take(job.AllOf("another compressor", cure.Set(now.ID, "part.item", row.Machine), cure.Set(now.ID, "part.compressor", plate)))
}
