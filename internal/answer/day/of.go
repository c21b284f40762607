package day

import (
	"context"
	"runtime"
	"sync"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Ask is what a day, or many, are simulated by.
type Ask struct {
	Seed  uint64
	Days  int           // 0: one; with Within at most so many
	Time  unit.Duration // working time of each; 0: Shift
	Trace bool          // keep the course of the first day
	// Within ends the days once the share of its time that a tool goes short is known so
	// well of each, 95 %; 0: all days.
	Within unit.Ratio
	// Told hears, from any goroutine, how many days are done.
	Told func(done int)
	// AsOne takes receivers that stand apart as one store, for a coarse answer at once.
	AsOne bool
	// Remedies asks what would do, where there is not enough.
	Remedies bool
}

// Shift is a working day where the job states none.
const Shift = model.Workday

// What day takes where nothing is known: custom of the trade, no source.
const (
	slowest = 0.3   // of full delivery at the least speed of a speed-controlled compressor
	runOn   = 600.0 // s that a load-unload compressor runs on unloaded
)

// Compressor is what one did, over all days.
type Compressor struct {
	ID       job.ID       `json:"id"`
	Duty     unit.Ratio   `json:"duty"`       // share of the time under load
	Idle     unit.Ratio   `json:"idle"`       // share of the time running unloaded
	Starts   float64      `json:"starts_1_h"` // of its motor, mean
	Air      unit.FreeAir `json:"free_air_m3_s"`
	Most     float64      `json:"starts_most_1_h,omitempty"` // that its motor bears
	DutyMost unit.Ratio   `json:"duty_most,omitempty"`
}

// Tool is what one got, over all days and all its outlets.
type Tool struct {
	ID    job.ID     `json:"id"`
	Ran   unit.Ratio `json:"ran"`   // share of the time; of several alike the sum
	Short unit.Ratio `json:"short"` // share of its running time below its least pressure
	// Within is by how much Short may be off, 95 %, by how the days differ; of one day
	// nothing is known.
	Within unit.Ratio `json:"within,omitempty"`
	// Spoilt are the sets that it went short in longest, at most mostSpoilt of them.
	Spoilt []Spoilt `json:"spoilt,omitempty"`
}

// Spoilt is a set in which a tool goes short.
type Spoilt struct {
	Share   unit.Ratio  `json:"share"`   // of the time that the tool went short
	Running []job.InUse `json:"running"` // all that ran, itself included
}

const mostSpoilt = 3

// Answer is a working time through.
type Answer struct {
	Seed        uint64             `json:"seed"`
	Days        int                `json:"days"`
	Time        unit.Duration      `json:"time_s"` // of each day
	Volume      unit.Volume        `json:"volume_m3"`
	Leak        unit.FreeAir       `json:"leak_free_air_m3_s"`            // at cut-in
	Purge       unit.FreeAir       `json:"purge_free_air_m3_s,omitempty"` // blown off by dryers behind the receivers
	Compressors []Compressor       `json:"compressors"`
	Tools       []Tool             `json:"tools"`
	Lowest      unit.GaugePressure `json:"lowest_Pa_g"`
	Highest     unit.GaugePressure `json:"highest_Pa_g"`
	Full        bool               `json:"full"` // cut-out was reached at least once
	Taken       unit.FreeAir       `json:"taken_free_air_m3_s"`
	// Looked is at how many moments the network was solved for who goes short, where there
	// are too many sets to solve each; what a set takes is then what its tools take apart,
	// put right by what was seen at those moments, which it misses by Off, a share of the
	// flow (root mean square). 0: every set was solved.
	Looked int        `json:"looked,omitempty"`
	Off    unit.Ratio `json:"off,omitempty"`
	// Balance is air in less out less stored, over air in: what the sums leave open.
	Balance float64 `json:"balance"`
	// Receivers are the stores one by one where they do not level out at once, the one that
	// most air is fed to first; Lowest and Highest are of it.
	Receivers []Receiver `json:"receivers,omitempty"`
	// AsOne: the receivers stand apart, and were taken as one store.
	AsOne bool `json:"as_one,omitempty"`
	// Course is the first day, where asked for.
	Course []Sample `json:"course,omitempty"`
	// Remedies are what would do where there is not enough, and was asked for.
	Remedies []Remedy `json:"remedies,omitempty"`
	// Untold says why there is no answer; "" where there is one.
	Untold string `json:"untold,omitempty"`
}

// Receiver is a store among several: receivers that stand side by side.
type Receiver struct {
	IDs     []job.ID           `json:"ids"`
	Volume  unit.Volume        `json:"volume_m3"` // with the lines nearest to it
	Lowest  unit.GaugePressure `json:"lowest_Pa_g"`
	Highest unit.GaugePressure `json:"highest_Pa_g"`
	node    int
}

// Sample is a moment of the first day.
type Sample struct {
	At       unit.Duration      `json:"at_s"`
	Pressure unit.GaugePressure `json:"pressure_Pa_g"`
	// Receivers are the pressures of Answer.Receivers.
	Receivers []unit.GaugePressure `json:"receivers_Pa_g,omitempty"`
	Running   []job.InUse          `json:"running"`
	Loaded    []job.ID             `json:"under_load"` // compressors
}

// round is how many days are worked through before it is asked whether they suffice.
const round = 8

// Of simulates working days of a shop. The error is that of ctx or of the program;
// a shop that cannot be simulated says why in Untold.
func Of(ctx context.Context, j *job.Job, m *model.Model, ask Ask) (*Answer, error) {
	ask.Days = max(1, ask.Days)
	if ask.Time <= 0 {
		ask.Time = Shift
	}
	s, untold := newShop(ctx, j, m)
	if untold != "" {
		return ask.answer(untold), nil
	}
	asOne := ask.AsOne && s.plant.Vessels != nil
	if asOne {
		s.plant.Vessels = nil
	}
	if s.plant.Vessels == nil {
		if err := s.choose(ctx, ask); err != nil {
			return nil, err
		}
	}
	var days []done
	for {
		n := ask.Days - len(days)
		if ask.Within > 0 {
			n = min(n, round)
		}
		more, err := s.through(ctx, ask, len(days), n)
		if err != nil {
			return nil, err
		}
		days = append(days, more...)
		if len(days) < ask.Days && !s.known(days, ask.Within) {
			continue
		}
		a := ask.answer("")
		a.Days, a.AsOne = len(days), asOne
		s.sum(a, days)
		if ask.Trace {
			s.sample(a, days[0])
		}
		if rare := j.RuleRare().Value; ask.Remedies && !a.Enough(rare) {
			a.Remedies, err = s.remedies(ctx, ask, rare)
		}
		return a, err
	}
}

func (ask Ask) answer(untold string) *Answer {
	return &Answer{Seed: ask.Seed, Days: ask.Days, Time: ask.Time, Compressors: []Compressor{}, Tools: []Tool{}, Untold: untold}
}

// through works some days through, on all cores.
func (s *shop) through(ctx context.Context, ask Ask, first, n int) ([]done, error) {
	days := make([]done, n)
	var mu sync.Mutex
	ready := first
	err := each(n, func(i int) error {
		d, err := s.day(ctx, ask, first+i)
		if err != nil {
			return err
		}
		mu.Lock()
		defer mu.Unlock()
		days[i] = d
		ready++
		if ask.Told != nil {
			ask.Told(ready)
		}
		return nil
	})
	return days, err
}

// known says whether the days tell every tool's share well enough.
func (s *shop) known(days []done, within unit.Ratio) bool {
	for i := range s.tools {
		if _, off := shareShort(i, days); off > within {
			return false
		}
	}
	return true
}

// each does n things on all cores; the error is the first in order of time.
func each(n int, do func(i int) error) error {
	var wg sync.WaitGroup
	var mu sync.Mutex
	var failed error
	next := 0
	take := func() (int, bool) {
		mu.Lock()
		defer mu.Unlock()
		i := next
		next++
		return i, i < n && failed == nil
	}
	for range min(runtime.GOMAXPROCS(0), n) {
		wg.Go(func() {
			for i, ok := take(); ok; i, ok = take() {
				if err := do(i); err != nil {
					mu.Lock()
					if failed == nil {
						failed = err
					}
					mu.Unlock()
				}
			}
		})
	}
	wg.Wait()
	return failed
}
