package server

import (
	"context"
	"net/http"
	"slices"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/edge/desk"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// Maker makes an edit on a study, as the desk asks for it, and tells the ids that
// the edit gives.
type Maker func(*study.Study) (job.Edit, []job.ID, error)

// ReadStep reads a step: an edit, {"edit": …}, or a gesture of the hand, {"do": …}.
// Findings tell all that is wrong with it.
func ReadStep(raw []byte) (Maker, []job.Finding) {
	keys, _ := document.Keys(raw, "do")
	if slices.Contains(keys, "do") {
		gesture, bad := fit.Parse(raw)
		if len(bad) > 0 {
			return nil, bad
		}
		return func(s *study.Study) (job.Edit, []job.ID, error) { return gesture.Edit(s.Index(), s.Catalog()) }, nil
	}
	if !slices.Contains(keys, "edit") {
		f := job.Finding{Code: "cannot-read", Severity: job.Fault, Path: "step", Read: "neither", Want: `a key "do" (a gesture) or "edit"`}
		f.Title = "step: read neither, want " + f.Want
		if near := nearKey(keys); near != "" {
			f.Nearest = near
		}
		return nil, []job.Finding{f}
	}
	edit, bad := job.ParseEditJSON(raw)
	if len(bad) > 0 {
		return nil, bad
	}
	return func(*study.Study) (job.Edit, []job.ID, error) { return edit, added(edit), nil }, nil
}

// nearKey is which of the two keys was meant.
func nearKey(keys []string) string {
	for _, k := range keys {
		if near := unit.Nearest(k, []string{"do", "edit"}); near != "" {
			return near
		}
	}
	return ""
}

// added lists the ids of the things that an edit adds.
func added(edit job.Edit) []job.ID {
	var out []job.ID
	switch e := edit.(type) {
	case *job.Add:
		for _, t := range job.Touches(e) {
			if t.Key == "" {
				out = append(out, t.ID)
			}
		}
	case *job.All:
		parts, _ := e.Parts()
		for _, p := range parts {
			if p != nil {
				out = append(out, added(p)...)
			}
		}
	}
	return out
}

// postStep makes an edit or a gesture on the job and answers with what it changed.
func (s *Server) postStep(w http.ResponseWriter, r *http.Request) {
	var body StepBody
	if !readJSON(w, r, &body) {
		return
	}
	s.change(w, r, body.Base, body.Key, func(ctx context.Context, on shown, ahead func(*study.Study)) (desk.Done, error) {
		make, bad := ReadStep(body.Step)
		if len(bad) > 0 {
			return desk.Done{}, &job.Refusal{Findings: bad}
		}
		return on.work.Do(ctx, desk.Ask{Base: body.Base, Plan: on.plan, By: signed(body.By), Key: body.Key, Make: make, Ahead: ahead})
	})
}

// postUndo takes the newest step back, whoever made it.
func (s *Server) postUndo(w http.ResponseWriter, r *http.Request) {
	s.changeBy(w, r, func(ctx context.Context, on shown, by, key string) (desk.Done, error) {
		return on.work.Undo(ctx, on.plan, by, key)
	})
}

// postRedo does again what was taken back last.
func (s *Server) postRedo(w http.ResponseWriter, r *http.Request) {
	s.changeBy(w, r, func(ctx context.Context, on shown, by, key string) (desk.Done, error) {
		return on.work.Redo(ctx, on.plan, by, key)
	})
}

func (s *Server) changeBy(w http.ResponseWriter, r *http.Request, do func(ctx context.Context, on shown, by, key string) (desk.Done, error)) {
	var body ByBody
	if !readJSON(w, r, &body) {
		return
	}
	s.change(w, r, body.Base, body.Key, func(ctx context.Context, on shown, _ func(*study.Study)) (desk.Done, error) {
		return do(ctx, on, signed(body.By), body.Key)
	})
}

// postGoTo makes the job what it was after a step of its history.
func (s *Server) postGoTo(w http.ResponseWriter, r *http.Request) {
	var body GoToBody
	if !readJSON(w, r, &body) {
		return
	}
	s.change(w, r, body.Base, body.Key, func(ctx context.Context, on shown, _ func(*study.Study)) (desk.Done, error) {
		return on.work.GoTo(ctx, body.Revision, signed(body.By), body.Key)
	})
}

// postAdopt makes an alternative the job.
func (s *Server) postAdopt(w http.ResponseWriter, r *http.Request) {
	var body AdoptBody
	if !readJSON(w, r, &body) {
		return
	}
	s.change(w, r, body.Base, body.Key, func(ctx context.Context, on shown, _ func(*study.Study)) (desk.Done, error) {
		return on.work.Adopt(ctx, job.ID(body.Plan), body.Base, signed(body.By), body.Key)
	})
}

// change makes a change and answers with what of the drawing it changed since the
// base. The change is made even where the reader has gone meanwhile: it would not
// know whether it was, and asks again with the same key. What do tells of ahead is
// drawn while it is saved.
func (s *Server) change(w http.ResponseWriter, r *http.Request, base int, key string, do func(ctx context.Context, on shown, ahead func(*study.Study)) (desk.Done, error)) {
	on, ok := s.openAgain(w, r, key)
	if !ok {
		return
	}
	sheet := readSheet(on.query)
	if on.query.refused(w) {
		return
	}
	ctx, stop := context.WithCancel(r.Context())
	defer stop()
	var early early
	done, err := do(context.WithoutCancel(ctx), on, func(next *study.Study) { early = s.begin(ctx, on, sheet, next) })
	if err != nil {
		failWith(w, r, err)
		return
	}
	if on.plan != "" && !on.hasPlan() {
		on.plan = "" // it was adopted, or undone: the job itself is shown
	}
	s.at(&on, done.Now)
	live, err := s.live(ctx, on, sheet, base, early)
	if err != nil {
		failWith(w, r, err)
		return
	}
	live.Words, live.Merged = done.Words, done.Merged
	for _, id := range done.Made {
		live.Made = append(live.Made, string(id))
	}
	send(w, r, live)
}

// hasPlan says whether the alternative shown is still there.
func (on *shown) hasPlan() bool {
	_, err := on.work.Now(on.plan)
	return err == nil
}

// signed is a name as it stands in the history: one line, not too long.
func signed(by string) string {
	const most = 60
	by = strings.Join(strings.Fields(by), " ")
	if r := []rune(by); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return by
}
