package prove

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/engine/vessel"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Section is a stretch of line between valves and plant, with its test.
type Section struct {
	ID      string             `json:"id"` // that of its first run
	Runs    []job.ID           `json:"runs"`
	Points  []job.ID           `json:"points"`
	Ends    []End              `json:"ends"`
	Outlets []job.ID           `json:"outlets"`
	Joints  []string           `json:"joints"`
	Volume  unit.Volume        `json:"volume_m3"`         // of its lines
	Unknown []job.ID           `json:"unknown,omitempty"` // runs whose volume is not known
	Design  unit.GaugePressure `json:"design_Pa_g"`       // 0: not known
	Lowest  *Lowest            `json:"lowest_rating,omitempty"`
	Test    *Test              `json:"test,omitempty"`
	Leak    *Test              `json:"leak_test,omitempty"` // in its place, or where it is refused
	Refused string             `json:"refused,omitempty"`   // why no test above working pressure: no-design, over-rating, no-rating, no-volume
	Away    *unit.Length       `json:"room_m,omitempty"`    // how far off one can stand within the rooms
	Items   []Item             `json:"items"`
	Made    []Made             `json:"made"` // tests that were made, as recorded
}

// Lowest is the part of a section that bears least.
type Lowest struct {
	ID       job.ID             `json:"id"`
	Pressure unit.GaugePressure `json:"pressure_Pa_g"`
	Temp     unit.Temperature   `json:"temperature_K,omitempty"`
	cite.Ref
}

// Test is one way to put a section under pressure.
type Test struct {
	Pressure unit.GaugePressure `json:"pressure_Pa_g"`
	Stages   []Stage            `json:"stages"`
	Energy   unit.Energy        `json:"stored_J"`
	TNT      unit.Mass          `json:"tnt_kg"`
	Blast    unit.Length        `json:"blast_m"`
	Least    unit.Length        `json:"least_m"`
	Distance unit.Length        `json:"distance_m"` // the greater of the two
	Fits     bool               `json:"fits"`       // the rooms are large enough
	Relief   unit.GaugePressure `json:"relief_Pa_g,omitempty"`
}

// section plans the test of one stretch.
func (w *work) section(s *stretch) Section {
	out := Section{ID: string(s.runs[0].ID), Points: s.points, Ends: s.ends, Outlets: s.outlets, Joints: []string{}, Made: []Made{}}
	for _, r := range s.runs {
		out.Runs = append(out.Runs, r.ID)
	}
	out.Volume, out.Unknown = w.volume(s)
	out.Design = w.design(s)
	out.Lowest = w.lowest(s)
	if far, ok := w.away(s); ok {
		out.Away = &far
	}
	test := unit.GaugePressure(w.rule.Factor) * out.Design
	out.Items = w.items(s, test)
	switch {
	case out.Design <= 0:
		out.Refused = "no-design"
		return out
	case out.Volume <= 0:
		out.Refused = "no-volume"
		return out
	case out.Lowest == nil:
		out.Refused = "no-rating"
	case out.Lowest.Pressure < test-1:
		out.Refused = "over-rating"
	default:
		out.Test = w.test(&out, test, w.rule.Hold)
	}
	if out.Test == nil || !out.Test.Fits {
		out.Leak = w.leakTest(&out)
	}
	return out
}

// leakTest is one at working pressure, or at what the weakest part bears, from the line
// alone: the receiver is shut off. Nil where what it bears is not known.
func (w *work) leakTest(s *Section) *Test {
	if s.Lowest == nil {
		return nil
	}
	t := w.test(s, min(s.Design, s.Lowest.Pressure), usualHold)
	if t != nil {
		t.Relief = 0 // that of the compressor guards it
	}
	return t
}

// test is a test at a pressure with its stages, its energy and its distance.
func (w *work) test(s *Section, p unit.GaugePressure, hold unit.Duration) *Test {
	stored, err := vessel.StoredIn(s.Volume, p.Abs(w.atmosphere))
	if err != nil {
		return nil // told as a section without volume
	}
	t := &Test{
		Pressure: p, Stages: stages(p, hold), Energy: stored.Energy, TNT: stored.TNT,
		Blast: stored.Blast, Least: stored.Least, Distance: stored.Distance(),
		Relief: min(p*reliefOver, p+unit.GaugePressure(reliefOverMax)),
	}
	t.Fits = s.Away != nil && *s.Away >= t.Distance
	return t
}

// lowest is the least that anything in a section bears at its temperature; nil where a
// line's rating is not known, or none is known at all.
func (w *work) lowest(s *stretch) *Lowest {
	var out *Lowest
	take := func(id job.ID) {
		b, ok := w.bears[id]
		if p := w.index.Point(id); p != nil && !ok { // no element of the net, as a receiver
			b, ok = model.StampOf(w.shelf, &p.Part)
		}
		if ok && b.Known && (out == nil || b.Pressure < out.Pressure) {
			out = &Lowest{id, b.Pressure, b.Temp, b.Ref}
		}
	}
	for _, r := range s.runs {
		if b, ok := w.bears[r.ID]; !ok || !b.Known {
			return nil
		}
		take(r.ID)
	}
	for _, e := range s.ends {
		take(e.Point)
	}
	for _, p := range s.parts {
		if !w.kept(p) {
			take(p.id)
		}
	}
	return out
}

// kept says whether a part is one that is kept from the test unless it bears it.
func (w *work) kept(p part) bool {
	for _, n := range named() {
		if p.kind.Has(n.role) {
			return true
		}
	}
	return false
}
