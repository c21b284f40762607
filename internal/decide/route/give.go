package route

import (
	"context"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// drawn draws the layout so that its drop legs give way where they grow: the level piece by
// which one comes out of the main is as long as its growth asks, where that leaves fewer
// lines held.
func (l *layout) drawn(ctx context.Context, d *draft) (*artist, error) {
	a, err := l.draw(ctx, d)
	if err != nil {
		return nil, err
	}
	held, err := study.Of(a.job, a.shelf).Hold(ctx)
	if err != nil {
		return nil, err
	}
	if !l.widen(a, held) {
		return a, nil
	}
	wider, err := l.draw(ctx, d)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil { // there is no room for it
		clear(l.wide)
		return a, nil
	}
	then, err := study.Of(wider.job, wider.shelf).Hold(ctx)
	if err != nil {
		return nil, err
	}
	if len(then.Held) >= len(held.Held) {
		clear(l.wide)
		return a, nil
	}
	return wider, nil
}

// widen notes what legs want to be longer; it says whether any does.
func (l *layout) widen(a *artist, held *hold.Answer) (more bool) {
	ix := job.NewIndex(a.job)
	for i := range held.Held {
		h := &held.Held[i]
		if h.Needed == nil || h.There == nil {
			continue
		}
		foot, off := -1, 4*math.Max(a.beside, aside)
		if slices.ContainsFunc(h.Runs, func(id job.ID) bool { r := ix.Run(id); return r == nil || r.Role != "drop" }) {
			continue // what a main pushes is not for a leg alone to take up
		}
		for k := range l.maze.feet {
			if d := l.maze.feet[k].at.Plan().Distance(h.At.Plan()); d < off {
				foot, off = k, d
			}
		}
		if foot < 0 {
			continue
		}
		was := math.Max(a.beside, l.wide[foot])
		if want := math.Max(was+float64(*h.Needed-*h.There), float64(*h.Needed)) + merge; want > was+merge && want < widest {
			l.wide[foot], more = want, true
		}
	}
	return more
}

// widest is how far a leg's take-off may stand from where it comes down, in metres.
const widest = 0.8

// elbows sets a fitting where a line that is bent by hand has no room for its bend, in what
// was drawn.
func (a *artist) elbows(ctx context.Context) error {
	if a.pen.stock.Corners != "sweep" {
		return nil
	}
	kind := a.inLine(func(k catalog.Kind) bool {
		return k.Has(catalog.Turns) && k.Group == catalog.Fitting && k.FixesTo == "" && math.Abs(geom.Angle(k.Ports[0].Toward, k.Ports[1].Toward)-math.Pi/2) < straight
	})
	held, err := study.Of(a.job, a.shelf).Hold(ctx)
	if err != nil || kind == "" {
		return err
	}
	for i := range held.Bends {
		if b := &held.Bends[i]; b.Least > 0 && !b.Fits && !a.plant[b.Run] {
			a.setIn(kind, b.At)
		}
	}
	return nil
}
