package calibrate

import (
	"fmt"
	"math"
	"slices"
	"time"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/decide/find"
	"dropleg/internal/decide/prove"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Timing is the leak by how long the compressor ran and stood while nothing was drawn.
type Timing struct {
	prove.Leakage
	Record job.ID `json:"record,omitempty"`
}

// Ask are the readings of a commissioning.
type Ask struct {
	Readings []find.Reading
	Timings  []Timing
	// Gauge is what a gauge is good to, plus or minus 19 times in 20, once for how it stands
	// off and once for each reading of it; 0: a gauge of class 1.6 to 10 bar with marks of 1 psi.
	Gauge  unit.PressureDiff
	Unused []string // what could not be used, in words
}

// doubts are those of the instruments.
func (a *Ask) doubts() find.Doubts {
	d := find.Known()
	if a.Gauge > 0 {
		d.Gauge = math.Sqrt2 * float64(a.Gauge) / oddsOfNormal
		d.Bias = d.Gauge
	}
	return d
}

// OfJob takes the readings out of a job's records, those written from since on.
func OfJob(j *job.Job, m *model.Model, since time.Time) Ask {
	var a Ask
	after, back := *j, map[job.ID]bool{}
	after.Records = nil
	for i := range j.Records {
		back[j.Records[i].Back] = true
	}
	for i := range j.Records {
		r := &j.Records[i]
		if when, _ := time.Parse(time.RFC3339, r.When); !back[r.ID] && !when.Before(since) {
			after.Records = append(after.Records, *r)
		}
	}
	a.Readings, a.Unused = find.OfJob(&after, m)
	for i := range after.Records {
		r := &after.Records[i]
		if r.Test == nil || len(r.Test.Loads) == 0 {
			continue
		}
		leak, err := prove.OnOff(r.Test, supplyOf(m))
		if err != nil {
			a.Unused = append(a.Unused, string(r.ID)+": "+err.Error())
			continue
		}
		a.Timings = append(a.Timings, Timing{leak, r.ID})
	}
	return a
}

func supplyOf(m *model.Model) unit.FreeAir {
	all := unit.FreeAir(0)
	for _, c := range m.Compressors() {
		all += c.FreeAir
	}
	return all
}

// store is what fills and falls.
type store struct {
	volume float64 // m³: receivers and lines
	supply float64 // kg/s
	mid    float64 // Pa abs: mid band, at which a leak is stated
}

func storeOf(m *model.Model) store {
	s := store{supply: float64(air.Mass(supplyOf(m)))}
	for _, r := range m.Receivers() {
		s.volume += float64(r.Volume)
	}
	for _, e := range m.Elements() {
		s.volume += math.Pi / 4 * float64(e.Bore*e.Bore*e.Length)
	}
	for _, c := range m.Sources() {
		s.mid = float64(c.CutIn+c.CutOut)/2 + float64(m.Atmosphere())
	}
	return s
}

// usable leaves out what is not reckoned with here: how often a compressor starts, what
// was read with a valve shut or with the compressor stopped, and what was read before
// something was mended.
func (a Ask) usable() Ask {
	var kept []find.Reading
	unused := slices.Clone(a.Unused)
	for i := range a.Readings {
		r := &a.Readings[i]
		switch {
		case r.Kind == find.Look && r.Found == find.Sound:
		case r.Kind == find.Look:
			if n := len(kept); n > 0 {
				unused = append(unused, fmt.Sprintf("%d taken before %s was %s: they tell of another shop", n, r.Thing, r.Found))
			}
			kept = nil
		case r.Kind == find.Starts:
			unused = append(unused, fmt.Sprintf("%g starts an hour: they tell of demand, not of lines", r.Starts))
		case len(r.Shut) > 0:
			unused = append(unused, fmt.Sprintf("a reading with %s shut: only the whole shop is reckoned with", r.Shut[0]))
		case r.Stopped:
			unused = append(unused, fmt.Sprintf("a reading at %s with the compressor stopped: the receiver falls while two gauges are read", r.Place.At))
		case r.Kind != find.Pressure && (r.Time <= 0 || r.From == r.To):
			unused = append(unused, "a time without a change of pressure")
		default:
			kept = append(kept, *r)
		}
	}
	a.Readings, a.Unused = kept, unused
	return a
}
