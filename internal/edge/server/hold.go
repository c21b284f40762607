package server

import "net/http"

// getHold tells how the lines are held and what they grow.
func (s *Server) getHold(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	hold, err := on.shop.Hold(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Hold{on.stamp, hold})
}
