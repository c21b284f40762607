package find

import (
	"fmt"
	"slices"
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Kind is what was done to get a reading.
type Kind string

// The kinds of reading.
const (
	Pressure Kind = "pressure" // a gauge at a place, with what ran
	PumpUp   Kind = "pump-up"  // the compressor fills the receiver, nothing runs
	Fall     Kind = "fall"     // the receiver falls, compressor off, nothing runs
	Starts   Kind = "starts"   // how often the compressor starts in an hour
	Look     Kind = "look"     // somebody looked at a thing, and did what he did
)

// Place is where a gauge sits: an outlet (before its last coupler), a point
// with a gauge, or between hose and tool, where Tool is set.
type Place struct {
	At   job.ID `json:"at"`
	Tool job.ID `json:"tool,omitempty"`
}

// Reading is one thing read in the shop.
type Reading struct {
	Kind     Kind               `json:"kind"`
	Place    Place              `json:"place,omitzero"`
	Running  []job.InUse        `json:"running,omitempty"`
	Pressure unit.GaugePressure `json:"pressure_Pa_g,omitempty"`
	Receiver unit.GaugePressure `json:"receiver_Pa_g,omitempty"`
	From     unit.GaugePressure `json:"from_Pa_g,omitempty"`
	To       unit.GaugePressure `json:"to_Pa_g,omitempty"`
	Time     unit.Duration      `json:"time_s,omitempty"`
	Starts   float64            `json:"starts_per_h,omitempty"`
	Shut     []job.ID           `json:"shut,omitempty"`    // valves, while it fell
	Stopped  bool               `json:"stopped,omitempty"` // the compressor, and the receiver let down: of a Pressure alone
	Thing    job.ID             `json:"thing,omitempty"`   // that was looked at
	Found    Found              `json:"found,omitempty"`
	Record   job.ID             `json:"record,omitempty"`
}

// Unusable is a reading that tells nothing as it stands, and what it lacks.
type Unusable struct {
	Reading Reading
	Words   string
}

func (e *Unusable) Error() string { return e.Words }

// ofJob takes the readings out of a job's records; lost says in words what
// could not be used and why, by what bars one. A record that was taken back
// counts no more.
func ofJob(j *job.Job, bars func(Reading) *Unusable) (all []Reading, lost []string) {
	ix := job.NewIndex(j)
	for _, rec := range inOrder(j) {
		one, used, why := ofRecord(ix, rec)
		if why == "" && used {
			if bad := bars(one); bad != nil {
				why = bad.Words
			}
		}
		switch {
		case why != "":
			lost = append(lost, fmt.Sprintf("%s: %s", rec.ID, why))
		case used:
			all = append(all, one)
		}
	}
	return all, lost
}

// inOrder are the records that may tell of a fault, as time went: a phone that was out
// of reach adds its own later.
func inOrder(j *job.Job) []*job.Record {
	back := j.TakenBack()
	var out []*job.Record
	for i := range j.Records {
		rec := &j.Records[i]
		if !back[rec.ID] && (rec.Kind == "reading" && rec.Reading != nil || rec.Task == job.LookedAt) {
			out = append(out, rec)
		}
	}
	when := func(r *job.Record) time.Time { t, _ := time.Parse(time.RFC3339, r.When); return t }
	slices.SortStableFunc(out, func(a, b *job.Record) int { return when(a).Compare(when(b)) })
	return out
}

// ofRecord is what a record of a reading says; used is false where it is of
// something else, such as dew points.
func ofRecord(ix *job.Index, rec *job.Record) (one Reading, used bool, why string) {
	r := rec.Reading
	if rec.Task == job.LookedAt {
		one = Reading{Kind: Look, Found: Found(rec.Found), Record: rec.ID}
		if len(rec.About) > 0 {
			one.Thing = rec.About[0]
		}
		return one, true, ""
	}
	one = Reading{Kind: Pressure, Running: r.Running, Record: rec.ID}
	switch {
	case r.From != nil && r.To != nil && r.Time != nil:
		one.Kind, one.From, one.To, one.Time, one.Shut = Fall, *r.From, *r.To, *r.Time, r.Shut
		if one.To > one.From {
			one.Kind = PumpUp
		}
	case r.Starts != nil:
		one.Kind, one.Starts = Starts, *r.Starts
	case r.Pressure == nil:
		return one, false, ""
	case r.Receiver == nil:
		return one, true, "the receiver's pressure at the same moment is missing, and without it nobody knows how much was lost on the way."
	default:
		one.Pressure, one.Receiver, one.Place, one.Stopped = *r.Pressure, *r.Receiver, placeOf(ix, rec.About), r.Stopped
	}
	return one, true, ""
}

// placeOf is where a gauge sat by what a record is about: a tool named first means
// between its hose and it.
func placeOf(ix *job.Index, about []job.ID) Place {
	for _, id := range about {
		if ix.Outlet(id) == nil && ix.Point(id) == nil {
			continue
		}
		if ix.Tool(about[0]) != nil {
			return Place{At: id, Tool: about[0]}
		}
		return Place{At: id}
	}
	return Place{}
}

// Bounds of sense for gauges and clocks in a workshop: common practice, no source.
const (
	mostGauge = 2.5e6 // Pa g
	slack     = 40e3  // Pa: two gauges of a workshop differ by no more

	mostStarts = 600 // in an hour
)

// usable tells what is wrong with a reading, nil where nothing is. Most of what
// it refuses is a unit: psi typed for bar.
func usable(m *model.Model, r Reading) *Unusable {
	refuse := func(words string) *Unusable { return &Unusable{r, words} }
	for _, u := range r.Running {
		if _, ok := m.PairOf(u); !ok {
			return refuse(fmt.Sprintf("%s is not used at %s in this job, so what it took is not known.", u.Tool, u.Outlet))
		}
	}
	if r.Kind == Look {
		return seenAt(m, r)
	}
	if r.Kind == Starts {
		if !(r.Starts > 0) || r.Starts > mostStarts {
			return refuse("starts in an hour: wanted more than none and at most 600.")
		}
		return nil
	}
	if r.Kind != Pressure {
		switch {
		case !(r.Time > 0):
			return refuse("the time is missing.")
		case (r.Kind == PumpUp) != (r.To > r.From):
			return refuse("filling ends at a higher pressure than it began, falling at a lower one.")
		case max(r.From, r.To) > mostGauge || min(r.From, r.To) < 0:
			return refuse("no workshop has that much pressure: was it read in another unit?")
		}
		return nil
	}
	switch {
	case nodeOf(m, r.Place) < 0:
		return refuse("there is no place for a gauge by that name: wanted an outlet, a point of the net, or a tool at its outlet.")
	case r.Receiver > mostGauge || r.Pressure > mostGauge:
		return refuse("no workshop has that much pressure: was it read in another unit?")
	case r.Pressure > r.Receiver+slack:
		return refuse("the line cannot stand above the receiver: was one of the two read in another unit, or are they exchanged?")
	case r.Pressure < 0 || r.Receiver <= 0:
		return refuse("a gauge pressure below zero: was absolute meant?")
	case r.Receiver < 50e3:
		return refuse("the receiver is all but empty at that: was it read in bar and typed as kPa or psi?")
	}
	return nil
}

// nodeOf is the node at which a gauge sits; -1 where there is none.
func nodeOf(m *model.Model, p Place) int {
	if p.Tool != "" {
		pair, ok := m.PairOf(job.InUse{Tool: p.Tool, Outlet: p.At})
		if !ok {
			return -1
		}
		return pair.Node
	}
	for _, o := range m.Outlets() {
		if o.ID == p.At {
			return o.Node
		}
	}
	for i, n := range m.Nodes() {
		if n.Point == p.At && p.At != "" {
			return i
		}
	}
	return -1
}
