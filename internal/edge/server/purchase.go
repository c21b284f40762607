package server

import "net/http"

// getPurchase tells what to buy and what to cut.
func (s *Server) getPurchase(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	purchase, err := on.shop.Purchase(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Purchase{on.stamp, purchase})
}
