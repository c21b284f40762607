package server

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"sync"
	"time"

	"dropleg/internal/edge/desk"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// SumOf is the checksum by which a file's bytes are known again.
func SumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// follower keeps one job in step with its file. What cannot be read changes
// nothing: the job stays, and is old until the file can be read again.
type follower struct {
	Follow
	desk *desk.Desk

	mu       sync.Mutex
	problems []Problem // why the file cannot be read; none: it can
	news     chan struct{}

	// What follows is the loop's own.
	mark  string // stamp of the file when it was read last
	doubt string // stamp at which it could not be read, seen once
}

func newFollower(f Follow, d *desk.Desk) *follower {
	return &follower{Follow: f, desk: d, news: make(chan struct{})}
}

// state gives what keeps the file from being read. It can be asked of no follower.
func (f *follower) state() []Problem {
	if f == nil {
		return nil
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.problems
}

// changed is closed when the problems of the file change; nil (never) for no follower.
func (f *follower) changed() <-chan struct{} {
	if f == nil {
		return nil
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.news
}

func (f *follower) tell(problems []Problem) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if len(problems) == 0 && len(f.problems) == 0 {
		return
	}
	f.problems = problems
	close(f.news)
	f.news = make(chan struct{})
}

// run asks for the file's stamp until ctx ends.
func (f *follower) run(ctx context.Context, poll time.Duration) {
	if poll <= 0 {
		poll = 300 * time.Millisecond
	}
	tick := time.NewTicker(poll)
	defer tick.Stop()
	for {
		f.look(ctx)
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
	}
}

// look reads the file if its stamp has changed.
func (f *follower) look(ctx context.Context) {
	mark, err := f.Source.Stamp()
	if err != nil {
		mark = "unreadable: " + err.Error()
	}
	if mark == f.mark {
		return
	}
	j, sum, problems := f.read(err)
	// Half a file, read while someone writes it, is not worth a word: what cannot
	// be read must stand like that for one more look.
	if j == nil && mark != f.doubt {
		f.doubt = mark
		return
	}
	if j != nil && sum != f.Sum {
		if problems = f.replace(ctx, j, sum); problems != nil {
			f.tell(problems)
			return // the job cannot be changed now: the next look tries again
		}
	}
	f.mark, f.doubt = mark, ""
	f.tell(problems)
}

// replace makes what the file holds the job.
func (f *follower) replace(ctx context.Context, j *job.Job, sum string) []Problem {
	if err := Reread(ctx, f.desk, f.Job, j, f.Source.Name(), f.origin(), sum); err != nil {
		return []Problem{{Want: err.Error(), Where: []string{}}}
	}
	f.Sum = sum
	return nil
}

// Reread makes a job what its file has become, as one step; none where the file says
// what the job is already, as when another process was quicker. Origin and sum are
// for the next start to know the file again.
func Reread(ctx context.Context, d *desk.Desk, id string, j *job.Job, name, origin, sum string) error {
	w, err := d.Work(ctx, id)
	if err != nil {
		return err
	}
	now, err := w.Now("")
	if err != nil {
		return err
	}
	had, err := now.Study.Job().Encode()
	if err != nil {
		return err
	}
	if next, err := j.Encode(); err != nil {
		return err
	} else if !bytes.Equal(had, next) {
		if _, err := w.Replace(ctx, j, "read again from "+name, ""); err != nil {
			return err
		}
	}
	return d.SetOrigin(ctx, id, origin, sum)
}

func (f *follower) origin() string {
	if file, ok := f.Source.(fileSource); ok {
		return string(file)
	}
	return f.Source.Name()
}

// read gives the job in the file, or everything that keeps it from being read.
func (f *follower) read(stampErr error) (*job.Job, string, []Problem) {
	if stampErr != nil {
		return nil, "", []Problem{{Want: stampErr.Error(), Where: []string{}}}
	}
	data, err := f.Source.Bytes()
	if err != nil {
		return nil, "", []Problem{{Want: err.Error(), Where: []string{}}}
	}
	j, faults := ReadJob(data)
	if j == nil {
		return nil, "", problems(faults)
	}
	return j, SumOf(data), nil
}

// ReadJob reads a job that can be computed; else the findings tell all that is wrong.
func ReadJob(data []byte) (*job.Job, []job.Finding) {
	j, faults := job.Parse(data)
	if j == nil {
		return nil, faults
	}
	if faults = job.Validate(j, catalog.Builtin()); !job.Usable(faults) {
		return nil, faults
	}
	return j, nil
}

// problems are findings on a document or a step, as the page shows them.
func problems(faults []job.Finding) []Problem {
	out := make([]Problem, 0, len(faults))
	for _, f := range faults {
		p := Problem{Path: f.Path, Read: f.Read, Want: f.Want, Nearest: f.Nearest, Where: []string{}}
		if p.Want == "" {
			p.Want = f.Title
		}
		for _, id := range f.Where {
			p.Where = append(p.Where, string(id))
		}
		out = append(out, p)
	}
	return out
}
