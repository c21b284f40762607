package server

import "net/http"

func (s *Server) getFindings(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	rows, err := on.shop.Findings(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Findings{on.stamp, rows})
}
