package cli

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"go.uber.org/goleak"

	"dropleg/internal/shop/example"
)

// opened is a command that serves: what it answers to some paths, and its end.
func opened(t *testing.T, args []string, paths ...string) (answers []string, told string) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	out, in := io.Pipe()
	var errs bytes.Buffer
	ended := make(chan int)
	go func() {
		ended <- Run(ctx, args, Streams{
			In: strings.NewReader(""), Out: in, Err: &errs, Env: func(string) string { return "" },
		})
		in.Close()
	}()
	url, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatalf("%v: %s", err, errs.String())
	}
	client := &http.Client{Transport: &http.Transport{DisableKeepAlives: true}}
	for _, path := range paths {
		answer, err := client.Get(strings.TrimSpace(url) + path)
		if err != nil {
			t.Fatal(err)
		}
		body, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		if err != nil || answer.StatusCode != http.StatusOK || len(body) == 0 {
			t.Errorf("%s: %s, %d bytes, %v", path, answer.Status, len(body), err)
		}
		answers = append(answers, string(body))
	}
	stop()
	if status := <-ended; status != statusWell {
		t.Errorf("status %d, want %d: %s", status, statusWell, errs.String())
	}
	return answers, errs.String()
}

// ownHome gives the test a home of its own, where programs keep what they remember.
func ownHome(t *testing.T) {
	t.Helper()
	home := t.TempDir()
	for _, name := range []string{"HOME", "AppData"} {
		t.Setenv(name, home)
	}
	t.Setenv("XDG_CONFIG_HOME", "")
}

// TestOpen starts the server on an example, reads the page and stops it as Ctrl-C does.
func TestOpen(t *testing.T) {
	defer goleak.VerifyNone(t)
	ownHome(t)
	opened(t, []string{"open", "--example", "boat-shop", "--no-browser"}, "", "api/job")
	if got := remembered(); got != "" {
		t.Errorf("an example was kept as the last job: %q", got)
	}
}

// TestOpenLast: without a job the one of last time, and an example where there is none.
func TestOpenLast(t *testing.T) {
	ownHome(t)
	again := func() (job, told string) {
		answers, told := opened(t, []string{"--no-browser"}, "api/job")
		return answers[0], told
	}
	if job, told := again(); !strings.Contains(job, example.All()[0].Title) || strings.Contains(told, "last") {
		t.Errorf("the first time: %.200s, %q", job, told)
	}
	file := filepath.Join(t.TempDir(), "mine.json")
	if err := os.WriteFile(file, []byte(`{"dropleg": 1, "title": "My own shed", "net": {"points": [], "runs": []}}`), 0o600); err != nil {
		t.Fatal(err)
	}
	opened(t, []string{"open", file, "--no-browser"}, "api/job")
	if job, _ := again(); !strings.Contains(job, "My own shed") {
		t.Errorf("the second time: %.200s, want the job that was opened", job)
	}
	if err := os.Remove(file); err != nil {
		t.Fatal(err)
	}
	if job, told := again(); !strings.Contains(job, example.All()[0].Title) || !strings.Contains(told, "opened last, cannot be read any more") {
		t.Errorf("after it is gone: %.200s, %q", job, told)
	}
}

// TestRememberNowhere: where nothing can be kept, opening works all the same.
func TestRememberNowhere(t *testing.T) {
	ownHome(t)
	file := filepath.Join(t.TempDir(), "a-file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, home := range []string{"", file} {
		t.Setenv("HOME", home)
		t.Setenv("AppData", home)
		remember("mine.json")
		if got := remembered(); got != "" {
			t.Errorf("home %q: remembered %q", home, got)
		}
	}
}

// TestOpenRefuses: what cannot be shown is told before a server starts.
func TestOpenRefuses(t *testing.T) {
	for _, row := range []struct {
		args []string
		want string
	}{
		{[]string{"open", "nowhere.json"}, "no such file"},
		{[]string{"open", "--example", "boatshop"}, `nearest "boat-shop"`},
		{[]string{"open", "a.json", "--example", "boat-shop"}, "wanted one of them"},
		{[]string{"open", "--example", "boat-shop", "--no-browser", "--listen", "0.0.0.0:0"}, "this computer"},
	} {
		var errs bytes.Buffer
		status := Run(context.Background(), row.args, Streams{In: strings.NewReader(""), Out: io.Discard, Err: &errs, Env: func(string) string { return "" }})
		if status == statusWell || !strings.Contains(errs.String(), row.want) {
			t.Errorf("%v: status %d, %q; want %q", row.args, status, errs.String(), row.want)
		}
	}
}
