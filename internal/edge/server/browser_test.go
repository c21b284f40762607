package server

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestPageInBrowser walks through the page in a real browser (web/test/walk.mjs).
// It needs Node with the page's test libraries, and Chromium.
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
	s, err := New(Options{Source: File(sample)})
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Run(ctx) }()
	walk := exec.CommandContext(ctx, node, filepath.Join("test", "walk.mjs"), s.URL())
	walk.Dir = web
	walk.Env = append(os.Environ(), "CHROMIUM="+chromium)
	if out, err := walk.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
