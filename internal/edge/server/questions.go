package server

import "net/http"

func (s *Server) getQuestions(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	rows, err := on.shop.Questions(r.Context(), on.today())
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Questions{on.stamp, rows})
}
