package server

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// The file changes, breaks and is mended; the events tell of each, and the last
// good drawing stays, marked old.
func TestFollow(t *testing.T) {
	good, err := os.ReadFile(sample)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "job.json")
	write := func(data []byte) {
		t.Helper()
		// Whole at once, as half a file may be told of where the computer is busy.
		if err := os.WriteFile(path+".new", data, 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Rename(path+".new", path); err != nil {
			t.Fatal(err)
		}
	}
	write(good)
	s := servedBy(t, Options{
		Desk: newDesk(t), Poll: 5 * time.Millisecond,
		Follow: []Follow{{Job: joinery, Source: File(path), Sum: SumOf(good)}},
	})
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }()

	events := heard(t, s)
	want := func(what string, e Event) {
		t.Helper()
		e.Saved, e.Trouble = false, "" // a desk without a store is never saved
		got := <-events
		got.Saved, got.Trouble = false, ""
		if got != e {
			t.Fatalf("%s: %+v, want %+v", what, got, e)
		}
	}
	read := func(step int) Event {
		return Event{Stamp: Stamp{Revision: step}, Words: "read again from job.json"}
	}
	old := func(e Event) Event { e.Old = true; return e }
	want("first", Event{})
	write(bytes.Replace(good, []byte("Alder Lane joinery"), []byte("Elder Lane joinery"), 1))
	want("changed", read(1))
	if j := headOf(t, s); j.Head.Title != "Elder Lane joinery" || len(j.Problems) != 0 || j.File != "job.json" || !j.Follows {
		t.Errorf("%+v", j)
	}
	write(bytes.Replace(good, []byte(`"ball-valve"`), []byte(`"ball-walve"`), 1))
	want("broken", old(read(1)))
	j := headOf(t, s)
	if !j.Old || j.Head.Title != "Elder Lane joinery" {
		t.Errorf("the last good one does not stay: %+v", j)
	}
	if len(j.Problems) == 0 || !strings.Contains(j.Problems[0].Path, "points") || j.Problems[0].Nearest != "ball-valve" {
		t.Errorf("problems %+v", j.Problems)
	}
	if w := get(s, of("/scene")); w.Code != http.StatusOK || !strings.Contains(w.Body.String(), `"old":true`) {
		t.Errorf("the old scene: %d", w.Code)
	}
	write(append(good, ' '))
	want("mended", read(2))
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	want("removed", old(read(2)))
	// What the hand did is one step, what the file did another; both are undone.
	live := read200[Live](t, ask(s, "POST", of("/undo"), `{"by":"Ann"}`))
	if live.Revision != 3 || !strings.Contains(live.Words, "read again from job.json") {
		t.Errorf("%d %q", live.Revision, live.Words)
	}
	stop()
	if err := <-ended; err != nil {
		t.Errorf("ended with %v", err)
	}
	for range events { // the stream ends
	}
	http.DefaultClient.CloseIdleConnections()
}

func headOf(t *testing.T, s *Server) Job {
	t.Helper()
	return read200[Job](t, get(s, of("")))
}

// heard reads the event stream of a running server.
func heard(t *testing.T, s *Server) <-chan Event {
	t.Helper()
	r, err := http.Get(s.URL() + "api/jobs/" + joinery + "/events")
	if err != nil {
		t.Fatal(err)
	}
	if r.Header.Get("Content-Type") != "text/event-stream" {
		t.Fatalf("%v", r.Header)
	}
	events := make(chan Event)
	go func() {
		defer close(events)
		defer func() { _ = r.Body.Close() }()
		lines := bufio.NewScanner(r.Body)
		for lines.Scan() {
			if data, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				var e Event
				if json.Unmarshal([]byte(data), &e) == nil {
					events <- e
				}
			}
		}
	}()
	return events
}

// A file of any length is read to its limit and no further.
func TestFileIsReadToALimit(t *testing.T) {
	path := filepath.Join(t.TempDir(), "long.json")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Truncate(1 << 30); err != nil {
		t.Fatal(err)
	}
	_ = f.Close()
	d := newDesk(t)
	w := newFollower(Follow{Job: joinery, Source: File(path)}, d)
	for range 3 { // what cannot be read is told at the second look, after its time has settled
		w.look(t.Context())
	}
	if len(w.state()) == 0 {
		t.Error("no problem")
	}
}
