package find

import (
	"context"
	"math"
)

// Next is a reading worth taking.
type Next struct {
	Reading Reading `json:"reading"` // without its figures
	// Tells is how much of what is not known it is expected to settle, 0 to 1.
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
	if f.first != nil && len(f.read) == 0 {
		r := Reading{Kind: Pressure, Place: Place{At: f.first.Running[0].Outlet}, Running: f.first.Running, Receiver: f.rig.middle()}
		return &Next{Reading: r, Tells: 1, Words: f.howTo(&r), Why: "It shows how much is missing where it was complained of."}, nil
	}
	top := f.likeliest(trials)
	doubt := entropy(f.shares(top, nil))
	if doubt < enough {
		return nil, nil
	}
	var best *Next
	var shows []view
	for _, moment := range f.couldRead() {
		all, err := f.views(ctx, top, moment)
		if err != nil {
			return nil, err
		}
		for i := range moment {
			gain := doubt - f.after(top, all[i])
			if gain > enough && (best == nil || gain > best.Tells*doubt*1.02) {
				best = &Next{Reading: moment[i], Tells: gain / doubt}
				shows = all[i]
			}
		}
	}
	if best != nil {
		best.Words, best.Why = f.howTo(&best.Reading), f.why(&best.Reading, top, shows)
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
			p, err = f.rig.predictClock(ctx, &of[0], top[k].faults)
			all = []prediction{p}
		}
		if err != nil {
			return nil, err
		}
		for i := range of {
			if all[i].known {
				out[i][k] = f.given(&top[k].trial, &all[i], of[i].Kind)
			}
		}
	}
	return out, nil
}

// given is a prediction after what the readings so far say of all that it
// hangs on with them.
func (f *Finder) given(t *trial, p *prediction, kind Kind) view {
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
		c[i][i] += noise(f.read[a].Kind)
		d[i] = f.rig.shown(&f.read[a]) - t.sees[a].mean
	}
	c[n] = make([]float64, n+1)
	for k, a := range at {
		c[n][k] = together(p, &t.sees[a])
	}
	c[n][n] = together(p, p) + noise(kind)
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
