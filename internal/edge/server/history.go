package server

import (
	"net/http"

	"dropleg/internal/edge/store"
)

// The steps of a history that are sent at once, where the request does not say.
const (
	usualSteps = 50
	mostSteps  = 500
)

// getHistory lists what was done, newest first.
func (s *Server) getHistory(w http.ResponseWriter, r *http.Request) {
	on, ok := s.open(w, r)
	if !ok {
		return
	}
	before, most := on.query.whole("before", 0), min(on.query.whole("most", usualSteps), mostSteps)
	if on.query.refused(w) {
		return
	}
	steps, err := on.work.History(r.Context(), before, most+1)
	if err != nil {
		failWith(w, r, err)
		return
	}
	answer := History{Stamp: on.stamp, Steps: []HistoryStep{}, More: len(steps) > most}
	for _, step := range steps[:min(len(steps), most)] {
		answer.Steps = append(answer.Steps, historyStep(step))
	}
	send(w, r, answer)
}

func historyStep(s store.Step) HistoryStep {
	return HistoryStep{Revision: s.Revision, When: moment(s.When), By: s.By, Plan: s.Plan, Kind: s.Kind, Of: s.Of, Words: s.Words}
}
