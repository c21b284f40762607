package server

import (
	"net/http"

	"dropleg/internal/shop/job"
)

func (s *Server) getPath(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	way, err := on.shop.Way(r.Context(), on.ask, job.ID(r.PathValue("id")))
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Way{on.stamp, way})
}
