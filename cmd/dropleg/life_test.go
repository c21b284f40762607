package main

import (
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// do posts a step on what is known to be the newest revision.
func (p *program) do(t *testing.T, id string, base int, by string, step any) answer {
	t.Helper()
	return ask[answer](t, p, http.MethodPost, of(id, "/steps"), stepBody{Base: base, By: by, Step: step})
}

// again ends the program and starts it anew on the same store.
func (p *program) again(t *testing.T) {
	t.Helper()
	p.kill()
	p.start(t)
}

// TestLife: a job is made, edited, taken back, done again and gone through its history,
// with the program started anew between all of it, and moved out and in without loss.
func TestLife(t *testing.T) {
	p := newProgram(t)
	p.start(t)
	id := p.example(t)
	made := p.file(t, id)
	drag := map[string]any{"do": "drag", "ids": []string{"outlet.far-bench"}, "by_m": []float64{-0.4, 0, 0}}
	first := p.do(t, id, 0, "Ines", drag)
	moved := p.file(t, id)
	second := p.do(t, id, first.Revision, "Tove", named("outlet.saw", "saw bench"))
	both := p.file(t, id)
	if moved == made || both == moved {
		t.Fatal("the steps changed nothing")
	}

	by := map[string]string{"by": "Ines"}
	for _, c := range []struct {
		do, want, undo, redo string
	}{
		{"", both, second.Words, ""},
		{"/undo", moved, first.Words, second.Words},
		{"/undo", made, "", first.Words},
		{"/redo", moved, first.Words, second.Words},
		{"/redo", both, second.Words, ""},
	} {
		p.again(t)
		if c.do != "" {
			ask[answer](t, p, http.MethodPost, of(id, c.do), by)
		}
		if got := p.file(t, id); got != c.want {
			t.Errorf("%q after a restart: the job is not what it was", c.do)
		}
		now := ask[answer](t, p, http.MethodGet, of(id, "/live"), nil)
		if now.Undo != c.undo || now.Redo != c.redo {
			t.Errorf("after %q undo is %q, redo %q; want %q, %q", c.do, now.Undo, now.Redo, c.undo, c.redo)
		}
	}

	p.again(t)
	ask[answer](t, p, http.MethodPost, of(id, "/goto"), map[string]any{"revision": 1, "by": "Ines"})
	if p.file(t, id) != moved {
		t.Error("gone back to the first step the job is not what it was then")
	}
	ask[answer](t, p, http.MethodPost, of(id, "/undo"), by)
	if p.file(t, id) != both {
		t.Error("going back is a step that can be taken back")
	}

	out := filepath.Join(p.home, "out.json")
	p.command(t, "", "export", id, "-o", out)
	text, err := os.ReadFile(out)
	if err != nil || string(text) != both {
		t.Errorf("the exported file is not the job: %v", err)
	}
	in := strings.TrimSpace(p.command(t, "", "import", out))
	if p.file(t, in) != both {
		t.Error("imported again the job is another one")
	}
	copied := filepath.Join(p.home, "copy.db")
	p.command(t, "", "backup", copied)
	p.kill()
	if err := os.Rename(copied, filepath.Join(p.home, "jobs.db")); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"jobs.db-wal", "jobs.db-shm"} {
		_ = os.Remove(filepath.Join(p.home, name))
	}
	p.start(t)
	if p.file(t, id) != both || len(p.history(t, id)) != 8 {
		t.Errorf("the backup lacks something: %d steps", len(p.history(t, id)))
	}
}

// sees waits until the server shows a revision that another process made.
func (p *program) sees(t *testing.T, id string, revision int) {
	t.Helper()
	for late := time.Now().Add(30 * time.Second); time.Now().Before(late); time.Sleep(20 * time.Millisecond) {
		if ask[answer](t, p, http.MethodGet, of(id, ""), nil).Revision == revision {
			return
		}
	}
	t.Fatalf("the server never shows revision %d", revision)
}

// TestTwoProcesses: the server and `dropleg edit` work on one store at the same time.
func TestTwoProcesses(t *testing.T) {
	p := newProgram(t)
	p.start(t)
	id := p.example(t)
	line := func(outlet, name string) string {
		return fmt.Sprintf(`{"edit": "set", "id": %q, "key": "name", "value": %q}`+"\n", outlet, name)
	}

	// A page behind the command: another thing is merged, the same thing is told.
	p.command(t, line("outlet.saw", "saw of the command"), "edit", id, "-")
	p.sees(t, id, 1)
	if got := p.do(t, id, 0, "page", named("outlet.far-bench", "bench of the page")); !got.Merged {
		t.Errorf("the page's step was not merged: %+v", got)
	}
	status, raw, err := p.send(http.MethodPost, of(id, "/steps"), stepBody{0, "page", named("outlet.saw", "saw of the page")})
	if err != nil || status != http.StatusConflict || !strings.Contains(string(raw), "command line") {
		t.Errorf("want a conflict that names the command line, got %d, %v: %s", status, err, raw)
	}
	if got := p.nameOf(t, id, "outlet.saw"); got != "saw of the command" {
		t.Errorf("the saw is called %q", got)
	}

	// Both as fast as they can, on different things: every step is kept, in one order.
	const each = 20
	var both sync.WaitGroup
	var all strings.Builder
	for n := range each {
		all.WriteString(line("outlet.saw", fmt.Sprint("saw ", n)))
	}
	both.Go(func() {
		if _, err := p.run(all.String(), "edit", id, "-"); err != nil {
			t.Error(err)
		}
	})
	base := 2
	for n := range each {
		base = p.do(t, id, base, "page", named("outlet.far-bench", fmt.Sprint("bench ", n))).Revision
	}
	both.Wait()
	p.sees(t, id, 2+2*each)
	steps := p.history(t, id)
	if len(steps) != 2+2*each {
		t.Errorf("%d steps, want %d", len(steps), 2+2*each)
	}
	for i, s := range steps {
		if s.Revision != i+1 {
			t.Errorf("step %d of the history is revision %d", i+1, s.Revision)
		}
	}
	if saw, bench := p.nameOf(t, id, "outlet.saw"), p.nameOf(t, id, "outlet.far-bench"); saw != "saw 19" || bench != "bench 19" {
		t.Errorf("at the end they are called %q and %q", saw, bench)
	}
	if p.command(t, "", "export", id) != p.file(t, id) {
		t.Error("command and page do not see the same job")
	}
}
