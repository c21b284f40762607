package find

import (
	"context"
	"math"
	"slices"
)

// Next is a reading worth taking.
type Next struct {
	Reading Reading `json:"reading"` // without its figures
	// Tells is how much of what is not known it is expected to settle, 0 to 1; 0 where that
	// was not reckoned.
	Tells float64 `json:"tells"`
	Words string  `json:"words"`
	Why   string  `json:"why"` // what it would show by the likeliest causes
}

// Bounds of the search for the next reading.
const (
	mostWeighed = 48   // trials that count
	enough      = 0.02 // nats below which a reading is not worth a walk
)

// view is what one trial would show at one reading that could be taken.
type view struct {
	known    bool
	mean, sd float64
}

// next proposes the reading that is expected to leave the least doubt about
// which group of causes it is; nil where none would tell more.
func (f *Finder) next(ctx context.Context, trials []trial) (*Next, error) {
	if len(f.read) == f.since {
		if r, ok := f.telling(); ok {
			return &Next{Reading: r, Words: f.howTo(&r), Why: f.whyFirst()}, nil
		}
	}
	top := f.likeliest(trials)
	doubt := entropy(f.shares(top, nil))
	if doubt < enough {
		return nil, nil
	}
	best, clock := choice{}, choice{}
	for _, moment := range f.couldRead() {
		all, err := f.views(ctx, top, moment)
		if err != nil {
			return nil, err
		}
		for i := range moment {
			one := choice{moment[i], doubt - f.after(top, all[i]), all[i]}
			best = best.or(one, 1.02)
			if one.reading.Kind == Fall && len(one.reading.Shut) > 0 {
				clock = clock.or(one, 1.02)
			}
		}
	}
	if clock, err := f.shutMore(ctx, top, doubt, clock); err != nil {
		return nil, err
	} else if best = best.or(clock, 1.02); best.gain <= enough {
		return nil, nil
	}
	r := best.reading
	return &Next{Reading: r, Tells: best.gain / doubt, Words: f.howTo(&r), Why: f.why(&r, top, best.shows)}, nil
}

// telling is the reading that shows what was complained of; where nobody said, the one
// before the mending at which most was missing. Nothing tells sooner whether that was all.
func (f *Finder) telling() (Reading, bool) {
	if f.first != nil {
		return Reading{Kind: Pressure, Place: Place{At: f.first.Running[0].Outlet}, Running: f.first.Running, Receiver: f.rig.middle()}, true
	}
	var worst Reading
	for i := range f.since {
		r := &f.read[i]
		if r.Kind == Pressure && len(r.Running) > 0 && !r.Stopped && (worst.Kind == "" || r.Receiver-r.Pressure > worst.Receiver-worst.Pressure) {
			worst = *r
		}
	}
	return Reading{Kind: Pressure, Place: worst.Place, Running: worst.Running, Receiver: f.rig.middle()}, worst.Kind != ""
}

// choice is a reading that could be taken and what it tells, nats.
type choice struct {
	reading Reading
	gain    float64
	shows   []view
}

// or is the other where that tells by times more.
func (c choice) or(other choice, by float64) choice {
	if other.gain > by*c.gain {
		return other
	}
	return c
}

// mostShut bounds how many valves somebody shuts for one reading; each has to tell a
// twentieth more.
const mostShut = 4

// shutMore shuts further valves beside the best one, as long as that tells more: many
// branches are halved and not gone through.
func (f *Finder) shutMore(ctx context.Context, top []suspect, doubt float64, best choice) (choice, error) {
	for len(best.reading.Shut) > 0 && len(best.reading.Shut) < mostShut {
		next := best
		for _, valve := range f.valves {
			if slices.Contains(best.reading.Shut, valve) {
				continue
			}
			r := best.reading
			r.Shut = append(slices.Clone(r.Shut), valve)
			all, err := f.views(ctx, top, []Reading{r})
			if err != nil {
				return best, err
			}
			next = next.or(choice{r, doubt - f.after(top, all[0]), all[0]}, 1.05)
		}
		if len(next.reading.Shut) == len(best.reading.Shut) {
			break
		}
		best = next
	}
	return best, nil
}

// views predicts the readings of one moment under every trial, given what has been read.
func (f *Finder) views(ctx context.Context, top []suspect, of []Reading) ([][]view, error) {
	out := make([][]view, len(of))
	for i := range of {
		out[i] = make([]view, len(top))
	}
	for k := range top {
		var all []prediction
		var err error
		if of[0].Kind == Pressure {
			all, err = f.foreseen(ctx, of, &top[k].trial)
		} else {
			var p prediction
			p, err = f.rig.predictClock(ctx, &of[0], f.left(&top[k].trial))
			all = []prediction{p}
		}
		if err != nil {
			return nil, err
		}
		for i := range of {
			if all[i].known {
				out[i][k] = f.given(&top[k].trial, &all[i], &of[i])
			}
		}
	}
	return out, nil
}

// given is a prediction after what the readings so far say of all that it
// hangs on with them.
func (f *Finder) given(t *trial, p *prediction, of *Reading) view {
	var at []int
	for i := range t.sees {
		if t.sees[i].known {
			at = append(at, i)
		}
	}
	n := len(at)
	c, d := make([][]float64, n+1), make([]float64, n+1)
	for i, a := range at {
		c[i] = make([]float64, i+1)
		for k := range i + 1 {
			c[i][k] = together(&t.sees[a], &t.sees[at[k]])
		}
		c[i][i] += f.rig.noise(&f.read[a])
		d[i] = f.rig.shown(&f.read[a]) - t.sees[a].mean
	}
	c[n] = make([]float64, n+1)
	for k, a := range at {
		c[n][k] = together(p, &t.sees[a])
	}
	c[n][n] = together(p, p) + f.rig.noise(of)
	if logLikelihood(c, d) == unfit {
		return view{}
	}
	// The factor's last row holds what the readings explain of the new one.
	mean := p.mean
	for k := range n {
		mean += c[n][k] * d[k]
	}
	return view{known: true, mean: mean, sd: c[n][n]}
}

// after is the entropy that is expected to be left after a reading: at points
// of each trial's own prediction.
func (f *Finder) after(top []suspect, views []view) float64 {
	points := [...][2]float64{{-1.2, 0.3}, {0, 0.4}, {1.2, 0.3}}
	sum := 0.0
	like := make([]float64, len(top))
	for i := range top {
		if !views[i].known || top[i].weight < 1e-4 {
			continue
		}
		for _, pt := range points {
			y := views[i].mean + pt[0]*views[i].sd
			for k, v := range views {
				like[k] = 0
				if v.known {
					z := (y - v.mean) / v.sd
					like[k] = math.Exp(-z*z/2) / v.sd
				}
			}
			sum += top[i].weight * pt[1] * entropy(f.shares(top, like))
		}
	}
	return sum
}

// shares is the weight by what may be wrong, each trial's times like; nil: times one.
func (f *Finder) shares(top []suspect, like []float64) []float64 {
	shares := make([]float64, len(top))
	total := 0.0
	for i := range top {
		w := top[i].weight
		if like != nil {
			w *= like[i]
		}
		shares[top[i].what] += w
		total += w
	}
	for g := range shares {
		shares[g] /= max(total, 1e-300)
	}
	return shares
}

func entropy(shares []float64) float64 {
	sum := 0.0
	for _, p := range shares {
		if p > 0 {
			sum -= p * math.Log(p)
		}
	}
	return sum
}
