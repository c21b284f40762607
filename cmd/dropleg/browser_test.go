package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"dropleg/internal/shop/model/shoptest"
)

// TestPageInBrowser walks through the page in a real browser, with the built program
// behind it (web/test/run.mjs). It needs Node with the page's test libraries, and
// Chromium. DROPLEG_WALKS names subjects to walk alone.
func TestPageInBrowser(t *testing.T) {
	if testing.Short() {
		t.Skip("a browser is not started in short tests")
	}
	var subjects []string
	if named := os.Getenv("DROPLEG_WALKS"); named != "" {
		subjects = filepath.SplitList(named)
	}
	walk(t, nil, subjects...)
}

// TestPageMeasured prints how fast an edit is answered on the page and how smooth a
// drag is, for the boat shop and for a shop of 1,000 elements. It asserts nothing.
func TestPageMeasured(t *testing.T) {
	if os.Getenv("DROPLEG_MEASURE") == "" {
		t.Skip("DROPLEG_MEASURE is not set")
	}
	hall, err := shoptest.Drawn(107).Encode()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "hall.json")
	if err := os.WriteFile(file, hall, 0o600); err != nil {
		t.Fatal(err)
	}
	walk(t, []string{"DROPLEG_HALL=" + file}, "measure")
}

// walk runs the walks of some subjects, or of all.
func walk(t *testing.T, env []string, subjects ...string) {
	t.Helper()
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("there is no Node here")
	}
	chromium := os.Getenv("CHROMIUM")
	if chromium == "" {
		chromium = "/usr/bin/chromium"
	}
	web := filepath.Join("..", "..", "web")
	for _, needed := range []string{chromium, filepath.Join(web, "node_modules", "playwright-core"), filepath.Join(web, "node_modules", "axe-core")} {
		if _, err := os.Stat(needed); err != nil {
			t.Skip("there is no " + needed)
		}
	}
	cmd := exec.CommandContext(t.Context(), node, append([]string{filepath.Join("test", "run.mjs"), binary(t)}, subjects...)...)
	cmd.Dir = web
	cmd.Env = append(append(os.Environ(), "CHROMIUM="+chromium), env...)
	out, err := cmd.CombinedOutput()
	t.Logf("%s", out)
	if err != nil {
		t.Error(err)
	}
}
