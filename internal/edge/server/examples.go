package server

import (
	"net/http"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
)

// getExampleThumb gives the small picture of a built-in shop.
func (s *Server) getExampleThumb(w http.ResponseWriter, r *http.Request) {
	j, err := exampleJob(r.PathValue("name"))
	if err != nil {
		fail(w, http.StatusNotFound, "there is no such example", clip(r.PathValue("name")))
		return
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Header().Set("Cache-Control", "no-cache")
	_, _ = w.Write(Thumb(study.Of(j, catalog.Builtin()))) // the reader has gone: nobody to tell
}
