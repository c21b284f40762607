package cli

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"dropleg/internal/edge/desk"
	"dropleg/internal/edge/server"
	"dropleg/internal/edge/store"
	"dropleg/internal/shop/job"
)

// laid is a job that was put on the desk.
type laid struct {
	id     string
	follow []server.Follow // the file that it follows, if it came from one
	fresh  bool            // it was not there before
	moved  bool            // it was, and has changed as its file has
}

// since is what became of a job that was there.
func (l laid) since() string {
	if l.moved {
		return "; it has changed since, and the job with it, as one step"
	}
	return ", as it is"
}

// layFile puts the job of a file on the desk: as it is stored, where the file is as
// it was when it was stored; changed as the file has changed; or as a new job.
// Nothing is stored of a file that cannot be used.
func (c *call) layFile(ctx context.Context, d *desk.Desk, file string) (laid, error) {
	data, err := readUpTo(file, server.ArchiveLimit)
	if err != nil {
		return laid{}, err
	}
	path, err := filepath.Abs(file)
	if err != nil {
		return laid{}, fmt.Errorf("finding %s: %w", file, err)
	}
	out, err := c.layText(ctx, d, file, path, data)
	if err == nil && !server.IsArchive(data) {
		out.follow = []server.Follow{{Job: out.id, Source: server.File(path), Sum: server.SumOf(data)}}
	}
	return out, err
}

// layText puts a job on the desk by its text; name is what messages call it, origin
// what it is known by again.
func (c *call) layText(ctx context.Context, d *desk.Desk, name, origin string, data []byte) (laid, error) {
	sum := server.SumOf(data)
	list, err := d.Jobs(ctx)
	if err != nil {
		return laid{}, inWords(err)
	}
	var had *store.Entry
	if i := slices.IndexFunc(list, func(e store.Entry) bool { return e.Origin == origin && !e.Removed }); i >= 0 {
		had = &list[i]
	}
	switch {
	case had != nil && had.OriginSum == sum:
		return laid{id: had.ID}, nil
	case had != nil && !server.IsArchive(data):
		return laid{id: had.ID, moved: true}, c.replace(ctx, d, had.ID, name, origin, data)
	}
	if what := foreign(data); what != "" && !server.IsArchive(data) {
		return laid{}, unusable(name, what, "a job: a text in JSON, or an archive that dropleg export wrote")
	}
	id, err := server.Import(ctx, d, data, origin, sum)
	return laid{id: id, fresh: true}, asInput(name, data, err)
}

// replace makes a stored job what its file has become.
func (c *call) replace(ctx context.Context, d *desk.Desk, id, name, origin string, data []byte) error {
	j, faults := server.ReadJob(data)
	if j == nil {
		return &badInput{name, problemsOf(faults, data)}
	}
	return inWords(server.Reread(ctx, d, id, j, filepath.Base(name), origin, server.SumOf(data)))
}

// asInput turns a refusal of a file into its problems.
func asInput(name string, data []byte, err error) error {
	var refusal *job.Refusal
	if errors.As(err, &refusal) {
		return &badInput{name, problemsOf(refusal.Findings, data)}
	}
	return inWords(err)
}
