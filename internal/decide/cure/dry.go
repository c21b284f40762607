package cure

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Wet is a matter of the water of the air: whether it is mended by a change.
type Wet struct {
	Enough func(*water.Answer) bool
	Told   func(*water.Answer) string // what is then, in words
}

// mostDryers is how many rows of the catalogue are tried at one place.
const mostDryers = 4

// CutInDryer finds the smallest dryer of the catalogue that mends a matter of the
// water, set into the line that all air passes, behind what filters there. It is
// applied, the water of both seasons is worked out again, and it makes nobody short.
func (b *Bench) CutInDryer(ctx context.Context, w Wet, mean float64) ([]job.Cure, error) {
	run, ahead := b.trunk()
	if run == nil {
		return nil, nil
	}
	id := b.idx.FreshID("point.dryer")
	return b.firstDry(ctx, w, func(row catalog.Treat) (string, []job.Edit) {
		if row.Size != "" || float64(row.RatedFlow) < mean {
			return "", nil
		}
		edits := []job.Edit{b.into(run, ahead, id, job.Part{Kind: row.Kind, Item: row.Item})}
		if run.State == "existing" {
			edits = append(edits, Set(id, "state", "planned"))
		}
		return "a " + row.Words + " in the line from the plant", edits
	})
}

// LargerDryer finds the next dryer of the same kind with which a matter is mended; none
// where the maker's own figures stand, as no other size is known then.
func (b *Bench) LargerDryer(ctx context.Context, dryer job.ID, w Wet) ([]job.Cure, error) {
	return b.insteadOf(ctx, dryer, w, func(row, now catalog.Treat) bool { return row.Kind == now.Kind && row.RatedFlow > now.RatedFlow })
}

// DrierDryer finds a dryer that dries further in place of one, for its flow.
func (b *Bench) DrierDryer(ctx context.Context, dryer job.ID, w Wet, mean float64) ([]job.Cure, error) {
	return b.insteadOf(ctx, dryer, w, func(row, now catalog.Treat) bool {
		return row.DewPoint != nil && now.DewPoint != nil && *row.DewPoint < *now.DewPoint && float64(row.RatedFlow) >= mean
	})
}

// insteadOf tries rows of the catalogue in place of a dryer's own.
func (b *Bench) insteadOf(ctx context.Context, dryer job.ID, w Wet, fits func(row, now catalog.Treat) bool) ([]job.Cure, error) {
	p := b.idx.Point(dryer)
	if p == nil || p.Part.Flow != nil || p.Part.DewPoint != nil {
		return nil, nil
	}
	now, ok := b.shelf.Treat(p.Part.Item)
	if !ok {
		return nil, nil
	}
	return b.firstDry(ctx, w, func(row catalog.Treat) (string, []job.Edit) {
		if row.Size != now.Size || !fits(row, now) {
			return "", nil
		}
		edits := []job.Edit{Set(dryer, "part.item", row.Item)}
		if row.Kind != p.Part.Kind {
			edits = []job.Edit{job.AllOf("", Set(dryer, "part.item", nil), Set(dryer, "part.kind", row.Kind), Set(dryer, "part.item", row.Item))}
		}
		return "a " + row.Words + " instead of the " + now.Words, edits
	})
}

// DryerAt finds a dryer to hang at an outlet, before its coupler, that mends a matter.
func (b *Bench) DryerAt(ctx context.Context, outlet job.ID, w Wet) ([]job.Cure, error) {
	o := b.idx.Outlet(outlet)
	if o == nil {
		return nil, nil
	}
	place := slices.IndexFunc(o.Hang, func(p job.Part) bool {
		k, _ := b.shelf.Kind(p.Kind)
		return k.Has(catalog.Couples)
	})
	if place < 0 {
		place = len(o.Hang)
	}
	id := b.idx.FreshID("part.dryer")
	return b.firstDry(ctx, w, func(row catalog.Treat) (string, []job.Edit) {
		if row.Size == "" {
			return "", nil // it stands on the floor
		}
		part := job.Part{ID: id, Kind: row.Kind, Item: row.Item, Size: row.Size}
		add := job.AddOf(&part)
		add.What, add.To, add.At = "part", outlet, &place
		return "a " + row.Words + at(b.idx, outlet), []job.Edit{add}
	})
}

// firstDry tries dryers of the catalogue, those that cool first and the smaller first,
// and gives the first that mends the matter and makes nobody short.
func (b *Bench) firstDry(ctx context.Context, w Wet, edits func(catalog.Treat) (string, []job.Edit)) ([]job.Cure, error) {
	rows := slices.DeleteFunc(b.shelf.Treatment(), func(t catalog.Treat) bool {
		k, ok := b.shelf.Kind(t.Kind)
		return !ok || !k.Has(catalog.Dries)
	})
	warm := func(t catalog.Treat) float64 {
		if t.DewPoint == nil {
			return 0
		}
		return *t.DewPoint
	}
	slices.SortStableFunc(rows, func(x, y catalog.Treat) int {
		return cmp.Or(cmp.Compare(warm(y), warm(x)), cmp.Compare(x.RatedFlow, y.RatedFlow))
	})
	tried := map[float64]int{} // by dew point
	for _, row := range rows {
		words, all := edits(row)
		if all == nil || tried[warm(row)] == mostDryers {
			continue
		}
		tried[warm(row)]++
		told, ok, err := b.dries(ctx, w, all)
		if err != nil {
			return nil, err
		}
		if ok {
			return []job.Cure{{
				Words: fmt.Sprintf("%s (%s)", words, told), Edits: forms(all), Price: b.priceOf(amount{row.Item, 1, 0}), Cures: true, Verified: true,
			}}, nil
		}
	}
	return nil, nil
}

// dries applies edits and works the water out again.
func (b *Bench) dries(ctx context.Context, w Wet, edits []job.Edit) (told string, ok bool, err error) {
	t, err := b.Try(ctx, edits...)
	if refused(err) {
		return "", false, nil
	}
	if err != nil {
		return "", false, err
	}
	a, err := t.study.Wet(ctx)
	if err != nil || a.Untold != "" || !w.Enough(a) || a.Mean > busy*b.delivered() {
		return "", false, err
	}
	harmed, err := t.Harmed(ctx, everywhere)
	return w.Told(a), len(harmed) == 0, err
}

// busy is up to what share of what the compressors deliver may be drawn in the mean with
// a new dryer, which may blow off air to dry itself.
const busy = 0.9

// delivered is what all compressors deliver, m³/s of free air.
func (b *Bench) delivered() float64 {
	sum := 0.0
	for _, c := range b.model.Compressors() {
		sum += float64(c.FreeAir)
	}
	return sum
}

// trunk is the longest line that all tools' air passes behind the last part that takes
// dirt or water out there, and whether the air goes from its From end; nil without one.
func (b *Bench) trunk() (best *job.Run, ahead bool) {
	var common []model.Step
	for i := range b.flow.Sets {
		s := &b.flow.Sets[i].CutIn
		for k := range s.Tools {
			if len(s.Tools[k].Path) == 0 {
				continue
			}
			pair, ok := b.model.PairOf(job.InUse{Tool: s.Tools[k].Tool, Outlet: s.Tools[k].Outlet})
			if !ok {
				continue
			}
			path := b.model.Path(s.Result, pair.Index)
			if common == nil {
				common = path
				continue
			}
			common = slices.DeleteFunc(common, func(x model.Step) bool {
				return !slices.ContainsFunc(path, func(y model.Step) bool { return x.Element == y.Element })
			})
		}
	}
	long := 0.0
	for _, s := range common {
		e := &b.model.Elements()[s.Element]
		if k, _ := b.shelf.Kind(e.Kind); e.Outlet == "" && (k.Has(catalog.Filters) || k.Has(catalog.Separates)) {
			best, long = nil, 0
		}
		run := b.idx.Run(e.ID)
		if run == nil {
			continue
		}
		if l := geom.Length(b.idx.Centreline(run)); l > long {
			best, ahead, long = run, s.From == e.From, l
		}
	}
	return best, ahead
}
