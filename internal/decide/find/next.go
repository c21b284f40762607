package find

import (
	"cmp"
	"context"
	"math"
	"slices"

	"dropleg/internal/shop/job"
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
	if f.first != nil && len(f.read) == 0 {
		r := Reading{Kind: Pressure, Place: Place{At: f.first.Running[0].Outlet}, Running: f.first.Running, Receiver: f.rig.middle()}
		return &Next{Reading: r, Tells: 1, Words: f.howTo(&r)}, nil
	}
	top := f.likeliest(trials)
	doubt := entropy(f.shares(top, nil))
	if doubt < enough {
		return nil, nil
	}
	var best *Next
	for _, moment := range f.couldRead() {
		all, err := f.views(ctx, top, moment)
		if err != nil {
			return nil, err
		}
		for i := range moment {
			gain := doubt - f.after(top, all[i])
			if gain > enough && (best == nil || gain > best.Tells*doubt*1.02) {
				best = &Next{Reading: moment[i], Tells: gain / doubt}
			}
		}
	}
	if best != nil {
		best.Words = f.howTo(&best.Reading)
	}
	return best, nil
}

// couldRead lists the readings that a person could still take, those of one
// moment together.
func (f *Finder) couldRead() [][]Reading {
	var out [][]Reading
	add := func(all ...Reading) {
		all = slices.DeleteFunc(all, func(r Reading) bool {
			return slices.ContainsFunc(f.read, func(o Reading) bool {
				return o.Kind == r.Kind && o.Place == r.Place && slices.Equal(o.Running, r.Running) && slices.Equal(o.Shut, r.Shut)
			})
		})
		if len(all) > 0 {
			out = append(out, all)
		}
	}
	for i := -1; i < len(f.sets); i++ { // first nothing running
		var one []Reading
		for _, place := range f.places {
			r := Reading{Kind: Pressure, Place: place, Receiver: f.rig.middle()}
			if i >= 0 {
				r.Running = f.sets[i]
			}
			if fits(place, r.Running) {
				one = append(one, r)
			}
		}
		add(one...)
	}
	if f.rig.stock.volume > 0 && f.rig.stock.supply > 0 {
		low, high := f.rig.middle()-5e4, f.rig.middle()+5e4
		add(Reading{Kind: PumpUp, From: low, To: high})
		add(Reading{Kind: Fall, From: high, To: low})
		for _, valve := range f.valves {
			add(Reading{Kind: Fall, From: high, To: low, Shut: []job.ID{valve}})
		}
	}
	return out
}

// suspect is a trial that stands for what may be wrong, by the groups concerned.
type suspect struct {
	trial
	what int // the same for the same groups
}

// likeliest are trials that carry nearly all weight, weights made one: of each pair
// of groups the best, of those that weigh much the next sizes too.
func (f *Finder) likeliest(trials []trial) []suspect {
	// Before anything is read, rungs of one cause would fill the list.
	if len(f.read) == 0 {
		trials = f.middles(trials)
	}
	by := map[[2]int][]int{}
	for i := range trials {
		key := [2]int{f.causes[trials[i].causes[0]].group, -1}
		if second := trials[i].causes[1]; second >= 0 {
			key[1] = f.causes[second].group
		}
		by[key] = append(by[key], i)
	}
	var top []suspect
	for _, of := range by {
		slices.SortStableFunc(of, func(a, b int) int { return cmp.Compare(trials[b].weight, trials[a].weight) })
		all, used := 0.0, 0.0
		for _, i := range of {
			all += trials[i].weight
		}
		keep := of[:1]
		if all > 0.05 {
			keep = of[:min(len(of), 3)]
		}
		for _, i := range keep {
			used += trials[i].weight
		}
		for _, i := range keep {
			s := suspect{trials[i], of[0]}
			s.weight *= all / max(used, 1e-300)
			top = append(top, s)
		}
	}
	slices.SortFunc(top, func(a, b suspect) int {
		return cmp.Or(cmp.Compare(b.weight, a.weight), cmp.Compare(a.causes[0], b.causes[0]), cmp.Compare(a.causes[1], b.causes[1]))
	})
	top = top[:min(len(top), mostWeighed)]
	sum := 0.0
	for i := range top {
		sum += top[i].weight
	}
	for i := range top {
		top[i].weight /= sum
	}
	// Rungs of one cause follow each other, as the solver likes it.
	slices.SortStableFunc(top, func(a, b suspect) int {
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

// views predicts the readings of one moment under every trial, given what has been read.
func (f *Finder) views(ctx context.Context, top []suspect, of []Reading) ([][]view, error) {
	out := make([][]view, len(of))
	nodes := make([]int, len(of))
	for i := range of {
		out[i], nodes[i] = make([]view, len(top)), nodeOf(f.rig.m, of[i].Place)
	}
	for k := range top {
		var all []prediction
		var err error
		if of[0].Kind == Pressure {
			all, err = f.rig.predictAt(ctx, &of[0], top[k].faults, nodes)
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
	place := make(map[int]int, len(top))
	shares := make([]float64, 0, len(top))
	total := 0.0
	for i := range top {
		w := top[i].weight
		if like != nil {
			w *= like[i]
		}
		at, had := place[top[i].what]
		if !had {
			at = len(shares)
			place[top[i].what] = at
			shares = append(shares, 0)
		}
		shares[at] += w
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
