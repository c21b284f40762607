package cure

import (
	"context"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// MoveDryer finds out whether a dryer, set into a line on the other side of the receivers,
// mends a matter: before them it sees what the compressors deliver, behind them what the
// tools draw. A union closes the gap that it leaves.
func (b *Bench) MoveDryer(ctx context.Context, dryer job.ID, w Wet) ([]job.Cure, error) {
	p := b.idx.Point(dryer)
	if p == nil {
		return nil, nil
	}
	run, ahead, words := b.feedLine()
	for _, d := range b.model.Dryers() {
		if d.ID == dryer && d.Delivery {
			run, ahead = b.trunk()
			words = "the dryer moved behind the receiver, into the line that all tools' air passes"
		}
	}
	if run == nil || run.From.Point == dryer || run.To.Point == dryer {
		return nil, nil
	}
	edits := []job.Edit{
		Set(dryer, "part", map[string]any{"kind": b.closing()}),
		b.into(run, ahead, b.idx.FreshID("point.dryer"), p.Part),
	}
	told, ok, err := b.dries(ctx, w, edits)
	if err != nil || !ok {
		return nil, err
	}
	return []job.Cure{{Words: words + " (" + told + ")", Edits: forms(edits), Cures: true, Verified: true}}, nil
}

// into is the edit that sets a part into the middle of a line, in the way of the air.
func (b *Bench) into(run *job.Run, ahead bool, id job.ID, part job.Part) job.Edit {
	in, out := "in", "out"
	if !ahead {
		in, out = out, in
	}
	along := unit.Length(geom.Length(b.idx.Centreline(run)) / 2)
	return &job.Split{Run: run.ID, Along: &along, In: in, Out: out, Point: id, Part: &part}
}

// closing is the kind of part that takes the place of one that is taken out.
func (b *Bench) closing() string {
	for _, k := range b.shelf.Kinds() {
		if k.Has(catalog.Unions) && len(k.Ports) == 2 && k.Ports[0].ID == "in" && k.Ports[1].ID == "out" {
			return k.Kind
		}
	}
	return ""
}

// feedLine is the longest line between a compressor and a receiver, drawn; nil without one.
func (b *Bench) feedLine() (best *job.Run, ahead bool, words string) {
	long := 0.0
	for i := range b.job.Net.Runs {
		r := &b.job.Net.Runs[i]
		from, to := b.supplies(r.From.Point), b.supplies(r.To.Point)
		if !(from && b.stores(r.To.Point) || to && b.stores(r.From.Point)) {
			continue
		}
		if l := geom.Length(b.idx.Centreline(r)); l > long {
			best, ahead, long = r, from, l
		}
	}
	return best, ahead, "the dryer moved before the receiver, into the line from the compressor"
}

func (b *Bench) supplies(id job.ID) bool { return b.has(id, catalog.Supplies) }
func (b *Bench) stores(id job.ID) bool   { return b.has(id, catalog.Stores) }

// has says whether the part at a point has a role.
func (b *Bench) has(id job.ID, role catalog.Role) bool {
	p := b.idx.Point(id)
	if p == nil {
		return false
	}
	k, _ := b.shelf.Kind(p.Part.Kind)
	return k.Has(role)
}

// ThawBy tries what keeps a cold zone from freezing its lines: a bed in the line before
// them, and the zone kept warm. Thawed judges the shop after.
func (b *Bench) ThawBy(ctx context.Context, zone *job.Zone, first *job.Run, thawed func(*Trial) (bool, error)) ([]job.Cure, error) {
	var out []job.Cure
	try := func(words string, price *float64, edits ...job.Edit) error {
		t, err := b.Try(ctx, edits...)
		if refused(err) {
			return nil
		}
		if err != nil {
			return err
		}
		ok, err := thawed(t)
		if err != nil || !ok {
			return err
		}
		harmed, err := t.Harmed(ctx, everywhere)
		if err == nil && len(harmed) == 0 {
			out = append(out, job.Cure{Words: words, Edits: forms(edits), Price: price, Cures: true, Verified: true})
		}
		return err
	}
	if first != nil {
		if row, ok := b.driest(); ok {
			edits := []job.Edit{b.into(first, true, b.idx.FreshID("point.dryer"), job.Part{Kind: row.Kind, Item: row.Item})}
			if err := try("a "+row.Words+" in the line before them", b.priceOf(amount{row.Item, 1, 0}), edits...); err != nil {
				return nil, err
			}
		}
	}
	if zone.ID == "" || zone.Climate == "outside" {
		return out, nil
	}
	words := Within(zone.Name) + " kept at " + b.text(unit.KindTemperature, float64(unit.Celsius(keptWarm))) + " in winter"
	err := try(words, nil, Set(zone.ID, "winter_C", keptWarm))
	return out, err
}

// keptWarm is what a room is kept at so that nothing freezes in it, °C: common practice, no source.
const keptWarm = 5

// driest is the smallest dryer that dries furthest and is able to take what the compressors
// deliver.
func (b *Bench) driest() (best catalog.Treat, ok bool) {
	for _, t := range b.shelf.Treatment() {
		if t.DewPoint == nil || t.Size != "" || float64(t.RatedFlow) < b.delivered() {
			continue
		}
		if !ok || *t.DewPoint < *best.DewPoint || *t.DewPoint == *best.DewPoint && t.RatedFlow < best.RatedFlow {
			best, ok = t, true
		}
	}
	return best, ok
}
