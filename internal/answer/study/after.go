package study

import (
	"fmt"
	"reflect"
	"slices"

	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// After is the study of the job after an edit, as Next. The error is the edit's
// own where it does not fit the job.
func (s *Study) After(edit job.Edit) (*Study, error) {
	j, _, err := edit.Apply(s.job)
	if err != nil {
		return nil, fmt.Errorf("applying the edit: %w", err)
	}
	return s.Next(j), nil
}

// Next is the study of another job that comes of this one: by an edit, by going
// back, as an alternative. What does not depend on any part of the document that
// differs is kept where it stands already; the rest is computed when asked for, the
// network beginning at the old pressures. It is a fresh study in all but time.
func (s *Study) Next(j *job.Job) *Study {
	n := &Study{job: j, base: s.base, shelf: s.shelf, start: s.lastStart(), starts: s.lastStarts(), worst: s.lastWorst(), before: s.lastDays()}
	if !same(s.job.Catalogue, j.Catalogue) {
		n.shelf, _ = s.base.With(j.Catalogue)
		return n
	}
	if onlyRecords(s.job, j) {
		carry(&s.parts, &n.parts)
		carry(&s.purchase, &n.purchase)
	}
	// The index points into the document itself, so it is never kept.
	if !s.sameNetwork(j) {
		return n
	}
	carry(&s.model, &n.model)
	if !same(s.job.Work, j.Work) || !same(s.job.Rules.Rare, j.Rules.Rare) {
		return n
	}
	carry(&s.demand, &n.demand)
	s.states.carryTo(&n.states)
	if same(s.job.Rules.Leak, j.Rules.Leak) {
		carry(&s.flow, &n.flow)
		carry(&s.steady, &n.steady)
		carry(&s.few, &n.few)
		carry(&s.wet, &n.wet)
		carry(&s.year, &n.year)
		carry(&s.hold, &n.hold)
	}
	return n
}

// onlyRecords says whether nothing but records differs: no answer reads them, and a tick in
// the shop is to cost nothing.
func onlyRecords(a, b *job.Job) bool {
	x, y := *a, *b
	x.Records, y.Records = nil, nil
	return same(x, y)
}

// sameNetwork says whether all that the model reads is as it was. (It reads the
// building for zones and for points on walls, the site for its air and for the
// units of its words, the work for when the day begins.)
func (s *Study) sameNetwork(j *job.Job) bool {
	return same(s.job.Net, j.Net) && same(s.job.Outlets, j.Outlets) && same(s.job.Tools, j.Tools) &&
		same(s.job.Site, j.Site) && same(s.job.Building, j.Building) &&
		same(s.job.Work.Begin, j.Work.Begin)
}

// same compares two parts of a document by what stands in them.
func same(a, b any) bool { return reflect.DeepEqual(a, b) }

// carry plants an answer in the next revision, if it stands already.
func carry[T any](from, to *once[T]) {
	if v, ok := from.peek(); ok {
		to.keep(v)
	}
}

// lastStart is the pressures found in this revision, else those it began with.
func (s *Study) lastStart() model.Start {
	m, known := s.model.peek()
	f, solved := s.flow.peek()
	if !known || !solved {
		return s.start
	}
	for i := range f.Sets {
		if r := f.Sets[i].CutIn.Result; r.Solved {
			return m.StartFrom(r)
		}
	}
	return s.start
}

// began is a state found in an earlier revision.
type began struct {
	key   stateKey
	start model.Start
}

// mostStarts bounds what is handed on: a page or two look at one set each.
const mostStarts = 4

// lastStarts are the states that were looked at last, those of this revision first.
func (s *Study) lastStarts() []began {
	var out []began
	add := func(b began) {
		if len(out) < mostStarts && !slices.ContainsFunc(out, func(o began) bool { return o.key == b.key }) {
			out = append(out, b)
		}
	}
	if m, ok := s.model.peek(); ok {
		for _, shown := range s.states.found() {
			if shown.State.Solved {
				add(began{stateKey{shown.Set.Key(), shown.Supply}, m.StartFrom(shown.State.Result)})
			}
		}
		if f, ok := s.flow.peek(); ok && f.Worst >= 0 {
			set := &f.Sets[f.Worst]
			for _, supply := range []model.Supply{model.CutIn, model.CutOut} {
				if state := set.State(supply); state.Solved {
					add(began{stateKey{set.Key(), supply}, m.StartFrom(state.Result)})
				}
			}
		}
	}
	for _, b := range s.starts {
		add(b)
	}
	return out
}

// startFor is where to begin for a state: at the one of its key, else at any of
// the same set; the zero Start for none.
func startFor(list []began, key stateKey) model.Start {
	for _, b := range list {
		if b.key == key {
			return b.start
		}
	}
	for _, b := range list {
		if b.key.set == key.set {
			return b.start
		}
	}
	return model.Start{}
}

// lastWorst is the set that was the shop's worst when Flow was last asked for.
func (s *Study) lastWorst() string {
	f, solved := s.flow.peek()
	switch {
	case !solved:
		return s.worst
	case f.Worst < 0:
		return ""
	}
	return f.Sets[f.Worst].Key()
}
