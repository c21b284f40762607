package server

import (
	"bytes"
	"context"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"dropleg/internal/shop/example"
)

// TestPageInBrowser walks through the page in a real browser (web/test/walk.mjs):
// the joinery, a job whose file cannot be read any more, and every example. It needs
// Node with the page's test libraries, and Chromium.
func TestPageInBrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("a browser is not started in short tests")
	}
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("there is no Node here")
	}
	chromium := os.Getenv("CHROMIUM")
	if chromium == "" {
		chromium = "/usr/bin/chromium"
	}
	web := filepath.Join("..", "..", "..", "web")
	for _, needed := range []string{chromium, filepath.Join(web, "node_modules", "playwright-core"), filepath.Join(web, "node_modules", "axe-core")} {
		if _, err := os.Stat(needed); err != nil {
			t.Skip("there is no " + needed)
		}
	}
	ctx, stop := context.WithCancel(t.Context())
	d := newDesk(t)
	first, _ := example.Read(example.All()[0].Name)
	misspelt := filepath.Join(t.TempDir(), "misspelt.json")
	if err := os.WriteFile(misspelt, bytes.Replace(first, []byte(`"units"`), []byte(`"unitz"`), 1), 0o600); err != nil {
		t.Fatal(err)
	}
	broken, err := Import(ctx, d, first, misspelt, SumOf(first))
	if err != nil {
		t.Fatal(err)
	}
	s := servedBy(t, Options{
		Desk: d, Poll: 5 * time.Millisecond, Follow: []Follow{{Job: broken, Source: File(misspelt), Sum: SumOf(first)}},
	})
	args := []string{filepath.Join("test", "walk.mjs"), s.JobURL(joinery), s.JobURL(broken)}
	for _, e := range example.All() {
		data, _ := example.Read(e.Name)
		id, err := Import(ctx, d, data, "", "")
		if err != nil {
			t.Fatal(err)
		}
		args = append(args, s.JobURL(id))
	}
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }()
	walk := exec.CommandContext(ctx, node, args...)
	walk.Dir = web
	walk.Env = append(os.Environ(), "CHROMIUM="+chromium)
	if out, err := walk.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
	http.DefaultClient.CloseIdleConnections()
}
