package server

import (
	"net/http"

	"dropleg/internal/decide/find"
)

// mostSaid is how much of a complaint is listened to, bytes.
const mostSaid = 500

// getWeak says why a shop is weak, by the readings of its records; complaint= is
// what somebody says of it.
func (s *Server) getWeak(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	f, err := find.New(r.Context(), on.shop.Study(), on.shop.Units(on.ask))
	if err != nil {
		failWith(w, r, err)
		return
	}
	out := Weak{Stamp: on.stamp}
	if said := on.query.values.Get("complaint"); said != "" {
		out.Understood = f.Complain(said[:min(len(said), mostSaid)]).Words
	}
	if out.Answer, err = f.Answer(r.Context()); err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, out)
}
