package server

import (
	"net/http"

	"dropleg/internal/show/screen"
)

// getCompare puts the job and its alternatives side by side.
func (s *Server) getCompare(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	base, err := on.work.Now("")
	if err != nil {
		failWith(w, r, err)
		return
	}
	id := on.work.ID()
	var others []screen.Alternative
	for _, p := range base.Study.Job().Plans {
		now, err := on.work.Now(p.ID)
		if err != nil {
			failWith(w, r, err)
			return
		}
		others = append(others, screen.Alternative{Plan: p.ID, Shop: s.shops.of(id, p.ID, now.Study), Left: now.Left})
	}
	c, err := screen.Compare(r.Context(), s.shops.of(id, "", base.Study), on.ask, others)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Compare{Stamp{Revision: base.Revision, Old: on.stamp.Old}, c})
}
