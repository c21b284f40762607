package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestCommittedBundle holds that web/dist is what the sources give and that the page
// keeps its import order. It needs the page's packages.
func TestCommittedBundle(t *testing.T) {
	web, err := findWeb()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(web, "node_modules")); os.IsNotExist(err) {
		t.Skip("web/node_modules is not installed (npm ci in web)")
	}
	want, err := build(web)
	if err != nil {
		t.Fatal(err)
	}
	faults := append(layerFaults(web, want.imports), compare(filepath.Join(web, "dist"), want)...)
	if err := errors.Join(faults...); err != nil {
		t.Error(err)
	}
}

func TestLayers(t *testing.T) {
	for _, row := range []struct {
		from, to string
		fault    bool
	}{
		{"main.tsx", "questions/air/page.tsx", false},
		{"questions/air/page.tsx", "commands/table.ts", false},
		{"paint/svg.ts", "words/en.ts", false},
		{"state/a.ts", "state/b.ts", false},
		{"api/call.ts", "state/job.ts", true},
		{"paint/svg.ts", "tools/pipe.ts", true},
		{"phone/main.tsx", "questions/air/page.tsx", true},
		{"commands/table.ts", "main.tsx", true},
		{"drawer/x.ts", "api/call.ts", true},
	} {
		if got := (importLine{row.from, row.to}).fault(); (got != "") != row.fault {
			t.Errorf("%s imports %s: fault %q, want one: %v", row.from, row.to, got, row.fault)
		}
	}
}

// TestLayersOfWrittenImports covers what the bundler does not report: types, and
// files that no entry reaches.
func TestLayersOfWrittenImports(t *testing.T) {
	web := t.TempDir()
	put(t, web, "src/api/a.ts", "import type {\n  Job,\n} from \"../state/job.ts\";\n")
	put(t, web, "src/state/job.ts", "import \"../words/en\";\nexport { x } from '../paint/x';\nconst s = \"import '../main'\";\n")
	faults := errors.Join(layerFaults(web, nil)...)
	if faults == nil {
		t.Fatal("no fault was found")
	}
	for _, want := range []string{"src/api/a.ts may not import web/src/state/job.ts", "src/state/job.ts may not import web/src/paint/x"} {
		if !strings.Contains(faults.Error(), want) {
			t.Errorf("%q is missing in:\n%v", want, faults)
		}
	}
	if n := len(layerFaults(web, nil)); n != 2 {
		t.Errorf("%d faults, want 2:\n%v", n, faults)
	}
}

func TestCompareAndWrite(t *testing.T) {
	root := t.TempDir()
	put(t, root, "dist/stale.js", "old")
	put(t, root, "dist/left.js", "over")
	want := output{files: map[string][]byte{"stale.js": []byte("new"), "a/missing.css": []byte("x")}}
	dist := filepath.Join(root, "dist")
	text := errors.Join(compare(dist, want)...).Error()
	for _, part := range []string{"dist/a/missing.css is missing", "dist/stale.js is not what", "dist/left.js comes from no source"} {
		if !strings.Contains(text, part) {
			t.Errorf("%q is missing in:\n%s", part, text)
		}
	}
	var out strings.Builder
	if err := write(dist, want, &out); err != nil {
		t.Fatal(err)
	}
	if faults := compare(dist, want); len(faults) > 0 {
		t.Errorf("after writing: %v", faults)
	}
}

func TestPackageOf(t *testing.T) {
	for path, want := range map[string]string{
		"src/main.tsx":                        "",
		"node_modules/preact/dist/preact.mjs": "preact",
		"node_modules/@preact/signals/x.mjs":  "@preact/signals",
		"node_modules/a/node_modules/b/i.js":  "b",
	} {
		if got := packageOf(path); got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
}

func put(t *testing.T, root, name, text string) {
	t.Helper()
	path := filepath.Join(root, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}
