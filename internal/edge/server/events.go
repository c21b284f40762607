package server

import (
	"encoding/json"
	"fmt"
	"net/http"
	"time"

	"dropleg/internal/edge/desk"
)

// beat is how often an idle event stream shows that it lives.
const beat = 20 * time.Second

// getEvents sends the revision of a job now and again whenever it changes, whoever
// changed it, until the reader goes or the server ends.
func (s *Server) getEvents(w http.ResponseWriter, r *http.Request) {
	flush, ok := w.(http.Flusher)
	if !ok {
		fail(w, http.StatusInternalServerError, "events cannot be sent here", "")
		return
	}
	work, err := s.work(r)
	if err != nil {
		failWith(w, r, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	follow := s.follow[work.ID()]
	tick := time.NewTicker(beat)
	defer tick.Stop()
	var told *Event
	for {
		// The channels first: a change between the two is then seen again, never missed.
		changed, followed := work.Changed(), follow.changed()
		now, err := s.event(r, work)
		if err != nil {
			return // the job was put away: the reader asks anew and is told
		}
		if told == nil || *told != now {
			body, err := json.Marshal(now)
			if err != nil {
				return // plain fields: cannot happen
			}
			if _, err := fmt.Fprintf(w, "event: revision\ndata: %s\n\n", body); err != nil {
				return
			}
			flush.Flush()
			told = &now
		}
		if !s.wait(w, r, flush, changed, followed, tick.C) {
			return
		}
		if lying, err := s.work(r); err != nil || lying != work {
			return // it was put away: the reader comes again for the one that lies open now
		}
	}
}

// event is what there is to tell of a job now: who did what last.
func (s *Server) event(r *http.Request, work *desk.Work) (Event, error) {
	now, err := work.Now("")
	if err != nil {
		return Event{}, err
	}
	e := Event{
		Stamp: Stamp{Revision: now.Revision, Old: len(s.follow[work.ID()].state()) > 0},
		Saved: now.Saved, Trouble: s.troubled(now.Trouble),
	}
	// Without the store the words may be missing; the revision is what counts.
	if steps, err := work.History(r.Context(), now.Revision+1, 1); err == nil && len(steps) == 1 {
		e.By, e.Words = steps[0].By, steps[0].Words
	}
	return e, nil
}

// wait keeps the stream alive until there is news; false: it is over.
func (s *Server) wait(w http.ResponseWriter, r *http.Request, flush http.Flusher, changed, followed <-chan struct{}, tick <-chan time.Time) bool {
	for {
		select {
		case <-changed:
			return true
		case <-followed:
			return true
		case <-tick:
			if _, err := fmt.Fprint(w, ": \n\n"); err != nil {
				return false
			}
			flush.Flush()
		case <-r.Context().Done():
			return false
		case <-s.ending:
			return false
		}
	}
}
