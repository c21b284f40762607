package find

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// Next is a reading worth taking.
type Next struct {
	Reading Reading `json:"reading"` // without its figures
	// Tells is how much of what is not known it is expected to settle, 0 to 1.
	Tells float64 `json:"tells"`
	Words string  `json:"words"`
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
	top := f.likeliest(trials)
	doubt := entropy(f.shares(top, nil))
	if doubt < enough {
		return nil, nil
	}
	var best *Next
	for _, r := range f.couldRead() {
		views, err := f.views(ctx, top, &r)
		if err != nil {
			return nil, err
		}
		gain := (doubt - f.after(top, views)) * f.ease(&r)
		if gain > enough && (best == nil || gain > best.Tells*doubt*1.02) {
			best = &Next{Reading: r, Tells: gain / doubt}
		}
	}
	if best != nil {
		best.Words = f.howTo(&best.Reading)
	}
	return best, nil
}

// ease is what a reading counts for beside others: a timing keeps the shop still.
func (f *Finder) ease(r *Reading) float64 {
	if r.Kind == Pressure {
		return 1
	}
	return 0.8
}

// couldRead lists the readings that a person could still take.
func (f *Finder) couldRead() []Reading {
	var out []Reading
	done := func(r Reading) bool {
		return slices.ContainsFunc(f.read, func(o Reading) bool {
			return o.Kind == r.Kind && o.Place == r.Place && slices.Equal(o.Running, r.Running)
		})
	}
	add := func(r Reading) {
		if !done(r) {
			out = append(out, r)
		}
	}
	for _, place := range f.places {
		if place.Tool == "" {
			add(Reading{Kind: Pressure, Place: place, Receiver: f.level()})
		}
		for _, set := range f.sets {
			if fits(place, set) {
				add(Reading{Kind: Pressure, Place: place, Running: set, Receiver: f.level()})
			}
		}
	}
	if f.rig.stock.volume > 0 && f.rig.stock.supply > 0 {
		low, high := f.level()-5e4, f.level()+5e4
		add(Reading{Kind: PumpUp, From: low, To: high})
		add(Reading{Kind: Fall, From: high, To: low})
	}
	return out
}

// likeliest are the trials that carry nearly all weight, weights made one.
func (f *Finder) likeliest(trials []trial) []trial {
	top := slices.Clone(trials)
	slices.SortStableFunc(top, func(a, b trial) int { return cmp.Compare(b.weight, a.weight) })
	top = top[:min(len(top), mostWeighed)]
	// Before anything is read, rungs of one cause would fill the list.
	if len(f.read) == 0 {
		top = f.middles(trials)
	}
	sum := 0.0
	for i := range top {
		sum += top[i].weight
	}
	for i := range top {
		top[i].weight /= sum
	}
	// Rungs of one cause follow each other, as the solver likes it.
	slices.SortStableFunc(top, func(a, b trial) int {
		return cmp.Or(cmp.Compare(a.causes[0], b.causes[0]), cmp.Compare(a.causes[1], b.causes[1]))
	})
	return top
}

// middles is the middle rung of the first cause of each group, with the group's weight.
func (f *Finder) middles(trials []trial) []trial {
	weights := f.byGroup(trials)
	var out []trial
	for i := range trials {
		t := trials[i]
		c := &f.causes[t.causes[0]]
		if f.groups[c.group][0] == t.causes[0] && t.faults[0].size == c.rungs[len(c.rungs)/2] && t.causes[1] < 0 {
			t.weight = weights[c.group]
			out = append(out, t)
		}
	}
	return out
}

// views predicts a reading under every trial, given what has been read.
func (f *Finder) views(ctx context.Context, top []trial, r *Reading) ([]view, error) {
	out := make([]view, len(top))
	for i := range top {
		t := &top[i]
		p, err := f.rig.predict(ctx, r, t.faults)
		if err != nil {
			return nil, err
		}
		if !p.known {
			continue
		}
		out[i] = f.given(t, &p, r.Kind)
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
func (f *Finder) after(top []trial, views []view) float64 {
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

// shares is the weight by group, each trial's times like; nil: times one.
func (f *Finder) shares(top []trial, like []float64) []float64 {
	shares := make([]float64, len(f.groups))
	total := 0.0
	for i := range top {
		w := top[i].weight
		if like != nil {
			w *= like[i]
		}
		shares[f.causes[top[i].causes[0]].group] += w
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
