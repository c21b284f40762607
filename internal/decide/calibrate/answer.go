package calibrate

import (
	"context"
	"errors"
	"math"
	"slices"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/find"
	"dropleg/internal/shop/job"
)

// Figure is one value that the readings may adjust, SI.
type Figure struct {
	What   What       `json:"what"`
	Stock  string     `json:"stock,omitempty"`
	Worn   string     `json:"condition,omitempty"`
	IDs    []job.ID   `json:"ids,omitempty"` // lines, or the filter
	Before float64    `json:"before"`        // the middle of the prior
	Prior  [2]float64 `json:"prior"`         // 19 times in 20, before any reading
	Value  float64    `json:"value"`         // Before, where the readings do not tell it
	Low    float64    `json:"low"`           // 19 times in 20
	High   float64    `json:"high"`
	Told   bool       `json:"told"`
	// Left is how much of what was open before is so still, as the ratio of the
	// deviations of the logarithm, 0 to 1.
	Left float64 `json:"left"`
	// Why the readings do not tell it: "unseen", or "like" the figure Like of Answer.Figures.
	Why  string `json:"why,omitempty"`
	Like int    `json:"like,omitempty"`
	// Odd: far from what such a thing is before any reading.
	Odd bool `json:"odd,omitempty"`
}

// Why a figure is not told.
const (
	Unseen = "unseen" // no reading moves with it more than gauges and plates are off
	Alike  = "like"   // the readings move with another figure, or all that is not known, as with it
)

// Look is one reading with what is computed for it: Pa of gauge, s of a time, a share of a
// timing.
type Look struct {
	Reading *find.Reading `json:"reading,omitempty"`
	Timing  *Timing       `json:"timing,omitempty"`
	Read    float64       `json:"read"`
	Before  float64       `json:"before"`
	After   float64       `json:"after"`
	Known   bool          `json:"known"` // false: the network has no answer for it
}

// Answer is what the readings make of the figures.
type Answer struct {
	Figures []Figure `json:"figures"`
	Looks   []Look   `json:"readings"`
	// Squared deviations of the readings, each in its own, before and after: about as many
	// as there are readings where all fits.
	Before float64       `json:"misfit_before"`
	After  float64       `json:"misfit_after"`
	Used   int           `json:"used"`
	Fits   bool          `json:"fits"`
	Unused []string      `json:"unused,omitempty"`
	Edit   *job.EditForm `json:"edit,omitempty"` // nil: nothing is told, or the readings do not fit
	edit   job.Edit
}

// Errors of readings that cannot be fitted.
var (
	ErrNoReadings = errors.New("no readings to go by: wanted pressures with the receiver's at the same moment, times of pumping up or falling, or a timing of the compressor")
	ErrNoFigures  = errors.New("nothing that can be adjusted: wanted a line, a filter or a compressor whose figures are known")
)

// toldBelow is the share of the deviation before any reading below which a figure counts as
// told, and oddBeyond how many of these deviations are far: common practice, no source.
const (
	toldBelow = 0.7
	oddBeyond = 2.5
)

// Of adjusts the figures of a job to readings; progress, which may be nil, hears how far it is.
func Of(ctx context.Context, s *study.Study, ask Ask, progress func(done, total int)) (*Answer, error) {
	if progress == nil {
		progress = func(int, int) {}
	}
	ask = ask.usable()
	if len(ask.Readings)+len(ask.Timings) == 0 {
		return nil, ErrNoReadings
	}
	figures, err := figuresOf(ctx, s)
	if err != nil {
		return nil, err
	}
	if len(figures) == 0 {
		return nil, ErrNoFigures
	}
	b, err := newBench(ctx, s, figures, ask)
	if err != nil {
		return nil, err
	}
	f := &fit{x: make([]float64, len(figures))}
	before, err := b.look(ctx, f.x)
	if err != nil {
		return nil, err
	}
	a := &Answer{Unused: slices.Clone(ask.Unused)}
	for k := range figures {
		f.free = append(f.free, k)
	}
	if err := b.settle(ctx, f); err != nil {
		return nil, err
	}
	// The likeliest figures, two ends for each, and the likeliest of those that are told.
	all := 2*len(figures) + 2
	progress(1, all)
	if err := a.judge(ctx, b, f, func(ends int) { progress(1+ends, all) }); err != nil {
		return nil, err
	}
	// What is not told stays where it was, as one more thing that is not known.
	f.x, f.free = make([]float64, len(figures)), nil
	for k := range figures {
		if a.Figures[k].Told {
			f.free = append(f.free, k)
		}
	}
	if err := b.settle(ctx, f); err != nil {
		return nil, err
	}
	a.fill(b, f, before)
	return a, nil
}

// judge gives each figure its range, all of them open together, and says which the readings
// tell.
func (a *Answer) judge(ctx context.Context, b *bench, f *fit, progress func(ends int)) error {
	for k := range b.figures {
		g := &b.figures[k]
		low, err := b.end(ctx, f, k, -1)
		if err != nil {
			return err
		}
		high, err := b.end(ctx, f, k, 1)
		if err != nil {
			return err
		}
		progress(2*k + 2)
		out := Figure{
			What: g.what, Stock: g.stock, Worn: g.worn, IDs: g.ids, Before: g.centre, Value: g.centre, Like: -1,
			Prior: [2]float64{g.at(-oddsOfNormal), g.at(oddsOfNormal)}, Low: g.at(low), High: g.at(high),
			Left: min(1, (high-low)/(2*oddsOfNormal)),
		}
		if out.Told = out.Left < toldBelow; !out.Told {
			out.Low, out.High = out.Prior[0], out.Prior[1]
			out.Why, out.Like = b.untold(f, k)
		}
		if g.what == Leak {
			out.High, out.Prior[1] = min(out.High, mostLeak), min(out.Prior[1], mostLeak)
		}
		a.Figures = append(a.Figures, out)
	}
	return nil
}

// untold says why the readings do not tell a figure: alone they might.
func (b *bench) untold(f *fit, k int) (why string, like int) {
	column := forward(factor(f.cov), f.slope(k))
	if 1/math.Sqrt(1+dot(column, column)) >= toldBelow {
		return Unseen, -1
	}
	like, most := -1, 0.0
	for i := range b.figures {
		if c := math.Abs(f.after[k][i]) / math.Sqrt(f.after[i][i]*f.after[k][k]); i != k && c > most {
			most, like = c, i
		}
	}
	return Alike, like
}

// fill takes the figures that are told, with all others in the middle of their priors, and what
// is computed with them.
func (a *Answer) fill(b *bench, f *fit, before []sight) {
	for _, k := range f.free {
		out := &a.Figures[k]
		out.Value = b.figures[k].at(f.x[k])
		out.Low, out.High = min(out.Low, out.Value), max(out.High, out.Value)
		out.Odd = math.Abs(f.x[k]) > oddBeyond
	}
	for i := range f.sights {
		a.Looks = append(a.Looks, b.lookOf(i, &before[i], &f.sights[i]))
		if f.sights[i].known {
			a.Used++
		}
	}
	a.Before, a.After = f.common(before), f.chi(f.sights)
	// The mean and twice the deviation of a sum of so many squares.
	n := float64(a.Used)
	a.Fits = a.After <= n+2*math.Sqrt(2*n)
	if a.Fits {
		a.propose(b, f)
	}
}

// lookOf is a reading as people read it.
func (b *bench) lookOf(i int, before, after *sight) Look {
	out := Look{Known: before.known && after.known}
	if i >= len(b.ask.Readings) {
		out.Timing = &b.ask.Timings[i-len(b.ask.Readings)]
		out.Read, out.Before, out.After = math.Exp(after.shown), math.Exp(before.mean), math.Exp(after.mean)
		return out
	}
	out.Reading = &b.ask.Readings[i]
	if out.Reading.Kind == find.Pressure {
		out.Read, out.Before, out.After = after.shown, before.mean, after.mean
		return out
	}
	out.Read = float64(out.Reading.Time)
	out.Before, out.After = out.Read*math.Exp(before.shown-before.mean), out.Read*math.Exp(after.shown-after.mean)
	return out
}
