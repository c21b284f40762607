package server

import "net/http"

func (s *Server) getOutlets(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	rows, err := on.shop.Outlets(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Outlets{on.stamp, rows})
}
