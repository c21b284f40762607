package build

import (
	"context"
	"slices"
	"strings"

	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// work is a job while its work is ordered.
type work struct {
	job    *job.Job
	index  *job.Index
	shelf  *catalog.Catalog
	taken  *parts.Answer
	built  map[string]job.Standing
	joints map[string]job.Standing
	cut    map[string]bool // pieces that stand in the list
	a      *Answer
}

// Of orders the work of a job.
func Of(ctx context.Context, s *study.Study) (*Answer, error) {
	taken, err := s.Parts(ctx)
	if err != nil {
		return nil, err
	}
	held, err := s.Hold(ctx)
	if err != nil {
		return nil, err
	}
	j := s.Job()
	w := &work{
		job: j, index: s.Index(), shelf: s.Catalog(), taken: taken, cut: map[string]bool{},
		built: j.Standing("build"), joints: j.Standing("joint"), a: &Answer{Steps: []Step{}},
	}
	w.fix(held)
	for _, stage := range Stages()[1:] {
		w.make(stage)
	}
	w.count()
	return w.a, nil
}

// put adds a step with what the records say of it.
func (w *work) put(s Step) {
	s.Seen = []job.ID{}
	st, known := w.built[s.Task]
	s.Done = known && st.Found != undone
	s.Last, s.Clash = st.Last, st.Clash
	for _, r := range st.All {
		s.Seen = append(s.Seen, r.ID)
	}
	// A joint that somebody has looked at was made.
	if s.Joint != nil {
		_, looked := w.joints[s.Joint.ID]
		s.Done = s.Done || looked
	}
	w.a.Steps = append(w.a.Steps, s)
}

// undone is what a record finds that says that a step is not done after all.
const undone = "not-done"

// fix lists the supports of each planned line.
func (w *work) fix(held *hold.Answer) {
	by := map[job.ID][]*hold.Support{}
	for i := range held.Supports {
		if p := &held.Supports[i]; p.State == string(parts.Planned) {
			by[p.Run] = append(by[p.Run], p)
		}
	}
	for _, stage := range Stages()[1:] {
		for i := range w.job.Net.Runs {
			r := &w.job.Net.Runs[i]
			if w.stageOf(r) == stage && len(by[r.ID]) > 0 {
				w.put(Step{Task: "fix " + string(r.ID), What: Fix, Stage: Supports, Run: r.ID, Supports: by[r.ID]})
			}
		}
	}
}

// make lists the cuts and joints of a stage, each piece before the first joint that it
// goes into, and what is hidden once its joints are made.
func (w *work) make(stage Stage) {
	for i := range w.taken.Joints {
		k := &w.taken.Joints[i]
		if k.State != parts.Planned || w.stageOfJoint(k) != stage {
			continue
		}
		for n := range w.taken.Pieces {
			if p := &w.taken.Pieces[n]; p.From.Joint == k.ID || p.To.Joint == k.ID {
				w.piece(p, stage)
			}
		}
		w.put(Step{Task: "join " + k.ID, What: Join, Stage: stage, Run: w.runOf(k), Joint: k})
	}
	for n := range w.taken.Pieces { // ends that stand open have no joint
		if p := &w.taken.Pieces[n]; w.stageOf(w.index.Run(p.Run)) == stage {
			w.piece(p, stage)
		}
	}
	for i := range w.job.Net.Runs {
		if r := &w.job.Net.Runs[i]; w.stageOf(r) == stage && r.State != existing && r.State != string(parts.Stub) {
			w.hide(r, stage)
		}
	}
}

const existing = "existing"

func (w *work) piece(p *parts.Piece, stage Stage) {
	if p.State == parts.Planned && !w.cut[p.ID] {
		w.cut[p.ID] = true
		w.put(Step{Task: "cut " + p.ID, What: Cut, Stage: stage, Run: p.Run, Piece: p})
	}
}

// hide adds the moment after which nobody gets at a line any more.
func (w *work) hide(r *job.Run, stage Stage) {
	how := w.hidden(r)
	if how == "" {
		return
	}
	s := Step{Task: "hide " + string(r.ID), What: Hide, Stage: stage, Run: r.ID, Hidden: how}
	for i := range w.taken.Joints {
		k := &w.taken.Joints[i]
		if w.touches(k, r.ID) && w.joints[k.ID].Found != tight {
			s.Open = append(s.Open, k.ID)
		}
	}
	w.put(s)
}

// tight is what a joint is found to be that may be hidden.
const tight = "tight"

// hidden is how a line comes to be hidden; "" where it stays in sight.
func (w *work) hidden(r *job.Run) string {
	if r.Support == "void" || r.Support == "buried" {
		return r.Support
	}
	for _, p := range w.index.Centreline(r) {
		room := w.index.RoomAt(p)
		if room != nil && (room.Above == "boarded" || room.Above == "tiled") && p[2] > float64(room.Ceiling) {
			return room.Above
		}
	}
	return ""
}

// touches says whether a joint is on a line.
func (w *work) touches(k *parts.Joint, run job.ID) bool {
	return slices.ContainsFunc(k.Sides[:], func(s parts.Side) bool { return whole(s.Thing) == run })
}

// stageOf is when a line is built; "" for none.
func (w *work) stageOf(r *job.Run) Stage {
	switch {
	case r == nil:
		return ""
	case r.Role == "main" || r.Role == "ring":
		return Mains
	case r.Role == "link":
		return Plant
	}
	return Drops
}

// stageOfJoint is the latest of what it joins: plant comes after the lines, a drop after
// the main that it leaves.
func (w *work) stageOfJoint(k *parts.Joint) Stage {
	latest := 0
	for _, side := range k.Sides {
		latest = max(latest, slices.Index(Stages(), w.stageOfThing(whole(side.Thing))))
	}
	return Stages()[max(latest, 1)]
}

func (w *work) stageOfThing(id job.ID) Stage {
	if r := w.index.Run(id); r != nil {
		return w.stageOf(r)
	}
	if w.index.Outlet(id) != nil || w.index.OutletOfHose(id) != nil || w.index.OutletOfPart(id) != nil {
		return Drops
	}
	if p := w.index.Point(id); p != nil {
		kind, _ := w.shelf.Kind(p.Part.Kind)
		if kind.Group == catalog.Plant || kind.Group == catalog.Treatment {
			return Plant
		}
	}
	return Mains
}

// runOf is the line that a joint is on; "" for none.
func (w *work) runOf(k *parts.Joint) job.ID {
	for _, side := range k.Sides {
		if id := whole(side.Thing); w.index.Run(id) != nil {
			return id
		}
	}
	return ""
}

// whole is the thing that a thing within it belongs to.
func whole(id string) job.ID {
	first, _, _ := strings.Cut(id, "/")
	return job.ID(first)
}

// count sums up and finds what comes next.
func (w *work) count() {
	a := w.a
	a.Next, a.NextCut, a.NextJoint = -1, -1, -1
	for _, stage := range Stages() {
		c := Count{Stage: stage}
		for i := range a.Steps {
			if s := &a.Steps[i]; s.Stage == stage {
				c.All++
				if s.Done {
					c.Done++
				}
			}
		}
		if c.All > 0 {
			a.Progress = append(a.Progress, c)
			a.Done, a.All = a.Done+c.Done, a.All+c.All
		}
	}
	first := func(at *int, i int) {
		if *at < 0 {
			*at = i
		}
	}
	for i := range a.Steps {
		s := &a.Steps[i]
		if s.Done {
			continue
		}
		first(&a.Next, i)
		switch s.What {
		case Cut:
			first(&a.NextCut, i)
		case Join:
			first(&a.NextJoint, i)
		}
	}
}
