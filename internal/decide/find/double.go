package find

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// Bounds of the search for double faults.
const (
	leastForTwo = 2  // readings below which nobody can tell two faults, none of them mended
	mostPairs   = 64 // pairs of groups that are solved through the network
	mostClimbed = 10 // of these, those whose sizes are sought too
	mostSingles = 500
	mostTried   = 2000 // pairs kept from one reading to the next
)

// couple is two groups with the pair of rungs that fits best as far as the two
// faults simply add up.
type couple struct {
	rungs [2]int // of singles
	log   float64
	many  float64 // how many pairs of rungs fit as well
}

// double finds pairs of faults that explain the readings: all pairs are weighed as
// if what the two take away simply added up, and the likeliest are solved.
func (f *Finder) double(ctx context.Context) error {
	f.doubles = nil
	if len(f.tried) > mostTried {
		f.tried = map[[2]int]*trial{}
	}
	if len(f.read) < leastForTwo && f.since == 0 {
		return nil
	}
	for i, c := range f.couples() {
		t, err := f.try(ctx, c.rungs)
		if err != nil {
			return err
		}
		if i < mostClimbed {
			if t, err = f.climb(ctx, c.rungs, t); err != nil {
				return err
			}
		}
		one := *t
		one.prior += math.Log(c.many)
		f.doubles = append(f.doubles, one)
	}
	return nil
}

// try solves two faults together for all readings so far.
func (f *Finder) try(ctx context.Context, rungs [2]int) (*trial, error) {
	a, b := &f.singles[rungs[0]], &f.singles[rungs[1]]
	t := f.tried[rungs]
	if t == nil {
		t = &trial{
			causes: [2]int{a.causes[0], b.causes[0]}, faults: []fault{a.faults[0], b.faults[0]},
			prior: a.prior + b.prior + math.Log(oddsSecond),
		}
		f.tried[rungs] = t
	}
	// What two take from a tool is near enough the sum of what each takes.
	t.lack = a.lack + b.lack
	t.heard = f.hear(t)
	for i := len(t.sees); i < len(f.read); i++ {
		p, err := f.rig.predict(ctx, &f.read[i], f.thereAt(t, i))
		if err != nil {
			return nil, err
		}
		p.step = slices.Concat(a.sees[i].step, b.sees[i].step)
		t.sees = append(t.sees, p)
	}
	return t, nil
}

// climb looks for sizes beside those of a pair that fit better.
func (f *Finder) climb(ctx context.Context, at [2]int, best *trial) (*trial, error) {
	most, _ := f.fit(best)
	for range 4 {
		from := at
		for _, by := range [][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			next := [2]int{from[0] + by[0], from[1] + by[1]}
			if !f.sameLadder(next[0], from[0]) || !f.sameLadder(next[1], from[1]) {
				continue
			}
			t, err := f.try(ctx, next)
			if err != nil {
				return nil, err
			}
			if log, _ := f.fit(t); log > most {
				most, best, at = log, t, next
			}
		}
		if at == from {
			break
		}
	}
	return best, nil
}

func (f *Finder) sameLadder(a, b int) bool {
	return a >= 0 && a < len(f.singles) && f.singles[a].causes == f.singles[b].causes
}

// white is a single trial as the readings see it, in units of what is not known of
// a sound shop: what it takes away, and how that moves with its size.
type white struct {
	single    int
	group     int
	away      []float64
	step      []float64
	odds      float64 // ln
	trial     *trial
	squareUU  float64
	extraOver float64
}

// couples ranks pairs of groups.
func (f *Finder) couples() []couple {
	all, rest := f.whitened()
	best := map[[2]int]*couple{}
	r := make([]float64, len(rest))
	for i := range all {
		a := &all[i]
		for k := range i {
			b := &all[k]
			if a.group == b.group {
				continue
			}
			for x := range r {
				r[x] = rest[x] - a.away[x] - b.away[x]
			}
			log := lowRank(r, a, b) + a.odds + b.odds + a.extraOver + b.extraOver + f.hearBoth(a.trial, b.trial)
			key := [2]int{b.group, a.group}
			c := best[key]
			switch {
			case c == nil:
				best[key] = &couple{[2]int{b.single, a.single}, log, 1}
			case log > c.log:
				c.many = 1 + c.many*math.Exp(c.log-log)
				c.log, c.rungs = log, [2]int{b.single, a.single}
			default:
				c.many += math.Exp(log - c.log)
			}
		}
	}
	out := make([]couple, 0, len(best))
	for _, c := range best {
		out = append(out, *c)
	}
	slices.SortFunc(out, func(a, b couple) int {
		return cmp.Or(cmp.Compare(b.log+math.Log(b.many), a.log+math.Log(a.many)), cmp.Compare(a.rungs[0], b.rungs[0]), cmp.Compare(a.rungs[1], b.rungs[1]))
	})
	return out[:min(len(out), mostPairs)]
}

// lowRank is ln of the likelihood, but for a constant, of what two faults leave
// unexplained: of unit covariance but for the spread of the two sizes.
func lowRank(r []float64, a, b *white) float64 {
	rr, ru, rv, uv := dot(r, r), dot(r, a.step), dot(r, b.step), dot(a.step, b.step)
	uu, vv := 1+a.squareUU, 1+b.squareUU
	det := uu*vv - uv*uv
	return -0.5*(rr-(vv*ru*ru-2*uv*ru*rv+uu*rv*rv)/det) - 0.5*math.Log(det)
}

// whitened takes all single trials against the sound shop; rest is what the readings
// show of it. Nothing where the sound shop has no answer.
func (f *Finder) whitened() (all []white, rest []float64) {
	sound := f.sound()
	n := len(f.read)
	c := make([][]float64, n)
	rest = make([]float64, n)
	for i := range n {
		if !sound.sees[i].known {
			return nil, nil
		}
		c[i] = make([]float64, i+1)
		for k := range i + 1 {
			c[i][k] = together(&sound.sees[i], &sound.sees[k])
		}
		c[i][i] += f.rig.noise(&f.read[i])
		rest[i] = f.rig.shown(&f.read[i]) - sound.sees[i].mean
	}
	if logLikelihood(c, rest) == unfit {
		return nil, nil
	}
	every := 1 + len(f.singles)/mostSingles
	for s := range f.singles {
		t := &f.singles[s]
		first := &f.causes[t.causes[0]]
		if first.sort == None || (s-f.ladder[first.group])%every != 0 {
			continue
		}
		w := white{single: s, trial: t, group: first.group, away: make([]float64, n), step: make([]float64, n), odds: t.prior + math.Log(float64(every))}
		known := true
		for i := range n {
			p := &t.sees[i]
			known = known && p.known
			w.away[i] = p.mean - sound.sees[i].mean
			if len(p.step) > 0 {
				w.step[i] = p.step[0] * float64(every)
			}
			w.extraOver += p.extra - sound.sees[i].extra/2
		}
		if !known {
			continue
		}
		forward(c, w.away)
		forward(c, w.step)
		w.squareUU = dot(w.step, w.step)
		all = append(all, w)
	}
	return all, rest
}

// sound is the trial of nothing wrong.
func (f *Finder) sound() *trial {
	for i := range f.singles {
		if f.causes[f.singles[i].causes[0]].sort == None {
			return &f.singles[i]
		}
	}
	return nil
}
