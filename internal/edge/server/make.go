package server

import (
	"errors"
	"net/http"
	"strings"

	"dropleg/internal/decide/start"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// makeShop makes a job out of the five answers: a first plan, or what stands drawn from
// them. Whoever takes one JSON to the line hears how far it is. Who hangs up ends the work.
func (s *Server) makeShop(w http.ResponseWriter, r *http.Request, body Create) {
	if !strings.Contains(r.Header.Get("Accept"), linesType) {
		made, err := s.shop(r, body, nil)
		if err != nil {
			failWith(w, r, err)
			return
		}
		w.Header().Set("Location", "/api/jobs/"+made.ID)
		send(w, r, made)
		return
	}
	say := lines[Making](w)
	made, err := s.shop(r, body, func(doing string, done, total int) {
		say(Making{Doing: doing, Done: done, Total: total})
	})
	var refusal *job.Refusal
	switch {
	case errors.As(err, &refusal):
		say(Making{Fault: &Fault{
			Title: "this does not fit the job", Status: http.StatusUnprocessableEntity,
			Detail: titles(refusal.Findings), Problems: problems(refusal.Findings),
		}})
	case err != nil:
		say(Making{Fault: &Fault{Title: "this could not be worked out", Status: http.StatusInternalServerError, Detail: err.Error()}})
	default:
		say(Making{Made: &made})
	}
}

// shop plans the shop and keeps it.
func (s *Server) shop(r *http.Request, body Create, progress func(string, int, int)) (Created, error) {
	if body.Start == nil {
		return Created{}, refusal("start", "nothing", "the answers to the five questions", "")
	}
	make := start.Of
	if body.From == "existing" {
		make = start.Existing
	}
	plan, err := make(r.Context(), *body.Start, catalog.Builtin(), progress)
	if err != nil {
		return Created{}, err
	}
	id, err := s.keep(r.Context(), plan.Job, body.Title, "")
	return Created{ID: id, Notes: []string{}, Assumed: plan.Assumptions, Facts: plan.Facts}, err
}
