package server

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"dropleg/internal/shop/example"
)

// TestPageInBrowser walks through the page in a real browser (web/test/walk.mjs):
// the joinery, a file that cannot be read, and every example. It needs Node with
// the page's test libraries, and Chromium.
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
	first, _ := example.Read(example.All()[0].Name)
	misspelt := bytes.Replace(first, []byte(`"units"`), []byte(`"unitz"`), 1)
	sources := []Source{File(sample), Fixed("misspelt.json", misspelt)}
	for _, e := range example.All() {
		data, _ := example.Read(e.Name)
		sources = append(sources, Fixed(e.Name, data))
	}
	args := []string{filepath.Join("test", "walk.mjs")}
	ended := make(chan error, len(sources))
	for _, source := range sources {
		s, err := New(Options{Source: source})
		if err != nil {
			t.Fatal(err)
		}
		go func() { ended <- s.Run(ctx) }()
		args = append(args, s.URL())
	}
	walk := exec.CommandContext(ctx, node, args...)
	walk.Dir = web
	walk.Env = append(os.Environ(), "CHROMIUM="+chromium)
	if out, err := walk.CombinedOutput(); err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	stop()
	for range sources {
		if err := <-ended; err != nil {
			t.Error(err)
		}
	}
}
