package store

import (
	"bytes"
	"errors"
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func testPictures(t *testing.T, s func() *Store) {
	newJob(t, s(), "a")
	must(t, s().PutPicture(t.Context(), "a", "plan.png", "image/png", []byte("first")))
	must(t, s().PutPicture(t.Context(), "a", "plan.png", "image/jpeg", []byte("second")))
	must(t, s().PutPicture(t.Context(), "a", "außen, Süd.png", "image/png", nil))
	kind, data, err := s().Picture(t.Context(), "a", "plan.png")
	if err != nil || kind != "image/jpeg" || string(data) != "second" {
		t.Errorf("%s %s %v", kind, data, err)
	}
	names, err := s().Pictures(t.Context(), "a")
	must(t, err)
	if diff := cmp.Diff([]string{"außen, Süd.png", "plan.png"}, names); diff != "" {
		t.Error(diff)
	}
	big := make([]byte, PictureMost+1)
	big[PictureMost-1] = 7
	if err := s().PutPicture(t.Context(), "a", "big", "image/png", big); !errors.Is(err, ErrTooBig) {
		t.Errorf("a byte more than allowed: %v", err)
	}
	must(t, s().PutPicture(t.Context(), "a", "big", "image/png", big[:PictureMost]))
	if _, data, err = s().Picture(t.Context(), "a", "big"); err != nil || !bytes.Equal(data, big[:PictureMost]) {
		t.Errorf("the largest picture: %d bytes, %v", len(data), err)
	}
	for _, kind := range []string{"", "image/png\r\nX: y", strings.Repeat("k", 121), "bild/größe"} {
		if err := s().PutPicture(t.Context(), "a", "p", kind, nil); !errors.Is(err, ErrName) {
			t.Errorf("kind %q: %v", kind, err)
		}
	}
}

func testNotThere(t *testing.T, s func() *Store) {
	newJob(t, s(), "a")
	ctx := t.Context()
	calls := map[string]error{
		"Append":     s().Append(ctx, "none", stepOf(1)),
		"Keep":       s().Keep(ctx, "none", 0, "", document(0), nil),
		"Remove":     s().Remove(ctx, "none"),
		"Restore":    s().Restore(ctx, "none"),
		"SetOrigin":  s().SetOrigin(ctx, "none", "", ""),
		"PutPicture": s().PutPicture(ctx, "none", "p", "image/png", nil),
	}
	_, calls["Load"] = s().Load(ctx, "none")
	_, calls["LoadAt"] = s().LoadAt(ctx, "none", 0)
	_, calls["History"] = s().History(ctx, "none", 0, 0)
	_, calls["Steps"] = s().Steps(ctx, "none", 0)
	_, calls["Thumb"] = s().Thumb(ctx, "none")
	_, calls["Pictures"] = s().Pictures(ctx, "none")
	_, _, calls["Picture"] = s().Picture(ctx, "a", "none")
	for name, err := range calls {
		if !errors.Is(err, ErrNotThere) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func testNames(t *testing.T, s func() *Store) {
	newJob(t, s(), "a")
	for _, name := range []string{
		"", ".", "..", "a/b", `a\b`, "/etc/passwd", "a\x00b", "a\nb", "\xff", strings.Repeat("n", 121), strings.Repeat("ü", 61),
	} {
		if err := s().PutPicture(t.Context(), "a", name, "image/png", nil); !errors.Is(err, ErrName) {
			t.Errorf("picture %q: %v", name, err)
		}
		if err := s().Create(t.Context(), Entry{ID: name}, document(0)); !errors.Is(err, ErrName) {
			t.Errorf("job %q: %v", name, err)
		}
	}
	for _, name := range []string{"...", strings.Repeat("n", 120), "a b?c#d%20"} {
		must(t, s().PutPicture(t.Context(), "a", name, "image/png", nil))
		must(t, s().Create(t.Context(), Entry{ID: name}, document(0)))
	}
}

func TestFileIsOnesOwn(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows has no such modes")
	}
	path := newPath(t)
	s := open(t, path, soon(t))
	newJob(t, s, "a")
	for _, name := range []string{path, path + "-wal", path + "-shm"} {
		info, err := os.Stat(name)
		must(t, err)
		if info.Mode().Perm() != 0o600 {
			t.Errorf("%s has mode %v, want 0600", name, info.Mode())
		}
	}
	to := path + ".backup"
	must(t, s.Backup(t.Context(), to))
	info, err := os.Stat(to)
	must(t, err)
	if info.Mode().Perm() != 0o600 {
		t.Errorf("the backup has mode %v, want 0600", info.Mode())
	}
}
