package route

import (
	"context"
	"errors"
	"maps"
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// drawn draws the layout so that its lines give way where they grow: a drop leg comes off the
// main in a swan neck as wide as its growth asks, and a long main is led out of its line in
// loops, each where that leaves less growth without a place to go.
func (l *layout) drawn(ctx context.Context, d *draft) (*artist, error) {
	last, held, err := l.holding(ctx, d)
	if err != nil {
		return nil, err
	}
	best, least, wide, bows := last, Pent(job.NewIndex(last.job), held), maps.Clone(l.wide), l.bows
	for n := 0; n < mostDrawn && least > 0; n++ {
		more := l.bow
		if n%2 == 0 {
			more = l.widen
		}
		wasWide, wasBows := maps.Clone(l.wide), slices.Clone(l.bows)
		if !more(last, held) {
			continue
		}
		a, then, err := l.holding(ctx, d)
		var refused *job.Refusal
		if err != nil && (ctx.Err() != nil || !errors.As(err, &refused)) {
			return nil, err
		}
		if err != nil { // there is no room for it
			l.wide, l.bows = wasWide, wasBows
			continue
		}
		last, held = a, then
		if now := Pent(job.NewIndex(a.job), then); now < least {
			best, least, wide, bows = a, now, maps.Clone(l.wide), slices.Clone(l.bows)
		}
	}
	l.wide, l.bows = wide, bows
	return best, nil
}

// mostDrawn bounds how often a layout is drawn again to give way.
const mostDrawn = 12

// holding draws the layout and tells how its lines are held.
func (l *layout) holding(ctx context.Context, d *draft) (*artist, *hold.Answer, error) {
	a, err := l.draw(ctx, d)
	if err != nil {
		return nil, nil, err
	}
	held, err := study.Of(l.inSizes(a.job), a.shelf).Hold(ctx)
	return a, held, err
}

// inSizes is a job of the lines as drawn in the sizes that are known of them: each takes that
// of the line of its role nearest to it.
func (l *layout) inSizes(j *job.Job) *job.Job {
	if l.wish.Sized == nil {
		return j
	}
	out, was := *j, l.wish.Sized.Index()
	out.Net.Runs = slices.Clone(j.Net.Runs)
	ix := job.NewIndex(j)
	for i := range out.Net.Runs {
		r := &out.Net.Runs[i]
		way := ix.Centreline(r)
		at, _, ok := geom.OnPath(way, geom.Length(way)/2)
		off := math.Inf(1)
		for k := range was.Job().Net.Runs {
			like := &was.Job().Net.Runs[k]
			if hit, on := geom.NearestOnPath(at, was.Centreline(like)); ok && on && like.Role == r.Role && like.Stock == r.Stock && hit.Distance < off {
				r.Size, off = like.Size, hit.Distance
			}
		}
	}
	return &out
}

// Pent is how much growth has nowhere to go, in metres, of lines that do not stand yet and are
// not the plant's own.
func Pent(ix *job.Index, held *hold.Answer) (sum float64) {
	mine := func(x *hold.Stretch) bool {
		return x != nil && slices.ContainsFunc(x.Pieces, func(p hold.Piece) bool {
			r := ix.Run(p.Run)
			return r != nil && r.Role != "link" && r.State != "existing"
		})
	}
	for i := range held.Held {
		if h := &held.Held[i]; h.Needed == nil && mine(stretchOf(held, h.Where)) {
			sum += float64(h.Growth)
		}
	}
	for i := range held.Legs {
		if leg := &held.Legs[i]; leg.Short && leg.Takes != nil && mine(stretchOf(held, leg.Stretch)) {
			sum += float64(leg.Moves - *leg.Takes)
		}
	}
	return sum
}

// widen notes which necks of drop legs have to be wider: so wide that they take the growth of
// the leg, though the main gave way to nothing. It says whether any has.
func (l *layout) widen(a *artist, held *hold.Answer) (more bool) {
	ix := job.NewIndex(a.job)
	for i := range held.Legs {
		leg := &held.Legs[i]
		x := stretchOf(held, leg.Stretch)
		if x == nil || !leg.Short || !ofRoles(ix, x, "drop") {
			continue
		}
		foot := slices.IndexFunc(l.maze.feet, func(f foot) bool { return f.at.Plan().Distance(x.From.At.Plan()) < merge })
		if foot < 0 {
			continue
		}
		was, want := math.Max(a.beside, l.wide[foot]), 0.0
		switch {
		case leg.Alone != nil:
			want = float64(*leg.Alone) + merge
		case leg.Takes != nil && *leg.Takes > 0:
			// Behind its tee: of the two the softer gives way, and a neck is soft as the cube of
			// its length. That is where to try; whether it does is held against the law again.
			want = was*math.Cbrt(float64(leg.Moves / *leg.Takes)) + merge
		}
		if want = math.Min(want, widest); want > was+merge {
			l.wide[foot], more = want, true
		}
	}
	return more
}

// widest is how far a leg's take-off may stand from where it comes down, in metres.
const widest = 0.8

func stretchOf(held *hold.Answer, id string) *hold.Stretch {
	for i := range held.Stretches {
		if held.Stretches[i].ID == id {
			return &held.Stretches[i]
		}
	}
	return nil
}

// ofRoles says whether all lines of a stretch have one of some roles.
func ofRoles(ix *job.Index, x *hold.Stretch, roles ...string) bool {
	return !slices.ContainsFunc(x.Pieces, func(p hold.Piece) bool {
		r := ix.Run(p.Run)
		return r == nil || !slices.Contains(roles, r.Role)
	})
}

// turns finds the room that the fittings and corners of a leg and of a main take.
func (a *artist) turns() {
	leg := a.apart(a.largest(a.pen.drop, "drop"))
	a.gap = a.apart(a.largest(a.pen.main, "main", "branch", "ring"))
	a.rise, a.beside = math.Max(legRise, leg), math.Max(legBeside, leg)
	if a.pen.stock.Corners != "sweep" {
		return
	}
	z, _ := a.pen.stock.Size(a.pen.drop) // bends want legs of their radius
	r := float64(a.pen.stock.LeastRadius(z))
	a.rise, a.beside = math.Max(a.rise, r+sweepRoom), math.Max(a.beside, 2*r+sweepRoom)
	z, _ = a.pen.stock.Size(a.pen.main)
	a.bend = float64(a.pen.stock.LeastRadius(z)) + sweepRoom
}

// apart is how far apart the centres of two fittings of a size have to stand, in metres, so
// that the line between them is as long as both hold.
func (a *artist) apart(size string) float64 {
	z, _ := a.pen.stock.Size(size)
	most := 0.0
	for _, k := range a.shelf.Kinds() {
		if fitting := k.Group == catalog.Fitting && (k.Has(catalog.Turns) || k.Has(catalog.Branches) || k.Has(catalog.Unions)); !fitting && k.Group != catalog.Valve {
			continue
		}
		if out, ok := a.shelf.TakeOutOf(a.pen.stock, z, k.Kind); ok {
			most = math.Max(most, float64(out.CentreEnd))
		}
	}
	return 2*most + merge
}

// largest is the largest size that lines of some roles were given, else the one that they are
// drawn with.
func (l *layout) largest(drawn string, roles ...string) string {
	if l.wish.Sized == nil {
		return drawn
	}
	most := 0.0
	for i := range l.wish.Sized.Job().Net.Runs {
		r := &l.wish.Sized.Job().Net.Runs[i]
		z, ok := l.pen.stock.Size(r.Size)
		if ok && r.Stock == l.pen.stock.Stock && r.State != "existing" && slices.Contains(roles, r.Role) && float64(z.Outside) > most {
			drawn, most = r.Size, float64(z.Outside)
		}
	}
	return drawn
}

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
