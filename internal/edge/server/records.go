package server

import (
	"context"
	"encoding/json"
	"errors"
	"net/http"

	"dropleg/engine/document"
	"dropleg/internal/answer/study"
	"dropleg/internal/edge/desk"
	"dropleg/internal/shop/job"
)

// mostRecords is what a phone may bring at once after an afternoon without its line.
const mostRecords = 500

// errHad says that a record is in the job already.
var errHad = errors.New("the record is there already")

// postRecords adds records under ids that their writer made: one that is there already is
// not added again, whenever it is sent. Each stands or falls by itself.
func (s *Server) postRecords(w http.ResponseWriter, r *http.Request) {
	var body RecordsBody
	if !readJSON(w, r, &body) {
		return
	}
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	if len(body.Records) > mostRecords {
		fail(w, http.StatusBadRequest, "these are too many at once", "at most 500 records")
		return
	}
	out := Recorded{Stamp: on.stamp, Taken: []string{}, Had: []string{}, Refused: []RecordRefused{}}
	for _, raw := range body.Records {
		id, err := s.record(r, on, signed(body.By), raw)
		var refusal *job.Refusal
		switch {
		case err == nil:
			out.Taken = append(out.Taken, id)
		case errors.Is(err, errHad):
			out.Had = append(out.Had, id)
		case errors.As(err, &refusal):
			out.Refused = append(out.Refused, RecordRefused{id, titles(refusal.Findings)})
		default:
			failWith(w, r, err)
			return
		}
	}
	if now, err := on.work.Now(""); err == nil {
		out.Revision = now.Revision
	}
	send(w, r, out)
}

// record adds one.
func (s *Server) record(r *http.Request, on shown, by string, raw json.RawMessage) (id string, err error) {
	if _, text := document.Keys(raw, "id"); text != nil {
		if err := json.Unmarshal(text, &id); err != nil {
			id = "" // told by the edit, which reads it strictly
		}
	}
	now, err := on.work.Now("")
	if err != nil {
		return id, err
	}
	// It is made even where the phone has gone again: it asks anew.
	_, err = on.work.Do(context.WithoutCancel(r.Context()), desk.Ask{Base: now.Revision, By: by, Make: func(st *study.Study) (job.Edit, []job.ID, error) {
		if st.Index().Record(job.ID(id)) != nil {
			return nil, nil, errHad
		}
		return &job.Add{What: "record", Thing: raw}, []job.ID{job.ID(id)}, nil
	}})
	return id, err
}
