package server

import (
	"bytes"
	"net/http"
	"time"

	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// today is what a question about upkeep is asked on.
func (on *shown) today() screen.Ask {
	ask := on.ask
	ask.Now = time.Now()
	return ask
}

// getBuild tells the order of work.
func (s *Server) getBuild(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	build, err := on.shop.Build(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Build{on.stamp, build})
}

// getProve tells how the job is tested and what was found.
func (s *Server) getProve(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	prove, err := on.shop.Prove(r.Context(), on.ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Prove{on.stamp, prove})
}

// postDecay tells what a series of readings says before it is recorded. It keeps nothing.
func (s *Server) postDecay(w http.ResponseWriter, r *http.Request) {
	var test job.Test
	if !readJSON(w, r, &test) {
		return
	}
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	decay, err := on.shop.Decay(r.Context(), on.ask, &test)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Decay{on.stamp, decay})
}

// getKeep tells the upkeep.
func (s *Server) getKeep(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	keep, err := on.shop.Keep(r.Context(), on.today())
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, Keep{on.stamp, keep})
}

// getCalendar gives the upkeep as a calendar to take along (RFC 5545).
func (s *Server) getCalendar(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	var b bytes.Buffer
	if err := on.shop.Calendar(r.Context(), &b, on.today(), on.work.ID(), time.Now()); err != nil {
		failWith(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "text/calendar; charset=utf-8")
	w.Header().Set("Content-Disposition", `attachment; filename="upkeep.ics"`)
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(b.Bytes()) // the reader has gone: nobody to tell
}
