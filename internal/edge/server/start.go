package server

import (
	"net/http"

	"dropleg/engine/unit"
	"dropleg/internal/decide/start"
	"dropleg/internal/shop/catalog"
)

// getStart tells what the five questions offer.
func (s *Server) getStart(w http.ResponseWriter, r *http.Request) {
	ask, q := readAsk(r)
	if q.refused(w) {
		return
	}
	if ask.System == "" {
		ask.System = unit.Metric
	}
	send(w, r, Start{start.Offer(catalog.Builtin(), ask.System)})
}
