package server

import (
	"fmt"
	"net/http"

	"dropleg/internal/shop/job"
)

func (s *Server) getThing(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	thing, err := on.shop.Thing(r.Context(), on.ask, job.ID(r.PathValue("id")))
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Thing{on.stamp, thing})
}

// mostField is how long a text may be that is typed into a field: a note.
const mostField = 6000

// getTyped reads what was typed into a field of a thing, ?key=part.set_kPa_g&text=90 psi,
// and answers with the step that states it. Nothing is changed by it.
func (s *Server) getTyped(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok {
		return
	}
	key, text := on.query.values.Get("key"), on.query.values.Get("text")
	for name, read := range map[string]string{"key": key, "text": text} {
		if len(read) > mostField {
			on.query.wrong = append(on.query.wrong, fmt.Sprintf("%s: read %d characters, want at most %d", name, len(read), mostField))
		}
	}
	if on.query.refused(w) {
		return
	}
	typed, err := on.shop.Read(r.Context(), on.ask, job.ID(r.PathValue("id")), key, text)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Typed{on.stamp, typed})
}
