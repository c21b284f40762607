package server

import (
	"bytes"
	"net/http"

	"dropleg/internal/answer/study"
	"dropleg/internal/show/draw"
	"dropleg/internal/show/scene"
)

// thumbSize is the longer side of a small picture in mm of paper.
const thumbSize = 60

// Thumb is the small picture of a job for the list, as SVG; nil where it cannot be
// drawn. A desk is given it to keep with the job.
func Thumb(s *study.Study) []byte {
	drawn := draw.Thumb(draw.Given{Index: s.Index(), Shelf: s.Catalog()})
	long := max(drawn.Max[0]-drawn.Min[0], drawn.Max[1]-drawn.Min[1])
	if !(long > 0) {
		return nil
	}
	var b bytes.Buffer
	if scene.WriteSVG(&b, drawn, scene.Daylight(), thumbSize/long, 2) != nil {
		return nil // memory takes it all: cannot happen
	}
	return b.Bytes()
}

// blank is shown for a job of which there is no picture yet.
const blank = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"/>`

// getThumb gives the small picture of a job for the list.
func (s *Server) getThumb(w http.ResponseWriter, r *http.Request) {
	data, err := s.desk.Thumb(r.Context(), r.PathValue("job"))
	if err != nil {
		failWith(w, r, err)
		return
	}
	if len(data) == 0 { // not kept yet
		work, err := s.work(r)
		if err != nil {
			failWith(w, r, err)
			return
		}
		if now, err := work.Now(""); err == nil {
			data = Thumb(now.Study)
		}
	}
	if len(data) == 0 {
		data = []byte(blank)
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Header().Set("Cache-Control", "private, no-cache")
	_, _ = w.Write(data) // the reader has gone: nobody to tell
}
