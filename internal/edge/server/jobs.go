package server

import (
	"net/http"
	"net/url"
	"time"

	"dropleg/internal/edge/store"
	"dropleg/internal/shop/example"
)

// getJobs lists the jobs; where the store cannot be read, those that lie open.
func (s *Server) getJobs(w http.ResponseWriter, r *http.Request) {
	list, err := s.desk.Jobs(r.Context())
	answer := Jobs{Jobs: []JobRow{}, Bin: []JobRow{}, Examples: []ExampleRow{}, Trouble: s.trouble}
	if err != nil && answer.Trouble == "" {
		answer.Trouble = err.Error()
	}
	for _, e := range list {
		if e.Removed {
			answer.Bin = append(answer.Bin, jobRow(e))
		} else {
			answer.Jobs = append(answer.Jobs, jobRow(e))
		}
	}
	for _, e := range example.All() {
		answer.Examples = append(answer.Examples, ExampleRow{
			Name: e.Name, Words: e.Title, Thumb: "/api/examples/" + url.PathEscape(e.Name) + "/thumb.svg",
		})
	}
	send(w, r, answer)
}

func jobRow(e store.Entry) JobRow {
	return JobRow{
		ID: e.ID, Title: e.Title, Created: moment(e.Created), Changed: moment(e.Changed), Revision: e.Revision,
		Origin: originName(e), Thumb: "/api/jobs/" + url.PathEscape(e.ID) + "/thumb.svg",
	}
}

// moment is a time as the page reads it (RFC 3339).
func moment(t time.Time) string { return t.UTC().Format(time.RFC3339) }

// deleteJob puts a job into the bin, from which restore takes it.
func (s *Server) deleteJob(w http.ResponseWriter, r *http.Request) {
	if err := s.desk.Remove(r.Context(), r.PathValue("job")); err != nil {
		failWith(w, r, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

func (s *Server) restoreJob(w http.ResponseWriter, r *http.Request) {
	if err := s.desk.Restore(r.Context(), r.PathValue("job")); err != nil {
		failWith(w, r, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}
