package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// program is the built program on a store of its own.
type program struct {
	binary, home string
	base         string // where it serves, without a slash at the end; "" while it does not
	running      *exec.Cmd
	told         lockedBuffer
}

// lockedBuffer takes what the program says while a test reads it.
type lockedBuffer struct {
	lock sync.Mutex
	text bytes.Buffer
}

func (b *lockedBuffer) Write(p []byte) (int, error) {
	b.lock.Lock()
	defer b.lock.Unlock()
	return b.text.Write(p)
}

func (b *lockedBuffer) String() string {
	b.lock.Lock()
	defer b.lock.Unlock()
	return b.text.String()
}

func newProgram(t *testing.T) *program {
	t.Helper()
	p := &program{binary: binary(t), home: t.TempDir()}
	t.Cleanup(p.kill)
	return p
}

func (p *program) env() []string {
	return []string{"HOME=" + p.home, "AppData=" + p.home, "DROPLEG_STORE=" + filepath.Join(p.home, "jobs.db")}
}

// start serves the store and waits for the address.
func (p *program) start(t *testing.T) {
	t.Helper()
	cmd := exec.Command(p.binary, "open", "--no-browser")
	cmd.Env, cmd.Stderr = p.env(), &p.told
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	p.running = cmd
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("the program tells no address: %v: %s", err, p.told.String())
	}
	base, _, _ := strings.Cut(strings.TrimSpace(line), "/job/")
	p.base = strings.TrimSuffix(base, "/")
}

// kill ends it at once, as a failing machine does to a process.
func (p *program) kill() {
	if p.running == nil {
		return
	}
	_ = p.running.Process.Kill()
	_ = p.running.Wait() // that it was killed is no news
	p.running, p.base = nil, ""
	http.DefaultClient.CloseIdleConnections()
}

// command runs the program with other words on the same store and gives what it
// wrote. A design that falls short, status 1, is no failure.
func (p *program) command(t *testing.T, input string, args ...string) string {
	t.Helper()
	out, err := p.run(input, args...)
	var exit *exec.ExitError
	if err != nil && !(errors.As(err, &exit) && exit.ExitCode() == 1) {
		t.Fatal(err)
	}
	return out
}

// run is command, with whatever status.
func (p *program) run(input string, args ...string) (string, error) {
	cmd := exec.Command(p.binary, args...)
	var out, errs bytes.Buffer
	cmd.Env, cmd.Stdin, cmd.Stdout, cmd.Stderr = p.env(), strings.NewReader(input), &out, &errs
	if err := cmd.Run(); err != nil {
		return out.String(), fmt.Errorf("dropleg %s: %w: %s", strings.Join(args, " "), err, errs.String())
	}
	return out.String(), nil
}

// answer is what the page is told of a step, and of a job.
type answer struct {
	ID       string   `json:"id"`
	Revision int      `json:"revision"`
	Words    string   `json:"words"`
	Undo     string   `json:"undo"`
	Redo     string   `json:"redo"`
	Made     []string `json:"made"`
	Merged   bool     `json:"merged"`
	Saved    bool     `json:"saved"`
	Detail   string   `json:"detail"`
}

// send asks as a page does. The error tells that no whole answer came.
func (p *program) send(method, path string, body any) (status int, raw []byte, err error) {
	var in io.Reader
	if body != nil {
		text, err := json.Marshal(body)
		if err != nil {
			return 0, nil, err
		}
		in = bytes.NewReader(text)
	}
	r, err := http.NewRequest(method, p.base+path, in)
	if err != nil {
		return 0, nil, err
	}
	r.Header.Set("Origin", p.base)
	if body != nil {
		r.Header.Set("Content-Type", "application/json")
	}
	w, err := http.DefaultClient.Do(r)
	if err != nil {
		return 0, nil, err
	}
	defer w.Body.Close()
	raw, err = io.ReadAll(w.Body)
	return w.StatusCode, raw, err
}

// ask sends and wants a good answer.
func ask[T any](t *testing.T, p *program, method, path string, body any) T {
	t.Helper()
	var v T
	status, raw, err := p.send(method, path, body)
	if err != nil || status != http.StatusOK {
		t.Fatalf("%s %s: %d, %v: %.400s", method, path, status, err, raw)
	}
	if err := json.Unmarshal(raw, &v); err != nil {
		t.Fatalf("%s %s: %v: %.400s", method, path, err, raw)
	}
	return v
}

// of is the path of a resource of a job.
func of(id, rest string) string { return "/api/jobs/" + id + rest }

// example makes a job of the built-in boat shop.
func (p *program) example(t *testing.T) (id string) {
	t.Helper()
	return ask[answer](t, p, http.MethodPost, "/api/jobs", map[string]string{"from": "example", "example": "boat-shop"}).ID
}

// stepBody is a step as a page posts it.
type stepBody struct {
	Base int    `json:"base"`
	By   string `json:"by"`
	Step any    `json:"step"`
}

// named is the edit that gives a thing a name: each leaves a mark in the document.
func named(id, name string) map[string]string {
	return map[string]string{"edit": "set", "id": id, "key": "name", "value": name}
}

// file is the job as its file has it, as text.
func (p *program) file(t *testing.T, id string) string {
	t.Helper()
	status, raw, err := p.send(http.MethodGet, of(id, "/file"), nil)
	if err != nil || status != http.StatusOK {
		t.Fatalf("%s: %d, %v: %.400s", id, status, err, raw)
	}
	return string(raw)
}

// document is as much of a job's file as the tests look at.
type document struct {
	Outlets []struct {
		ID   string `json:"id"`
		Name string `json:"name"`
	} `json:"outlets"`
}

// nameOf is what an outlet is called now.
func (p *program) nameOf(t *testing.T, id, outlet string) string {
	t.Helper()
	var d document
	if err := json.Unmarshal([]byte(p.file(t, id)), &d); err != nil {
		t.Fatal(err)
	}
	for _, o := range d.Outlets {
		if o.ID == outlet {
			return o.Name
		}
	}
	t.Fatalf("there is no %s", outlet)
	return ""
}

// history is the job's steps, oldest first.
func (p *program) history(t *testing.T, id string) []historyStep {
	t.Helper()
	var all []historyStep
	before := 1 << 30
	for {
		h := ask[struct {
			Steps []historyStep `json:"steps"`
			More  bool          `json:"more"`
		}](t, p, http.MethodGet, of(id, fmt.Sprintf("/history?before=%d&most=200", before)), nil)
		for _, s := range h.Steps {
			all = append([]historyStep{s}, all...)
			before = s.Revision
		}
		if !h.More || len(h.Steps) == 0 {
			return all
		}
	}
}

type historyStep struct {
	Revision int       `json:"revision"`
	When     time.Time `json:"when"`
	By       string    `json:"by"`
	Kind     string    `json:"kind"`
	Words    string    `json:"words"`
}
