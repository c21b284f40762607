package server

import (
	"bytes"
	"encoding/json"
	"errors"
	"net/http"

	"dropleg/internal/show/screen"
)

// fail answers with a fault (RFC 9457).
func fail(w http.ResponseWriter, status int, title, detail string) {
	body, err := json.Marshal(Fault{Title: title, Status: status, Detail: detail})
	if err != nil {
		body = []byte("{}") // three plain fields: cannot happen
	}
	w.Header().Set("Content-Type", "application/problem+json")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = w.Write(body) // the reader has gone: nobody to tell
}

// failWith turns an error of an answer into a fault: the one place where they map.
func failWith(w http.ResponseWriter, r *http.Request, err error) {
	var missing *screen.NotThere
	switch {
	case r.Context().Err() != nil:
		// The reader has gone.
	case errors.As(err, &missing):
		fail(w, http.StatusNotFound, "there is no such thing in this job", err.Error())
	default:
		fail(w, http.StatusInternalServerError, "this could not be worked out", err.Error())
	}
}

// send answers with JSON. Answers change with the file, so nothing may keep them.
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
