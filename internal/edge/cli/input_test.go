package cli

import (
	"archive/zip"
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dropleg/engine/document"
	"dropleg/internal/shop/example"
)

// A file beyond the limit is refused by its size, without reading it.
func TestTooLarge(t *testing.T) {
	file := filepath.Join(t.TempDir(), "large.json")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(file, 100<<20); err != nil {
		t.Fatal(err)
	}
	var errs bytes.Buffer
	status := Run(context.Background(), []string{"check", file}, Streams{In: strings.NewReader(""), Out: &errs, Err: &errs, Env: os.Getenv})
	if status != statusInput || !strings.Contains(errs.String(), "read 100 MB, more than 64 MB; wanted at most 64 MB") {
		t.Errorf("status %d: %s", status, errs.String())
	}
	long := strings.NewReader(strings.Repeat(" ", document.Limit+2))
	if _, _, err := (&call{Streams: Streams{In: long}}).read("-"); err == nil {
		t.Error("standard input beyond the limit was taken")
	}
}

// What an export with pictures writes is a job for every command, and an archive of something
// else is none.
func TestAJobInAnArchive(t *testing.T) {
	raw, _ := example.Read("frame-garage")
	for name, want := range map[string]int{"job.json": statusShort, "letter.txt": statusInput} {
		var packed bytes.Buffer
		z := zip.NewWriter(&packed)
		w, err := z.Create(name)
		if err == nil {
			_, err = w.Write(raw)
		}
		if err = errors.Join(err, z.Close()); err != nil {
			t.Fatal(err)
		}
		var out, errs bytes.Buffer
		status := Run(context.Background(), []string{"check", "-"}, Streams{In: &packed, Out: &out, Err: &errs, Env: os.Getenv})
		if status != want || want == statusInput && !strings.Contains(errs.String(), `read an entry "letter.txt"`) {
			t.Errorf("%s: status %d: %s", name, status, errs.String())
		}
	}
}

// A file that cannot be put in its place leaves nothing behind and the old one whole.
func TestSaveWhole(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "job.json")
	if err := save(file, []byte("first"), false); err != nil {
		t.Fatal(err)
	}
	var wrong misuse
	if err := save(file, []byte("second"), false); !errors.As(err, &wrong) {
		t.Errorf("a file that is there: %v, want a misuse", err)
	}
	if err := save(file, []byte("third"), true); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(file)
	if err != nil || string(text) != "third" {
		t.Errorf("read %q, %v", text, err)
	}
	if err := os.Mkdir(filepath.Join(dir, "full"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := save(filepath.Join(dir, "full"), []byte("x"), true); err == nil {
		t.Error("a folder was written over")
	}
	names, err := os.ReadDir(dir)
	if err != nil || len(names) != 2 {
		t.Errorf("%v, %v: want the file and the folder alone", names, err)
	}
}

func TestWrap(t *testing.T) {
	for _, row := range []struct {
		text string
		room int
		want string
	}{
		{"one two three", 7, "one two|three"},
		{"a-word-that-is-longer than", 8, "a-word-that-is-longer|than"},
		{"", 8, ""},
		{"größe ½ in", 7, "größe ½|in"},
	} {
		if got := strings.Join(wrap(row.text, row.room), "|"); got != row.want {
			t.Errorf("%q in %d: %q, want %q", row.text, row.room, got, row.want)
		}
	}
}
