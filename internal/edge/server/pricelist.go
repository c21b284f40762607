package server

import (
	"context"
	"encoding/base64"
	"net/http"

	"dropleg/internal/answer/study"
	"dropleg/internal/edge/desk"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// mostList is the most that a price list may come to: 16 MB, in base64 with what is said of it.
const mostList = 24 << 20

// postPriceList tells what a price list would be taken for. Nothing is kept.
func (s *Server) postPriceList(w http.ResponseWriter, r *http.Request) {
	var body PriceListBody
	on, ok := s.open(w, r)
	if !ok || on.query.refused(w) {
		return
	}
	list, ok := readList(w, r, &body, &body.File)
	if !ok {
		return
	}
	in, err := screen.TakeIn(r.Context(), on.now.Study, list, body.Ask)
	if err != nil {
		failWith(w, r, err)
		return
	}
	send(w, r, PriceList{on.stamp, screen.PriceListOf(in, on.now.Study.Job().Money())})
}

// postPrices takes the sure rows of a price list, as one step.
func (s *Server) postPrices(w http.ResponseWriter, r *http.Request) {
	var body PricesBody
	list, ok := readList(w, r, &body, &body.File)
	if !ok {
		return
	}
	s.change(w, r, body.Base, body.Key, func(ctx context.Context, on shown, ahead func(*study.Study)) (desk.Done, error) {
		make := func(now *study.Study) (job.Edit, []job.ID, error) {
			in, err := screen.TakeIn(ctx, now, list, body.Ask)
			if err != nil {
				return nil, nil, err
			}
			edit := in.Edit(now.Index())
			if edit == nil {
				return nil, nil, &job.Refusal{Findings: []job.Finding{{
					Code: "nothing-given", Severity: job.Fault, Title: "no row of the list is sure and new", Path: "file", Read: screen.TakeInWords(in), Want: "a row to be taken",
				}}}
			}
			return edit, added(edit), nil
		}
		return on.work.Do(ctx, desk.Ask{Base: body.Base, Plan: on.plan, By: signed(body.By), Key: body.Key, Make: make, Ahead: ahead})
	})
}

// readList reads a body with a price list in it; it answers itself where it cannot.
func readList(w http.ResponseWriter, r *http.Request, body any, file *string) ([]byte, bool) {
	data, _, ok := readBody(w, r, mostList, "application/json")
	if !ok || !decode(w, data, body) {
		return nil, false
	}
	list, err := base64.StdEncoding.DecodeString(*file)
	if err != nil {
		fail(w, http.StatusBadRequest, "the request cannot be used", "file: "+err.Error()+", wanted the bytes of the list in base64")
		return nil, false
	}
	return list, true
}
