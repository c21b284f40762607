package server

import (
	"net/http"
	"strings"
)

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
	// The cut may go through a letter.
	said = strings.ToValidUTF8(said[:min(len(said), mostSaid)], "")
	told, err := s.minds.Weigh(r.Context(), on.shop.Study(), on.shop.Units(on.ask), said)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Weak{on.stamp, *told})
}
