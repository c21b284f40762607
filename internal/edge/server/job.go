package server

import (
	"errors"
	"net/http"
	"path/filepath"

	"dropleg/internal/edge/desk"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// shown is what a resource needs: the revision, and what was asked of it.
type shown struct {
	stamp Stamp
	work  *desk.Work
	now   desk.Now
	plan  job.ID // the alternative asked for; "" for the job itself
	shop  *screen.Shop
	ask   screen.Ask
	query *query
}

// open reads the parameters and finds the job; it answers itself where either fails.
func (s *Server) open(w http.ResponseWriter, r *http.Request) (shown, bool) {
	return s.openAgain(w, r, "")
}

// openAgain is open for a step that is sent under a key: where it was taken before and
// the alternative went with it, as when that was adopted, the job itself is shown.
func (s *Server) openAgain(w http.ResponseWriter, r *http.Request, key string) (shown, bool) {
	ask, q := readAsk(r)
	on := shown{ask: ask, query: q, plan: job.ID(q.values.Get("plan"))}
	var err error
	if on.work, err = s.work(r); err == nil {
		on.now, err = on.work.Now(on.plan)
	}
	var refusal *job.Refusal
	if errors.As(err, &refusal) && on.work.Took(key) {
		on.plan = ""
		on.now, err = on.work.Now("")
	}
	switch {
	case errors.As(err, &refusal):
		fail(w, http.StatusNotFound, "there is no such alternative", titles(refusal.Findings))
		return shown{}, false
	case err != nil:
		failWith(w, r, err)
		return shown{}, false
	}
	s.at(&on, on.now)
	return on, true
}

// at sets what is shown to a state of the job.
func (s *Server) at(on *shown, now desk.Now) {
	on.now = now
	on.shop = s.shops.of(on.work.ID(), on.plan, now.Study)
	on.stamp = Stamp{Revision: now.Revision, Old: len(s.follow[on.work.ID()].state()) > 0}
}

// work is the job that a request names.
func (s *Server) work(r *http.Request) (*desk.Work, error) {
	return s.desk.Work(r.Context(), r.PathValue("job"))
}

// refused answers where the parameters are wrong, with everything that is.
func (q *query) refused(w http.ResponseWriter) bool {
	if len(q.wrong) == 0 {
		return false
	}
	text := ""
	for i, t := range q.wrong {
		if i > 0 {
			text += ". "
		}
		text += t
	}
	fail(w, http.StatusBadRequest, "the request cannot be used", text)
	return true
}

// getJob is what stands over the page.
func (s *Server) getJob(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	head, err := on.shop.Head(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	answer := Job{
		Stamp: on.stamp, ID: on.work.ID(), Head: &head, Problems: []Problem{}, Plans: []screen.Choice{},
		Saved: on.now.Saved, Trouble: s.troubled(on.now.Trouble), Undo: on.now.Undo, Redo: on.now.Redo,
		Left: problems(on.now.Left), Note: on.now.Study.Job().Note,
	}
	if f := s.follow[on.work.ID()]; f != nil {
		answer.File, answer.Follows = f.Source.Name(), true
		answer.Problems = append(answer.Problems, f.state()...)
	} else {
		answer.File = s.origin(r, on.work.ID())
	}
	base, err := on.work.Now("")
	if err != nil {
		failWith(w, r, err)
		return
	}
	for _, p := range base.Study.Job().Plans {
		answer.Plans = append(answer.Plans, screen.Choice{ID: string(p.ID), Words: p.Name})
	}
	send(w, r, answer)
}

// origin is the name of the file that a job came from, "" for none.
func (s *Server) origin(r *http.Request, id string) string {
	list, err := s.desk.Jobs(r.Context())
	if err != nil {
		return "" // the store's trouble is told elsewhere
	}
	for _, e := range list {
		if e.ID == id {
			return originName(e)
		}
	}
	return ""
}

func originName(e store.Entry) string {
	if filepath.IsAbs(e.Origin) {
		return filepath.Base(e.Origin)
	}
	return e.Origin
}

// troubled puts what is the matter from the beginning before what is now.
func (s *Server) troubled(now string) string {
	switch {
	case s.trouble == "":
		return now
	case now == "":
		return s.trouble
	}
	return s.trouble + " " + now
}
