package find

import (
	"cmp"
	"context"
	"math"
	"slices"

	"dropleg/internal/shop/job"
)

// StandsOut is the chance from which one cause is taken as found.
const StandsOut = 0.8

// Member is a thing with what may be wrong with it.
type Member struct {
	ID    job.ID `json:"id"`
	Leg   string `json:"leg,omitempty"`
	On    job.ID `json:"on"` // the thing on the drawing
	Words string `json:"words"`
}

// Cause is what may be wrong, with its chance after the readings.
type Cause struct {
	Sort Sort `json:"sort"`
	// Members is one thing, or several that no reading that can be taken tells
	// apart, the likeliest first.
	Members []Member `json:"members,omitempty"`
	Chance  float64  `json:"chance"`
	// Size with its range, 19 times in 20: the share that passes, a bore in m, a
	// change of set pressure in Pa, a factor.
	Size     float64 `json:"size,omitempty"`
	Low      float64 `json:"low,omitempty"`
	High     float64 `json:"high,omitempty"`
	Words    string  `json:"words"`
	Beside   string  `json:"beside,omitempty"` // what no reading tells apart from it
	Range    string  `json:"range,omitempty"`  // of the size, in words
	Sureness string  `json:"sureness"`
	group    int
}

// Answer is what the readings say.
type Answer struct {
	Causes   []Cause  `json:"causes"` // likeliest first
	Verdict  string   `json:"verdict"`
	Found    bool     `json:"found"`          // one cause, or one pair, stands out
	Sound    bool     `json:"sound"`          // nothing wrong stands out
	Supply   string   `json:"supply"`         // what is drawn against what the compressor gives; "" where enough
	Next     *Next    `json:"next,omitempty"` // nil where no reading would tell more
	Read     int      `json:"readings"`
	Unused   []string `json:"unused,omitempty"`
	Together float64  `json:"two_at_once"` // chance that two things are wrong
}

// Answer weighs all causes and proposes the next reading.
func (f *Finder) Answer(ctx context.Context) (*Answer, error) {
	trials, err := f.settle(ctx)
	if err != nil {
		return nil, err
	}
	a := &Answer{Read: len(f.read), Unused: f.lost}
	if lapsed := f.lapsedWords(); lapsed != "" {
		a.Unused = append(slices.Clone(a.Unused), lapsed)
	}
	chances := f.byGroup(trials)
	for g, chance := range chances {
		if f.gone(f.groups[g][0]) {
			continue
		}
		if chance > 0.002 || f.causes[f.groups[g][0]].sort == None {
			a.Causes = append(a.Causes, f.causeOf(g, chance, trials))
		}
	}
	slices.SortStableFunc(a.Causes, func(x, y Cause) int { return cmp.Compare(y.Chance, x.Chance) })
	for i := range trials {
		if f.leftGroups(&trials[i])[1] >= 0 {
			a.Together += trials[i].weight
		}
	}
	if a.Next, err = f.next(ctx, trials); err != nil {
		return nil, err
	}
	read := len(f.read) > f.since
	a.Found = (read || f.since > 0) && a.Causes[0].Chance >= StandsOut && a.Causes[0].Sort != None
	a.Sound = read && a.Causes[0].Chance >= StandsOut && a.Causes[0].Sort == None
	a.Supply = f.supply(ctx)
	f.tell(a, trials)
	return a, nil
}

// settle weighs singles, then doubles beside them.
func (f *Finder) settle(ctx context.Context) ([]trial, error) {
	if err := f.listen(ctx); err != nil {
		return nil, err
	}
	f.weigh(f.singles)
	if err := f.double(ctx); err != nil {
		return nil, err
	}
	all := append(slices.Clone(f.singles), f.doubles...)
	f.weigh(all)
	return all, nil
}

// causeOf gathers a group with its size.
func (f *Finder) causeOf(g int, chance float64, trials []trial) Cause {
	first := &f.causes[f.groups[g][0]]
	c := Cause{Sort: first.sort, Chance: min(chance, 1), group: g}
	for _, m := range f.groups[g] {
		x := &f.causes[m]
		one := Member{ID: x.id, Leg: x.leg, On: f.onDrawing(x.id), Words: f.name(x)}
		if x.sort != None && !slices.ContainsFunc(c.Members, func(o Member) bool { return o.ID == one.ID && o.Words == one.Words }) {
			c.Members = append(c.Members, one)
		}
	}
	c.Sureness = sureness(chance)
	if first.sort == None {
		c.Words = f.words(&c)
		return c
	}
	c.Size, c.Low, c.High = f.sizeOf(f.groups[g][0], trials)
	c.Words, c.Beside, c.Range = f.words(&c), beside(&c), f.rangeWords(&c)
	return c
}

// sizeOf is the size of a cause by the weights of its rungs, with its range; a
// rung stands for half the way to the next ones.
func (f *Finder) sizeOf(cause int, trials []trial) (likely, low, high float64) {
	c := &f.causes[cause]
	weights, sum := make([]float64, len(c.rungs)), 0.0
	for i := range trials {
		for k, x := range trials[i].causes {
			if x == cause {
				weights[slices.Index(c.rungs, trials[i].faults[k].size)] += trials[i].weight
				sum += trials[i].weight
			}
		}
	}
	if sum == 0 {
		return c.rungs[0], c.rungs[0], c.rungs[0]
	}
	mean, square := 0.0, 0.0
	scale, back := math.Log, math.Exp
	if c.sort == MisSet {
		scale, back = func(x float64) float64 { return x }, func(x float64) float64 { return x }
	}
	for k, w := range weights {
		x := scale(c.rungs[k])
		mean += w / sum * x
		square += w / sum * x * x
	}
	step := math.Abs(scale(c.rungs[1])-scale(c.rungs[0])) * rungSpread
	spread := 2 * math.Hypot(step, math.Sqrt(max(0, square-mean*mean)))
	low, high = back(mean-spread), back(mean+spread)
	if c.sort == Restricted || c.sort == Weak {
		high = min(high, 1)
	}
	return back(mean), low, high
}
