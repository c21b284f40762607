package server

import (
	"encoding/json"
	"fmt"
	"net/http"
	"time"
)

// beat is how often an idle event stream shows that it lives.
const beat = 20 * time.Second

// getEvents sends the revision now and again whenever it changes, until the
// reader goes or the server ends.
func (s *Server) getEvents(w http.ResponseWriter, r *http.Request) {
	flush, ok := w.(http.Flusher)
	if !ok {
		fail(w, http.StatusInternalServerError, "events cannot be sent here", "")
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/event-stream")
	h.Set("Cache-Control", "no-store")
	tick := time.NewTicker(beat)
	defer tick.Stop()
	for told := 0; ; {
		// The channel first: a change between the two is then seen again, never missed.
		changed := s.watch.changed()
		if stamp := s.watch.state().stamp; stamp.Revision != told {
			body, err := json.Marshal(Event{stamp})
			if err != nil {
				return // a number and a bool: cannot happen
			}
			if _, err := fmt.Fprintf(w, "event: revision\ndata: %s\n\n", body); err != nil {
				return
			}
			flush.Flush()
			told = stamp.Revision
		}
		if !s.wait(w, r, flush, changed, tick.C) {
			return
		}
	}
}

// wait keeps the stream alive until there is news; false: it is over.
func (s *Server) wait(w http.ResponseWriter, r *http.Request, flush http.Flusher, changed <-chan struct{}, tick <-chan time.Time) bool {
	for {
		select {
		case <-changed:
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
