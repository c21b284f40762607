package store

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"reflect"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// kills is how often TestKill kills in all, each how often one database's writer is
// killed, and atOnce how many databases are worked on together.
const (
	kills   = 1000
	shortly = 25
	each    = 25
	atOnce  = 4
)

const killedJob = "killed"

// childAppend takes steps as fast as it can and says each that was acknowledged. Every
// so often it keeps a snapshot and a picture, so that kills meet those too.
func childAppend(path string) error {
	ctx := context.Background()
	s, err := Open(ctx, path)
	if err != nil {
		return err
	}
	jobs, err := s.Jobs(ctx)
	if err != nil {
		return err
	}
	if len(jobs) == 0 {
		jobs = []Entry{{ID: killedJob, Created: moment(0), Changed: moment(0)}}
		if err := s.Create(ctx, jobs[0], document(0)); err != nil {
			return err
		}
	}
	if jobs[0].Revision%2 == 0 {
		// The log is brought into the file far more often than in use, so that kills
		// meet that too.
		if _, err := s.writer.Exec("PRAGMA wal_autocheckpoint = 8"); err != nil {
			return err
		}
	}
	fmt.Println("step", jobs[0].Revision)
	for revision := jobs[0].Revision + 1; ; revision++ {
		if err := s.Append(ctx, killedJob, stepOf(revision)); err != nil {
			return err
		}
		fmt.Println("step", revision)
		if revision%11 != 0 {
			continue
		}
		if err := s.Keep(ctx, killedJob, revision, strconv.Itoa(revision), document(revision), pattern(revision, 3000)); err != nil {
			return err
		}
		fmt.Println("snapshot", revision)
		if err := s.PutPicture(ctx, killedJob, "p", "image/png", pattern(revision, 60_000)); err != nil {
			return err
		}
		fmt.Println("picture", revision)
	}
}

// told is what was acknowledged last; a step of -1 is a job that was not made yet.
type told struct{ step, snapshot, picture int }

func (a *told) read(line string) error {
	what, number, _ := strings.Cut(strings.TrimSpace(line), " ")
	into := map[string]*int{"step": &a.step, "snapshot": &a.snapshot, "picture": &a.picture}[what]
	revision, err := strconv.Atoi(number)
	if into == nil || err != nil || revision < *into {
		return fmt.Errorf("the child said %q after %+v", line, *a)
	}
	*into = revision
	return nil
}

// TestKill kills a process that writes, again and again on the same files, and finds
// every acknowledged step. A kill shows nothing about a power cut: TestDurable does
// what can be done about that.
func TestKill(t *testing.T) {
	most := kills
	if testing.Short() {
		most = shortly
	}
	var done, steps, midWrite atomic.Int64
	var all sync.WaitGroup
	turns := make(chan struct{}, atOnce)
	start := time.Now()
	for n := range most / each {
		path := newPath(t)
		random := rand.New(rand.NewPCG(1, uint64(n)))
		all.Go(func() {
			turns <- struct{}{}
			defer func() { <-turns }()
			last := told{step: -1}
			for range each {
				before := last.step
				err := killOne(path, random, &last)
				stands := last.step
				if err == nil {
					stands, err = checkKilled(t.Context(), path, last)
				}
				if err != nil {
					t.Errorf("%s after %+v: %v", path, last, err)
					return
				}
				done.Add(1)
				steps.Add(int64(max(stands, 0) - max(before, 0)))
				if stands > last.step {
					midWrite.Add(1)
				}
				last.step = stands
			}
		})
	}
	all.Wait()
	t.Logf("%d kills in %.1f s, %d steps; %d kills came between writing and saying so",
		done.Load(), time.Since(start).Seconds(), steps.Load(), midWrite.Load())
	if got := done.Load(); got != int64(most) {
		t.Errorf("%d kills, want %d", got, most)
	}
	if steps.Load() < int64(most) {
		t.Errorf("only %d steps were taken: the kills met nothing", steps.Load())
	}
}

// killOne starts a process that writes, kills it at some moment and adds up what it
// said was acknowledged.
func killOne(path string, random *rand.Rand, last *told) error {
	cmd := childCommand("append", path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	lines := bufio.NewReader(out)
	first := ""
	moment := time.Duration(random.IntN(40_000)) * time.Microsecond
	// One in eight is killed while it starts, opens and brings the log in. The others
	// are let do something first, however slow the machine is.
	if random.IntN(8) > 0 {
		for range 1 + random.IntN(5) {
			line, err := lines.ReadString('\n')
			if err != nil {
				return fmt.Errorf("the child ended by itself: %v, %v", err, cmd.Wait())
			}
			first += line
		}
		moment /= 5
	}
	time.Sleep(moment)
	if err := cmd.Process.Kill(); err != nil {
		return err
	}
	rest, err := io.ReadAll(lines)
	if err != nil {
		return err
	}
	// Killed is an error, and the only one: a child that failed leaves an exit code.
	if err := cmd.Wait(); err == nil || cmd.ProcessState.ExitCode() == 1 {
		return fmt.Errorf("the child ended by itself: %v", err)
	}
	for line := range strings.Lines(first + string(rest)) {
		// The last line may be cut off.
		if strings.HasSuffix(line, "\n") {
			if err := last.read(line); err != nil {
				return err
			}
		}
	}
	return nil
}

// checkKilled opens the file and holds that all is there, in order and whole, and at
// most the one step more that was being acknowledged. It gives the last revision.
func checkKilled(ctx context.Context, path string, last told) (int, error) {
	if _, err := os.Stat(path); err != nil && last.step < 0 {
		return last.step, nil // killed before there was a file
	}
	s, err := Open(ctx, path)
	if err != nil {
		return 0, err
	}
	defer s.Close()
	if err := checkWhole(ctx, s.writer); err != nil {
		return 0, fmt.Errorf("integrity_check: %w", err)
	}
	jobs, err := s.Jobs(ctx)
	if err != nil || len(jobs) == 0 && last.step < 0 {
		return last.step, err
	}
	saved, err := s.Load(ctx, killedJob)
	if err != nil {
		return 0, err
	}
	if saved.Revision < last.step || saved.Revision > max(last.step, 0)+1 {
		return 0, fmt.Errorf("stands at revision %d", saved.Revision)
	}
	if saved.At%11 != 0 || saved.At < last.snapshot || !bytes.Equal(saved.Doc, document(saved.At)) {
		return 0, fmt.Errorf("the snapshot of %d is not what was written", saved.At)
	}
	steps, err := s.Steps(ctx, killedJob, 0)
	if err != nil {
		return 0, err
	}
	if len(steps) != saved.Revision {
		return 0, fmt.Errorf("%d steps at revision %d", len(steps), saved.Revision)
	}
	for i, step := range steps {
		// DeepEqual, as this is most of the test's time.
		if want := stepOf(i + 1); !reflect.DeepEqual(want, step) {
			return 0, fmt.Errorf("step %d is not what was written: %s", i+1, cmp.Diff(want, step))
		}
	}
	return saved.Revision, checkExtras(ctx, s, saved, last)
}

// checkExtras holds that thumbnail and picture are each one that was written, whole,
// and not older than the last one acknowledged.
func checkExtras(ctx context.Context, s *Store, saved Saved, last told) error {
	thumb, err := s.Thumb(ctx, killedJob)
	if err != nil {
		return err
	}
	if saved.At > 0 && !bytes.Equal(thumb, pattern(saved.At, 3000)) {
		return fmt.Errorf("the thumbnail is not of %d", saved.At)
	}
	if last.picture == 0 {
		return nil
	}
	_, data, err := s.Picture(ctx, killedJob, "p")
	if err != nil {
		return err
	}
	for revision := last.picture; revision <= saved.At; revision += 11 {
		if bytes.Equal(data, pattern(revision, 60_000)) {
			return nil
		}
	}
	return fmt.Errorf("the picture is none of those from %d to %d", last.picture, saved.At)
}
