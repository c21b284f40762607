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
	usual   [][]job.InUse // what a person can let run
	sets    [][]job.InUse // these, what was complained of first
	places  []Place       // where a gauge can sit
	valves  []job.ID      // that part the net
	causes  []cause
	alike   [][]int   // causes that no reading tells apart, the likeliest first
	groups  [][]int   // the same, by what looks at things showed
	taken   []Reading // all, and what looks showed
	read    []Reading // those weighed
	since   int       // the first of them after the last mending
	lost    []string
	first   *Understood // what was complained of
	heeded  []job.InUse // the set that the lacks of singles are of
	singles []trial
	ladder  []int // by group: its first rung in singles
	doubles []trial
	plan    map[string]*foresight
	tried   map[[2]int]*trial // pairs of singles solved so far, with what they make of the readings
}

// trial is one or two faults at given rungs with what they make of the readings.
type trial struct {
	causes [2]int // the second -1: none
	faults []fault
	prior  float64 // ln
	lack   float64 // what it takes from the tool complained of, Pa
	heard  float64 // ln: how well that goes with the complaint
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
	all, lost := ofJob(s.Job(), f.bars)
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
	f := &Finder{study: s, system: system, tried: map[[2]int]*trial{}, plan: map[string]*foresight{}}
	if f.rig, err = newRig(m); err != nil {
		return nil, err
	}
	f.usual = setsOf(s.Job(), m)
	f.sets = f.usual
	f.places, f.valves = f.placesOf(), f.valvesOf()
	if f.causes, err = f.rig.causesOf(ctx, f.sets, f.rig.middle()); err != nil {
		return nil, err
	}
	if err := f.group(ctx); err != nil {
		return nil, err
	}
	f.layTrials()
	return f, nil
}

// layTrials makes a trial of each rung of each group's first cause: what no reading
// tells apart shows alike.
func (f *Finder) layTrials() {
	f.singles, f.ladder = nil, nil
	for g, members := range f.groups {
		c := &f.causes[members[0]]
		f.ladder = append(f.ladder, len(f.singles))
		if c.sort == None {
			f.laySound(members[0])
			continue
		}
		for k := range c.rungs {
			f.singles = append(f.singles, trial{
				causes: [2]int{members[0], -1}, faults: []fault{c.fault(k)}, prior: math.Log(f.oddsOf(g) / float64(len(c.rungs))),
			})
		}
	}
}

// laySound makes the trials of nothing wrong. A tool whose plate leaves much open is sound
// wherever it lies within that, and what it takes from the pressure is not straight in it:
// it stands at one and two deviations too, as likely as these are beside the middle.
func (f *Finder) laySound(none int) {
	c := &f.causes[none]
	all := []trial{{faults: []fault{c.fault(0)}}}
	sum := 1.0
	for i, doubt := range f.rig.hard {
		if doubt < wideTool {
			continue
		}
		for _, k := range []float64{-2, -1, 1, 2} {
			as := math.Exp(-k * k / 2)
			sum += as
			all = append(all, trial{faults: []fault{{Greedy, i, math.Exp(k * doubt)}}, prior: math.Log(as)})
		}
	}
	for _, t := range all {
		t.causes = [2]int{none, -1}
		t.prior += math.Log(f.odds(none) / sum)
		f.singles = append(f.singles, t)
	}
}

// wideTool is the doubt, as ln, from which a tool's plate leaves so much open that its loss
// is not straight in it: 1.22 times either way.
const wideTool = 0.2

// oddsOf is how likely a group is before any reading.
func (f *Finder) oddsOf(g int) float64 {
	sum := 0.0
	for _, m := range f.groups[g] {
		sum += f.odds(m)
	}
	return sum
}

// Add takes a reading. One that tells nothing is an *Unusable.
func (f *Finder) Add(ctx context.Context, r Reading) error {
	if bad := f.bars(r); bad != nil {
		return bad
	}
	if r.Kind == Look {
		return f.look(ctx, r)
	}
	// All or nothing: whoever gives up in between leaves the finder as it was.
	sees := make([]prediction, len(f.singles))
	for k := range f.singles {
		p, err := f.rig.predict(ctx, &r, f.left(&f.singles[k]))
		if err != nil {
			return err
		}
		sees[k] = p
	}
	f.read, f.taken = append(f.read, r), append(f.taken, r)
	for k := range f.singles {
		f.singles[k].sees = append(f.singles[k].sees, sees[k])
	}
	f.steps(len(f.read) - 1)
	return nil
}

// forget drops all readings and looks.
func (f *Finder) forget() {
	f.read, f.taken, f.lost, f.first, f.since = nil, nil, nil, nil, 0
	f.doubles, f.tried, f.heeded = nil, map[[2]int]*trial{}, nil
	for i := range f.causes {
		c := &f.causes[i]
		c.seen, c.until, c.over = 0, 0, false
	}
	f.regroup()
	f.layTrials()
}

// steps fills in how far the prediction of one reading by each single trial is from those of
// the rungs beside it. A true size lies between rungs: half the way to the next is
// about two standard deviations of a size spread evenly over one rung.
func (f *Finder) steps(last int) {
	for i := range f.singles {
		t := &f.singles[i]
		if f.causes[t.causes[0]].sort == None {
			continue
		}
		p := &t.sees[last]
		low, high, n := p.mean, p.mean, 0.0
		for _, k := range []int{i - 1, i + 1} {
			if k < 0 || k >= len(f.singles) || f.singles[k].causes != t.causes || !f.singles[k].sees[last].known {
				continue
			}
			n++
			if k < i {
				low = f.singles[k].sees[last].mean
			} else {
				high = f.singles[k].sees[last].mean
			}
		}
		if n > 0 {
			p.step = []float64{(high - low) / n * rungSpread}
		}
	}
}

// rungSpread is the deviation of an even spread over one rung, with a fifth
// more since rungs are not straight.
const rungSpread = 1.2 * 0.2887
