package day

import (
	"context"
	"math"
	"slices"
	"sync"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

// Remedy is the least change of one thing of the plant with which nobody goes short for
// more than the job plans for, no motor starts too often or runs too much, and cut-out is
// reached. The days are the same as without it.
type Remedy struct {
	What   Lever              `json:"what"`
	Does   bool               `json:"does"`                    // false: as much as there can be of it does not do
	Volume unit.Volume        `json:"volume_m3,omitempty"`     // of all receivers together
	Air    unit.FreeAir       `json:"free_air_m3_s,omitempty"` // of all compressors together
	CutIn  unit.GaugePressure `json:"cut_in_Pa_g,omitempty"`   // of every compressor at least
	Short  unit.Ratio         `json:"short"`                   // of the tool that is then worst off
	Starts float64            `json:"starts_1_h"`              // of the motor that then starts most
}

// Lever is what a remedy changes.
type Lever string

// The three that are tried. More air is added to every compressor alike.
const (
	MoreStore Lever = "more-store"
	MoreAir   Lever = "more-air"
	HigherIn  Lever = "higher-cut-in"
)

// How far it is tried, and how finely a remedy is found.
const (
	mostTimes  = 20.0 // of the volume, and of the free air
	leastBand  = 50e3 // Pa that a pressure switch leaves between cut-in and cut-out: common practice, no source
	finely     = 0.01 // of the value
	mostHalves = 16
	tryDays    = 16
)

// remedies looks for what would do in a shop that has not enough. Where receivers stand
// apart it is sought as if they were one store, and held against days of them as they stand.
func (s *shop) remedies(ctx context.Context, ask Ask, rare unit.Ratio) ([]Remedy, error) {
	ask.Days, ask.Within, ask.Told, ask.Trace = tryDays, 0, nil, false
	search := s
	if s.plant.Vessels != nil {
		var err error
		if search, err = s.together(ctx, ask); err != nil {
			return nil, err
		}
	}
	var out []Remedy
	for _, lever := range []Lever{MoreStore, MoreAir, HigherIn} {
		r, x, err := search.remedy(ctx, ask, lever, rare)
		if err == nil && search != s {
			r, err = s.asTheyStand(ctx, ask, lever, x, rare)
		}
		if err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	return out, nil
}

// together is the shop with all receivers as one store.
func (s *shop) together(ctx context.Context, ask Ask) (*shop, error) {
	one := *s
	one.plant.Vessels, one.mu, one.tables = nil, new(sync.Mutex), map[string]*entry{}
	return &one, one.choose(ctx, ask)
}

// Days that receivers standing apart are tried by, and how often a remedy is halved by them.
const (
	apartDays   = 2
	apartHalves = 2
)

// asTheyStand tries a remedy that would do for one store, and more of it where that does not.
func (s *shop) asTheyStand(ctx context.Context, ask Ask, lever Lever, x float64, rare unit.Ratio) (Remedy, error) {
	ask.Days = apartDays
	_, most := lever.reach()
	if ok, a, err := s.tried(ctx, ask, s.plant.pulled(lever, x), rare); err != nil || ok {
		return s.told(lever, x, ok, a), err
	}
	r, _, err := s.halved(ctx, ask, lever, x, most, apartHalves, rare)
	return r, err
}

// reach is how far a lever is pulled: from nothing to as much as is tried.
func (l Lever) reach() (low, high float64) {
	if l == HigherIn {
		return 0, 1
	}
	return 1, mostTimes
}

// remedy is how far a lever has to be pulled.
func (s *shop) remedy(ctx context.Context, ask Ask, lever Lever, rare unit.Ratio) (Remedy, float64, error) {
	low, high := lever.reach()
	return s.halved(ctx, ask, lever, low, high, mostHalves, rare)
}

// halved halves the way between what does not do and what does.
func (s *shop) halved(ctx context.Context, ask Ask, lever Lever, low, high float64, halves int, rare unit.Ratio) (Remedy, float64, error) {
	try := func(x float64) (bool, *Answer, error) { return s.tried(ctx, ask, s.plant.pulled(lever, x), rare) }
	ok, a, err := try(high)
	if !ok || err != nil {
		return s.told(lever, high, false, a), high, err
	}
	for ; high-low > finely*high && halves > 0; halves-- {
		x := (low + high) / 2
		ok, tried, err := try(x)
		if err != nil {
			return Remedy{}, x, err
		}
		if ok {
			high, a = x, tried
		} else {
			low = x
		}
	}
	return s.told(lever, high, true, a), high, nil
}

// told is a lever pulled so far, with what came of it.
func (s *shop) told(lever Lever, x float64, does bool, a *Answer) Remedy {
	r := Remedy{What: lever, Does: does}
	if a != nil {
		r.outcome(a)
	}
	if !does {
		return r
	}
	p := s.plant.pulled(lever, x)
	switch lever {
	case MoreStore:
		r.Volume = unit.Volume(p.Volume)
	case MoreAir:
		for _, k := range p.Machines {
			r.Air += air.FreeAir(unit.MassFlow(k.Flow))
		}
	case HigherIn:
		least := math.Inf(1)
		for _, k := range p.Machines {
			least = min(least, k.CutIn)
		}
		r.CutIn = unit.GaugePressure(least - s.atm)
	}
	return r
}

func (r *Remedy) outcome(a *Answer) {
	for _, t := range a.Tools {
		r.Short = max(r.Short, t.Short)
	}
	for _, k := range a.Compressors {
		r.Starts = max(r.Starts, k.Starts)
	}
}

// pulled is the plant with a lever pulled: times the volume or the air, or a share of
// the way from each cut-in to its cut-out but for the least band.
func (p Plant) pulled(lever Lever, x float64) Plant {
	p.Machines = slices.Clone(p.Machines)
	if lever == MoreStore {
		p.Volume *= x
		p.Vessels = slices.Clone(p.Vessels)
		for i := range p.Vessels {
			p.Vessels[i].Volume *= x
		}
	}
	for i := range p.Machines {
		k := &p.Machines[i]
		switch lever {
		case MoreAir:
			k.Flow *= x
		case HigherIn:
			k.CutIn += x * max(0, k.CutOut-leastBand-k.CutIn)
		}
	}
	return p
}

// tried works the days through with another plant; ok says that it is enough.
func (s *shop) tried(ctx context.Context, ask Ask, p Plant, rare unit.Ratio) (ok bool, a *Answer, err error) {
	other := *s
	other.plant = p
	days, err := other.through(ctx, ask, 0, ask.Days)
	if err != nil {
		return false, nil, err
	}
	a = ask.answer("")
	other.sum(a, days)
	return a.Enough(rare), a, nil
}

// Enough says whether nobody goes short for more than a share of his time, every motor
// bears what it does, and cut-out is reached.
func (a *Answer) Enough(rare unit.Ratio) bool {
	if a.Untold != "" || !a.Full {
		return false
	}
	for _, t := range a.Tools {
		if t.Short > rare {
			return false
		}
	}
	for _, k := range a.Compressors {
		if k.Most > 0 && k.Starts > k.Most || k.DutyMost > 0 && k.Duty > k.DutyMost {
			return false
		}
	}
	return true
}
