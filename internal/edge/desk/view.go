package desk

import (
	"maps"
	"sync"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// view is one revision of a job as all see it. It never changes, so that it is
// read without a lock; next is closed when another takes its place.
type view struct {
	revision   int
	floor      int
	study      *study.Study
	variants   *variants
	undo, redo string
	saved      bool
	trouble    string
	next       chan struct{}
}

// now tells a view to those outside.
func (v *view) now(plan job.ID) (Now, error) {
	n := Now{
		Revision: v.revision, Floor: v.floor, Study: v.study,
		Undo: v.undo, Redo: v.redo, Saved: v.saved, Trouble: v.trouble,
	}
	if plan == "" {
		return n, nil
	}
	alternative, err := v.variants.get(v.study, plan)
	if err != nil {
		return Now{}, err
	}
	n.Study, n.Left = alternative.study, alternative.left
	return n, nil
}

// variants are the alternatives of one job as studies, each made on first asking.
type variants struct {
	mu sync.Mutex
	of map[job.ID]variant
}

// variant is one alternative, and the steps of it that are left out.
type variant struct {
	study *study.Study
	left  []job.Finding
}

// get is the alternative of the job of a study; a *job.Refusal tells that there is none.
func (s *variants) get(of *study.Study, plan job.ID) (variant, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if v, ok := s.of[plan]; ok {
		return v, nil
	}
	inside, left := job.Variant(of.Job(), plan)
	if inside == nil {
		return variant{}, &job.Refusal{Findings: left}
	}
	v := variant{of.Next(inside), left}
	if s.of == nil {
		s.of = map[job.ID]variant{}
	}
	s.of[plan] = v
	return v, nil
}

// peek is the alternative if it was made.
func (s *variants) peek(plan job.ID) (variant, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	v, ok := s.of[plan]
	return v, ok
}

// after are the alternatives after an edit of the job before, which gave the job
// after. Those that it cannot have changed are kept, and the one that it is made
// in goes on from its old study, so that it is solved as quickly as the job.
func (s *variants) after(edit job.Edit, before, after *job.Job) *variants {
	s.mu.Lock()
	kept := &variants{of: maps.Clone(s.of)}
	s.mu.Unlock()
	for _, t := range job.Touches(edit) {
		switch {
		case t.In != "":
			delete(kept.of, t.In)
		case t.ID.Word() == "plan":
			delete(kept.of, t.ID)
		default:
			return &variants{}
		}
	}
	if within, ok := edit.(*job.Within); ok {
		if old, ok := s.peek(within.Plan); ok {
			if v, ok := old.moved(within, before, after); ok && kept.of != nil {
				kept.of[within.Plan] = v
			}
		}
	}
	return kept
}

// moved is the alternative after one more step or one less; ok is false where it
// is better made anew.
func (v variant) moved(edit *job.Within, before, after *job.Job) (variant, bool) {
	step, bad := edit.Inner()
	if bad != nil {
		return variant{}, false
	}
	if edit.Off != nil {
		// What takes the step off within the alternative is the inverse that it had
		// there. Where steps are left out it may have been one of them.
		fewer, left := job.Variant(after, edit.Plan)
		last := lastStep(before, edit.Plan)
		if fewer == nil || left != nil || v.left != nil || last == nil {
			return variant{}, false
		}
		_, inverse, err := last.Apply(fewer)
		if err != nil {
			return variant{}, false
		}
		step = inverse
	}
	next, err := v.study.After(step)
	return variant{next, v.left}, err == nil
}

// lastStep is the last step of an alternative, or nil.
func lastStep(j *job.Job, plan job.ID) job.Edit {
	for i := range j.Plans {
		if p := &j.Plans[i]; p.ID == plan && len(p.Edits) > 0 {
			e, _ := job.ParseEdit(p.Edits[len(p.Edits)-1])
			return e
		}
	}
	return nil
}
