package find

import "math"

// weigh gives every trial its chance after the readings.
func (f *Finder) weigh(trials []trial) {
	logs := make([]float64, len(trials))
	for i := range trials {
		t := &trials[i]
		fit, miss := f.fit(t)
		logs[i] = t.prior + t.heard + fit
		t.misfit = miss
	}
	sum := logSum(logs)
	for i := range trials {
		trials[i].weight = math.Exp(logs[i] - sum)
	}
}

// fit is ln of the likelihood of all readings under a trial, and how many
// squared deviations they are off together.
func (f *Finder) fit(t *trial) (log, miss float64) {
	var at []int
	extra := 0.0
	for i := range t.sees {
		if !t.sees[i].known {
			extra -= 40 // no answer there: no gauge would show anything
			continue
		}
		at = append(at, i)
		extra += t.sees[i].extra
	}
	c := make([][]float64, len(at))
	d := make([]float64, len(at))
	for i, a := range at {
		p := &t.sees[a]
		d[i] = f.rig.shown(&f.read[a]) - p.mean
		c[i] = make([]float64, i+1)
		for k := range i + 1 {
			c[i][k] = together(p, &t.sees[at[k]])
		}
		c[i][i] += f.rig.noise(&f.read[a])
	}
	log = logLikelihood(c, d)
	for _, x := range d {
		miss += x * x
	}
	return log + extra, miss
}

// together is the covariance of two predictions by what is not known.
func together(a, b *prediction) float64 {
	sum := dot(a.row, b.row)
	for i := range min(len(a.step), len(b.step)) {
		sum += a.step[i] * b.step[i]
	}
	return sum
}

// byGroup sums the weights of trials by the groups of their causes, as far as nobody has
// mended them. A double fault counts to both.
func (f *Finder) byGroup(trials []trial) []float64 {
	out := make([]float64, len(f.groups))
	for i := range trials {
		for _, g := range f.leftGroups(&trials[i]) {
			if g >= 0 {
				out[g] += trials[i].weight
			}
		}
	}
	return out
}
