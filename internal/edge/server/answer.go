package server

import (
	"bytes"
	"encoding/json"
	"errors"
	"net/http"
	"time"

	"dropleg/internal/edge/desk"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// fail answers with a fault (RFC 9457).
func fail(w http.ResponseWriter, status int, title, detail string) {
	tell(w, Fault{Title: title, Status: status, Detail: detail})
}

func tell(w http.ResponseWriter, f Fault) {
	body, err := json.Marshal(f)
	if err != nil {
		body = []byte("{}") // plain fields: cannot happen
	}
	w.Header().Set("Content-Type", "application/problem+json")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(f.Status)
	_, _ = w.Write(body) // the reader has gone: nobody to tell
}

// failWith turns an error of an answer into a fault: the one place where they map.
func failWith(w http.ResponseWriter, r *http.Request, err error) {
	var missing *screen.NotThere
	var refusal *job.Refusal
	var conflict *desk.Conflict
	var trouble *store.Trouble
	switch {
	case r.Context().Err() != nil:
		// The reader has gone.
	case errors.As(err, &missing):
		fail(w, http.StatusNotFound, "there is no such thing in this job", err.Error())
	case errors.Is(err, store.ErrNotThere):
		fail(w, http.StatusNotFound, "there is no such job, or no such thing of it", err.Error())
	case errors.As(err, &conflict):
		tell(w, conflictFault(conflict))
	case errors.Is(err, desk.ErrAhead):
		fail(w, http.StatusConflict, "the page is ahead of the job", err.Error())
	case errors.As(err, &refusal):
		tell(w, Fault{
			Title: "this does not fit the job", Status: http.StatusUnprocessableEntity,
			Detail: titles(refusal.Findings), Problems: problems(refusal.Findings),
		})
	case errors.Is(err, desk.ErrNothingToUndo), errors.Is(err, desk.ErrNothingToRedo), errors.Is(err, desk.ErrNoRevision):
		fail(w, http.StatusUnprocessableEntity, "there is no such step", err.Error())
	case errors.Is(err, desk.ErrKey):
		fail(w, http.StatusBadRequest, "the request cannot be used", "key: "+err.Error())
	case errors.Is(err, desk.ErrClosed):
		fail(w, http.StatusGone, "the job was put away", err.Error())
	case errors.Is(err, store.ErrName), errors.Is(err, store.ErrTooBig):
		fail(w, http.StatusBadRequest, "this cannot be kept", err.Error())
	case errors.As(err, &trouble):
		fail(w, http.StatusInsufficientStorage, "the disk does not take it", trouble.Words)
	default:
		fail(w, http.StatusInternalServerError, "this could not be worked out", err.Error())
	}
}

// conflictFault tells what another did to the same thing.
func conflictFault(c *desk.Conflict) Fault {
	f := Fault{
		Title: "another has changed the same", Status: http.StatusConflict, Detail: c.Error(),
		Conflict: &Conflict{By: c.By, Words: c.Words, When: c.When.UTC().Format(time.RFC3339), Revision: c.Revision, Things: []string{}},
	}
	for _, id := range c.Things {
		f.Conflict.Things = append(f.Conflict.Things, string(id))
	}
	if c.Refusal != nil {
		f.Problems = problems(c.Refusal.Findings)
	}
	return f
}

func titles(found []job.Finding) string {
	text := ""
	for i, f := range found {
		if i > 0 {
			text += ". "
		}
		text += f.Title
	}
	return text
}

// send answers with JSON. Answers change with the job, so nothing may keep them.
func send(w http.ResponseWriter, r *http.Request, v any) {
	var body bytes.Buffer
	enc := json.NewEncoder(&body)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(v); err != nil {
		failWith(w, r, err)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(body.Bytes()) // the reader has gone: nobody to tell
}
