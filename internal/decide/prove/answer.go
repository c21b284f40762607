package prove

import (
	"context"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// Answer is the plan of tests and what was made of it.
type Answer struct {
	Rule     Chosen    `json:"rule"`
	Sections []Section `json:"sections"`
	Joints   []Joint   `json:"joints"`
	Progress Progress  `json:"progress"`
	Outlets  []Outlet  `json:"outlets"`
	Whole    []Made    `json:"whole"` // leaks measured at the plant
	// Limit is the leak that all lines together may have; a section has its share of it by
	// volume.
	Limit     unit.FreeAir `json:"leak_limit_free_air_m3_s"`
	Checked   []string     `json:"checked"`
	Unchecked []string     `json:"not_checked"`
}

// Made is a test that was made, with what it says.
type Made struct {
	Record  *job.Record `json:"record"`
	Verdict *Verdict    `json:"verdict,omitempty"`
	Leakage *Leakage    `json:"leakage,omitempty"`
	Problem string      `json:"problem,omitempty"`
}

// Of plans the tests of a job and reads its records.
func Of(ctx context.Context, s *study.Study) (*Answer, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	taken, err := s.Parts(ctx)
	if err != nil {
		return nil, err
	}
	w := newWork(s, m)
	a := &Answer{Rule: w.rule, Sections: []Section{}, Whole: []Made{}}
	a.Joints, a.Progress = joints(w.job, taken)
	total := unit.Volume(0)
	for _, st := range w.stretches() {
		section := w.section(&st)
		total += section.Volume
		a.Sections = append(a.Sections, section)
	}
	w.place(a.Sections, taken)
	a.Limit = w.allowed()
	w.made(a, total)
	if a.Outlets, err = w.outlets(ctx); err != nil {
		return nil, err
	}
	a.tell()
	return a, nil
}

// supply is what the compressors deliver.
func (w *work) supply() unit.FreeAir {
	sum := unit.FreeAir(0)
	for _, c := range w.model.Compressors() {
		sum += c.FreeAir
	}
	return sum
}

// newWorkLeaks is the share of what the rules take for leaks that new work may have: the
// rest is for hoses, couplers and years (common practice, no source).
const newWorkLeaks = 0.1

// allowed is the leak that all lines together may have.
func (w *work) allowed() unit.FreeAir {
	return unit.FreeAir(newWorkLeaks * float64(w.job.RuleLeak().Value) * float64(w.supply()))
}

// place puts each joint to the section that it is in.
func (w *work) place(sections []Section, taken *parts.Answer) {
	at := map[string]int{}
	for i := range sections {
		s := &sections[i]
		for _, id := range slices.Concat(s.Points, s.Runs, s.Outlets) {
			at[string(id)] = i + 1
		}
		for _, e := range s.Ends {
			if at[string(e.Point)] == 0 {
				at[string(e.Point)] = i + 1
			}
		}
	}
	for i := range taken.Joints {
		k := &taken.Joints[i]
		if n := max(at[whole(k.Sides[0].Thing)], at[whole(k.Sides[1].Thing)]); n > 0 && k.State != parts.Stub {
			sections[n-1].Joints = append(sections[n-1].Joints, k.ID)
		}
	}
}

// made reads the tests that were recorded.
func (w *work) made(a *Answer, total unit.Volume) {
	back := map[job.ID]bool{}
	for i := range w.job.Records {
		back[w.job.Records[i].Back] = true
	}
	for i := range w.job.Records {
		r := &w.job.Records[i]
		if r.Kind != "test" || r.Test == nil || back[r.ID] {
			continue
		}
		at := slices.IndexFunc(a.Sections, func(s Section) bool { return s.ID == r.Test.Section })
		if at < 0 {
			a.Whole = append(a.Whole, w.atPlant(r))
			continue
		}
		s := &a.Sections[at]
		s.Made = append(s.Made, w.inSection(r, s, total, a.Limit))
	}
}

// inSection judges a test of a section; its limit is its share of all the volume.
func (w *work) inSection(r *job.Record, s *Section, total unit.Volume, limit unit.FreeAir) Made {
	out := Made{Record: r}
	if r.Test.Way != decays {
		return out
	}
	ask := Ask{Volume: s.Volume, Atmosphere: w.atmosphere, Limit: limit}
	if total > 0 {
		ask.Limit = limit * unit.FreeAir(s.Volume/total)
	}
	out.Verdict = new(Judge(r.Test, ask))
	return out
}

// The ways of a test that more is worked out of.
const (
	decays = "decay"
	onOff  = "on-off"
	bleeds = "bleed-down"
)

// atPlant is a leak of the whole, measured at compressor and receiver.
func (w *work) atPlant(r *job.Record) Made {
	out := Made{Record: r}
	var l Leakage
	var err error
	switch r.Test.Way {
	case onOff:
		l, err = OnOff(r.Test, w.supply())
	case bleeds:
		ask := Ask{Atmosphere: w.atmosphere}
		for _, s := range w.model.Receivers() {
			ask.Volume += s.Volume
		}
		l, err = Bleed(r.Test, ask, w.supply())
	default:
		out.Problem = "it names no section that is there"
		return out
	}
	if err != nil {
		out.Problem = err.Error()
	}
	out.Leakage = &l
	return out
}
