package server

import (
	"context"
	"fmt"
	"mime"
	"net/http"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/decide/find"
	"dropleg/internal/decide/start"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// postJobs makes a job: of what the body asks for, or of the file that it is.
func (s *Server) postJobs(w http.ResponseWriter, r *http.Request) {
	if kind, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")); kind == zipType {
		s.importZip(w, r)
		return
	}
	data, _, ok := readBody(w, r, mostFile, jsonType)
	if !ok {
		return
	}
	if isJobFile(data) {
		s.importFile(w, r, data)
		return
	}
	var body Create
	if !decode(w, data, &body) {
		return
	}
	if body.From == "start" || body.From == "existing" {
		s.makeShop(w, r, body)
		return
	}
	id, err := s.create(r.Context(), body)
	if err != nil {
		failWith(w, r, err)
		return
	}
	created(w, r, id, nil)
}

// untitled is what a job is called that nobody named.
const untitled = "New shop"

func created(w http.ResponseWriter, r *http.Request, id string, notes []string) {
	w.Header().Set("Location", "/api/jobs/"+id)
	send(w, r, Created{ID: id, Notes: append([]string{}, notes...), Assumed: []start.Assumption{}, Facts: []string{}})
}

// create makes the job that is asked for. Its error is a *job.Refusal where that
// cannot be understood.
func (s *Server) create(ctx context.Context, body Create) (id string, err error) {
	var j *job.Job
	origin := ""
	switch body.From {
	case "empty":
		j, err = emptyJob(body)
	case "example":
		origin = "example " + body.Example
		j, err = exampleJob(body.Example)
	case "copy":
		return s.desk.Copy(ctx, body.Copy, body.Title)
	case "chain":
		j, err = chainJob(body)
	}
	if err != nil {
		return "", err
	}
	return s.keep(ctx, j, body.Title, origin)
}

// keep puts a new job into the store, under a title where one is given.
func (s *Server) keep(ctx context.Context, j *job.Job, title, origin string) (id string, err error) {
	if j.Title == "" && title == "" {
		title = untitled
	}
	if title != "" && j.Title != title {
		titled := *j
		titled.Title = title
		j = &titled
	}
	return s.desk.Create(ctx, j, origin, "")
}

// chainJob is an installation by its main parts, to look for a fault in.
func chainJob(body Create) (*job.Job, error) {
	j, problems := find.ReadChain(strings.NewReader(body.Chain), catalog.Builtin())
	if len(problems) > 0 {
		var found []job.Finding
		for _, p := range problems {
			found = append(found, job.Finding{
				Code: "cannot-read", Severity: job.Fault, Title: p.Path + ": want " + p.Want,
				Path: p.Path, Line: p.Line, Read: p.Read, Want: p.Want, Nearest: p.Nearest,
			})
		}
		return nil, &job.Refusal{Findings: found}
	}
	if body.Units != "" {
		j.Site.Units = body.Units
	}
	if found := job.Validate(j, catalog.Builtin()); !job.Usable(found) {
		return nil, &job.Refusal{Findings: found}
	}
	return j, nil
}

// emptyJob is a shop of nothing yet, or of a room alone.
func emptyJob(body Create) (*job.Job, error) {
	if body.Room != nil {
		plan, err := start.Empty(body.Title, body.Units, *body.Room, catalog.Builtin())
		if err != nil {
			return nil, err
		}
		return plan.Job, nil
	}
	j := &job.Job{Version: job.Version, Title: strings.TrimSpace(body.Title)}
	j.Site.Units = body.Units
	return j, nil
}

func exampleJob(name string) (*job.Job, error) {
	data, ok := example.Read(name)
	if !ok {
		var names []string
		for _, e := range example.All() {
			names = append(names, e.Name)
		}
		return nil, refusal("example", fmt.Sprintf("%q", clip(name)), "one of "+strings.Join(names, ", "), unit.Nearest(name, names))
	}
	j, faults := ReadJob(data)
	if j == nil {
		return nil, &job.Refusal{Findings: faults} // built in: cannot happen
	}
	return j, nil
}

// refusal tells one key of a body that cannot be used.
func refusal(path, read, want, nearest string) error {
	return &job.Refusal{Findings: []job.Finding{{
		Code: "cannot-read", Severity: job.Fault, Title: path + ": read " + read + ", want " + want,
		Path: path, Read: read, Want: want, Nearest: nearest,
	}}}
}
