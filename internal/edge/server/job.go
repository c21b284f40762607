package server

import (
	"net/http"

	"dropleg/internal/show/screen"
)

// shown is what a resource needs: the revision, and what was asked of it.
type shown struct {
	stamp Stamp
	shop  *screen.Shop
	ask   screen.Ask
	query *query
}

// open reads the parameters and finds the shop; it answers itself where either fails.
func (s *Server) open(w http.ResponseWriter, r *http.Request) (shown, bool) {
	ask, q := readAsk(r)
	now := s.watch.state()
	if now.shop == nil {
		fail(w, http.StatusConflict, "the file cannot be read", "GET /api/job lists what keeps it from being read")
		return shown{}, false
	}
	return shown{stamp: now.stamp, shop: now.shop, ask: ask, query: q}, true
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

// getJob answers even where no revision could be read: it says why.
func (s *Server) getJob(w http.ResponseWriter, r *http.Request) {
	ask, q := readAsk(r)
	if q.refused(w) {
		return
	}
	now := s.watch.state()
	answer := Job{Stamp: now.stamp, File: s.watch.source.Name(), Problems: now.problems}
	if now.shop != nil {
		head, err := now.shop.Head(r.Context(), ask)
		if err != nil {
			failWith(w, r, err)
			return
		}
		answer.Head = &head
	}
	send(w, r, answer)
}
