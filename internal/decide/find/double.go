package find

import (
	"cmp"
	"context"
	"math"
	"slices"
)

// Bounds of the search for double faults.
const (
	mostFirst   = 4 // singles that a second fault is tried beside
	leastForTwo = 3 // readings below which nobody can tell two faults
)

// double tries a second fault beside the likeliest single ones, where no single
// one explains the readings.
func (f *Finder) double(ctx context.Context) error {
	f.doubles = nil
	n := len(f.read)
	best := math.Inf(1)
	for i := range f.singles {
		best = min(best, f.singles[i].misfit)
	}
	if n < leastForTwo || best < float64(n)+4 {
		return nil
	}
	for _, first := range f.firsts() {
		c := f.singles[first].causes[0]
		k := slices.Index(f.causes[c].rungs, f.singles[first].faults[0].size)
		for _, rung := range []int{k - 2, k - 1, k} {
			if rung < 0 {
				continue
			}
			trials := f.beside(c, rung)
			if err := f.see(ctx, trials, f.read, true); err != nil {
				return err
			}
			f.doubles = append(f.doubles, trials...)
		}
	}
	return nil
}

// firsts are the best trial of each of the likeliest groups. Where nothing fits
// the likelihoods differ by much, so that they are ranked and not cut off.
func (f *Finder) firsts() []int {
	best := map[int]int{}
	for i := range f.singles {
		t := &f.singles[i]
		g := f.causes[t.causes[0]].group
		if f.causes[t.causes[0]].sort == None {
			continue
		}
		if b, ok := best[g]; !ok || f.singles[b].weight < t.weight {
			best[g] = i
		}
	}
	var out []int
	for _, i := range best {
		out = append(out, i)
	}
	slices.SortFunc(out, func(a, b int) int {
		return cmp.Or(cmp.Compare(f.singles[b].weight, f.singles[a].weight), cmp.Compare(a, b))
	})
	return out[:min(len(out), mostFirst)]
}

// beside lays trials of each other group's first cause, every other rung, beside a fault.
func (f *Finder) beside(c, rung int) []trial {
	first := &f.causes[c]
	total := 0.0
	for i := range f.causes {
		total += f.causes[i].odds
	}
	var out []trial
	for g, members := range f.groups {
		other := &f.causes[members[0]]
		if g == first.group || other.sort == None {
			continue
		}
		odds := 0.0
		for _, m := range members {
			odds += f.causes[m].odds
		}
		for k := 0; k < len(other.rungs); k += 2 {
			out = append(out, trial{
				causes: [2]int{c, members[0]}, faults: []fault{first.fault(rung), other.fault(k)},
				prior: math.Log(first.odds/total/float64(len(first.rungs))) + math.Log(oddsSecond*odds/total/float64((len(other.rungs)+1)/2)),
			})
		}
	}
	return out
}

// widen gives a double trial the spread of its first fault's size, as that
// fault has it by itself.
func (f *Finder) widen() {
	for i := range f.doubles {
		t := &f.doubles[i]
		for k := range f.singles {
			s := &f.singles[k]
			if s.faults[0] != t.faults[0] {
				continue
			}
			for r := range t.sees {
				if len(s.sees[r].step) > 0 && len(t.sees[r].step) > 0 {
					t.sees[r].step = append(t.sees[r].step, s.sees[r].step[0])
				}
			}
			break
		}
	}
}
