package server

import "net/http"

func (s *Server) getParts(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	rows, note := on.shop.Parts(on.ask)
	send(w, r, Parts{on.stamp, rows, note})
}
