package server

import (
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"slices"
	"strings"
	"time"

	"dropleg/engine/document"
)

// The most bytes that a request may bring.
const (
	mostAsked   = 4 << 20  // a step: an alternative of a large shop
	mostFile    = 96 << 20 // a job with its pictures
	mostPicture = 24 << 20
)

// uploadTime is how long a picture or a file may take to come in, over a slow Wi-Fi.
const uploadTime = 90 * time.Second

// readJSON reads a body strictly into a struct. It answers itself where the body
// cannot be used, with all that is wrong.
func readJSON(w http.ResponseWriter, r *http.Request, into any) bool {
	data, _, ok := readBody(w, r, mostAsked, "application/json")
	return ok && decode(w, data, into)
}

func decode(w http.ResponseWriter, data []byte, into any) bool {
	wrong := document.Decode(data, into)
	if wrong == nil {
		return true
	}
	f := Fault{Title: "the request cannot be used", Status: http.StatusBadRequest}
	for _, p := range wrong {
		f.Problems = append(f.Problems, Problem{Path: p.Path, Read: p.Read, Want: p.Want, Nearest: p.Nearest, Where: []string{}})
		f.Detail += fmt.Sprintf("%s: read %s, want %s. ", p.Path, clip(p.Read), p.Want)
	}
	f.Detail = strings.TrimSuffix(f.Detail, " ")
	tell(w, f)
	return false
}

// readBody reads a body of one of the types given, to a limit. It answers itself
// where it cannot.
func readBody(w http.ResponseWriter, r *http.Request, most int64, types ...string) (data []byte, kind string, ok bool) {
	kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type"))
	if err != nil || !slices.Contains(types, kind) {
		fail(w, http.StatusUnsupportedMediaType, "this is not read here",
			fmt.Sprintf("the content type is %q, wanted %s", clip(r.Header.Get("Content-Type")), strings.Join(types, " or ")))
		return nil, "", false
	}
	if most > mostAsked {
		// Where the connection knows no deadlines, the server's own stands.
		_ = http.NewResponseController(w).SetReadDeadline(time.Now().Add(uploadTime))
	}
	data, err = io.ReadAll(http.MaxBytesReader(w, r.Body, most))
	var much *http.MaxBytesError
	switch {
	case errors.As(err, &much):
		fail(w, http.StatusRequestEntityTooLarge, "this is too much", fmt.Sprintf("more than %d MB", most>>20))
		return nil, "", false
	case err != nil:
		fail(w, http.StatusBadRequest, "the request did not come through", err.Error())
		return nil, "", false
	}
	return data, kind, true
}
