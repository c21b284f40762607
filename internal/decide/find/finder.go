package find

import (
	"context"
	"fmt"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// Finder weighs causes by the readings so far. It belongs to one goroutine at a time.
type Finder struct {
	study   *study.Study
	system  unit.System
	rig     *rig
	sets    [][]job.InUse // what a person can let run
	places  []Place       // where a gauge can sit
	causes  []cause
	groups  [][]int // causes that no reading tells apart, the likeliest first
	read    []Reading
	lost    []string
	first   *Understood // what was complained of
	singles []trial
	doubles []trial
}

// trial is one or two faults at given rungs with what they make of the readings.
type trial struct {
	causes [2]int // the second -1: none
	faults []fault
	prior  float64 // ln
	sees   []prediction
	weight float64 // after the readings, all together 1
	misfit float64 // squared differences in their deviations
}

// New takes the readings that the job holds; more are added with Add.
func New(ctx context.Context, s *study.Study, system unit.System) (*Finder, error) {
	f, err := Blank(ctx, s, system)
	if err != nil {
		return nil, err
	}
	all, lost := ofJob(s.Job(), f.rig.m)
	f.lost = lost
	for _, r := range all {
		if err := f.Add(ctx, r); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// Blank takes none of the job's readings.
func Blank(ctx context.Context, s *study.Study, system unit.System) (*Finder, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	f := &Finder{study: s, system: system}
	if f.rig, err = newRig(m); err != nil {
		return nil, err
	}
	f.sets = setsOf(s.Job(), m)
	f.places = f.placesOf()
	if f.causes, err = f.rig.causesOf(ctx, f.sets, f.level()); err != nil {
		return nil, err
	}
	if err := f.group(ctx); err != nil {
		return nil, err
	}
	f.layTrials()
	return f, nil
}

// level is where the receiver stands while readings are planned: mid band.
func (f *Finder) level() unit.GaugePressure {
	return unit.GaugePressure((f.rig.stock.cutIn + f.rig.stock.cutOut) / 2)
}

// layTrials makes a trial of each rung of each cause.
func (f *Finder) layTrials() {
	total := 0.0
	for i := range f.causes {
		total += f.causes[i].odds
	}
	for i := range f.causes {
		c := &f.causes[i]
		for k := range c.rungs {
			f.singles = append(f.singles, trial{
				causes: [2]int{i, -1}, faults: []fault{c.fault(k)}, prior: math.Log(c.odds / total / float64(len(c.rungs))),
			})
		}
	}
}

// Add takes a reading. One that tells nothing is an *Unusable.
func (f *Finder) Add(ctx context.Context, r Reading) error {
	if bad := usable(f.rig.m, r); bad != nil {
		return bad
	}
	f.read = append(f.read, r)
	return f.see(ctx, f.singles, []Reading{r}, false)
}

// see adds predictions of readings to trials; those of one ladder follow each
// other. Where second, the ladder is that of the second fault.
func (f *Finder) see(ctx context.Context, trials []trial, readings []Reading, second bool) error {
	for i := range readings {
		for k := range trials {
			t := &trials[k]
			p, err := f.rig.predict(ctx, &readings[i], t.faults)
			if err != nil {
				return err
			}
			t.sees = append(t.sees, p)
		}
		at := 0
		if second {
			at = 1
		}
		steps(trials, at)
	}
	return nil
}

// steps fills in how far the last prediction of each trial is from those of the
// rungs beside it. A true size lies between rungs: half the way to the next is
// about two standard deviations of a size spread evenly over one rung.
func steps(trials []trial, at int) {
	for i := range trials {
		t := &trials[i]
		last := len(t.sees) - 1
		p := &t.sees[last]
		low, high, n := p.mean, p.mean, 0.0
		for _, k := range []int{i - 1, i + 1} {
			if k < 0 || k >= len(trials) || trials[k].causes != t.causes || at == 1 && trials[k].faults[0] != t.faults[0] || !trials[k].sees[last].known {
				continue
			}
			n++
			if k < i {
				low = trials[k].sees[last].mean
			} else {
				high = trials[k].sees[last].mean
			}
		}
		if n > 0 {
			p.step = append(p.step, (high-low)/n*rungSpread)
		}
	}
}

// rungSpread is the deviation of an even spread over one rung, with a fifth
// more since rungs are not straight.
const rungSpread = 1.2 * 0.2887
