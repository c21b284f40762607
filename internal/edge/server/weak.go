package server

import "net/http"

// mostSaid is how much of a complaint is listened to, bytes.
const mostSaid = 500

// getWeak says why a shop is weak, by the readings of its records; complaint= is
// what somebody says of it, else what its records say.
func (s *Server) getWeak(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	said := on.query.values.Get("complaint")
	told, err := s.minds.Weigh(r.Context(), on.shop.Study(), on.shop.Units(on.ask), said[:min(len(said), mostSaid)])
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Weak{on.stamp, *told})
}
