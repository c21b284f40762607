package study

import (
	"fmt"
	"reflect"

	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// After is the study of the job after an edit. What does not depend on any part
// of the document that the edit changed is kept where it stands already; the
// rest is computed when asked for, the network beginning at the old pressures.
// The error is the edit's own where it does not fit the job.
func (s *Study) After(edit job.Edit) (*Study, error) {
	j, _, err := edit.Apply(s.job)
	if err != nil {
		return nil, fmt.Errorf("applying the edit: %w", err)
	}
	n := &Study{job: j, base: s.base, shelf: s.shelf, start: s.lastStart()}
	if !same(s.job.Catalogue, j.Catalogue) {
		n.shelf, _ = s.base.With(j.Catalogue)
		return n, nil
	}
	// The index points into the document itself, so it is never kept.
	if !s.sameNetwork(j) {
		return n, nil
	}
	carry(&s.model, &n.model)
	if !same(s.job.Work, j.Work) || !same(s.job.Rules.Rare, j.Rules.Rare) {
		return n, nil
	}
	carry(&s.demand, &n.demand)
	if same(s.job.Rules.Leak, j.Rules.Leak) {
		carry(&s.flow, &n.flow)
	}
	return n, nil
}

// sameNetwork says whether all that the model reads is as it was. (It reads the
// building for zones and for points on walls, the site for its air and for the
// units of its words.)
func (s *Study) sameNetwork(j *job.Job) bool {
	return same(s.job.Net, j.Net) && same(s.job.Outlets, j.Outlets) && same(s.job.Tools, j.Tools) &&
		same(s.job.Site, j.Site) && same(s.job.Building, j.Building)
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
