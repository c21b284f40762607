package store

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// troubleOf gives the trouble that an error is, which must be of this kind and in words
// that name the file and no code.
func troubleOf(t *testing.T, err error, kind string) *Trouble {
	t.Helper()
	var trouble *Trouble
	if !errors.As(err, &trouble) {
		t.Fatalf("no trouble: %v", err)
	}
	if trouble.Kind != kind {
		t.Errorf("kind %s, want %s: %v", trouble.Kind, kind, err)
	}
	said(t, trouble.Words, "jobs.db")
	if strings.Contains(trouble.Words, "SQL") || strings.Contains(trouble.Words, "errno") {
		t.Errorf("not people's words: %s", trouble.Words)
	}
	return trouble
}

// TestFull uses the limit that SQLite itself has for the size of a file; a disk that is
// full gives the same code (TestFullDisk has one, where the system lets it).
func TestFull(t *testing.T) {
	path := newPath(t)
	s := open(t, path, soon(t))
	newJob(t, s, "a")
	must(t, s.Append(t.Context(), "a", stepOf(1)))
	var pages int
	must(t, s.writer.QueryRow("PRAGMA page_count").Scan(&pages))
	limit := func(pages int) {
		_, err := s.writer.Exec(fmt.Sprintf("PRAGMA max_page_count = %d", pages))
		must(t, err)
	}
	limit(pages + 1)
	big := stepOf(2)
	big.Edit = pattern(0, 100_000)
	trouble := troubleOf(t, s.Append(t.Context(), "a", big), Full)
	said(t, trouble.Words, "no room", "Make room")
	troubleOf(t, s.PutPicture(t.Context(), "a", "p", "image/png", pattern(0, 100_000)), Full)
	troubleOf(t, s.Keep(t.Context(), "a", 1, "", pattern(0, 100_000), nil), Full)
	saved, err := s.Load(t.Context(), "a")
	if err != nil || saved.Revision != 1 || saved.At != 0 {
		t.Errorf("after it: revision %d from %d, %v", saved.Revision, saved.At, err)
	}
	limit(1 << 20)
	must(t, s.Append(t.Context(), "a", big))
	must(t, checkWhole(t.Context(), s.writer))
}

func TestLocked(t *testing.T) {
	path := newPath(t)
	s := open(t, path, soon(t))
	newJob(t, s, "a")
	cmd := childCommand("hold", path)
	in, err := cmd.StdinPipe()
	must(t, err)
	out, err := cmd.StdoutPipe()
	must(t, err)
	must(t, cmd.Start())
	defer func() { _ = cmd.Process.Kill() }()
	if line, err := bufio.NewReader(out).ReadString('\n'); err != nil || line != "held\n" {
		t.Fatalf("the other process said %q, %v", line, err)
	}
	trouble := troubleOf(t, s.Append(t.Context(), "a", stepOf(1)), Locked)
	said(t, trouble.Words, "Another program", "try again")
	// Reading goes on, and so do opening and a backup.
	if _, err := s.Load(t.Context(), "a"); err != nil {
		t.Errorf("load: %v", err)
	}
	other, err := openWith(t.Context(), path, soon(t))
	must(t, err)
	troubleOf(t, other.Append(t.Context(), "a", stepOf(1)), Locked)
	must(t, other.Backup(t.Context(), path+".backup"))
	must(t, other.Close())

	must(t, in.Close())
	_, err = io.Copy(io.Discard, out)
	must(t, err)
	must(t, cmd.Wait())
	must(t, s.Append(t.Context(), "a", stepOf(1)))
}

func TestDamaged(t *testing.T) {
	spoil := map[string]func(data []byte) []byte{
		"text":       func([]byte) []byte { return []byte(strings.Repeat("this is no database. ", 500)) },
		"short text": func([]byte) []byte { return []byte("shopping list") },
		"header":     func(data []byte) []byte { copy(data, "SQLite foobar 3"); return data },
		"zeros":      func(data []byte) []byte { clear(data[:4096]); return data },
		"cut off":    func(data []byte) []byte { return data[:5000] },
		"schema":     func(data []byte) []byte { clear(data[100:4096]); return data },
	}
	for name, change := range spoil {
		t.Run(name, func(t *testing.T) {
			path := newPath(t)
			oldStore(t, path)
			must(t, os.WriteFile(path+".schema-0", nil, 0o600))
			data, err := os.ReadFile(path)
			must(t, err)
			data = change(data)
			must(t, os.WriteFile(path, data, 0o600))
			s, err := openWith(t.Context(), path, soon(t))
			if err == nil {
				s.Close()
			}
			trouble := troubleOf(t, err, Damaged)
			said(t, trouble.Words, "damaged", "left as it is", "backup", "jobs.db.schema-0", "DROPLEG_STORE")
			if after, err := os.ReadFile(path); err != nil || string(after) != string(data) {
				t.Errorf("the file was changed, %v", err)
			}
		})
	}
}

// TestDamagedInside: damage deeper than what opening reads is told when it is met, and
// no backup or migration passes it on.
func TestDamagedInside(t *testing.T) {
	path := newPath(t)
	oldStore(t, path)
	data, err := os.ReadFile(path)
	must(t, err)
	for page := 4096 * 8; page < len(data); page += 4096 {
		copy(data[page:], "\xff\xff\xff\xff\xff\xff\xff\xff")
	}
	must(t, os.WriteFile(path, data, 0o600))
	s := open(t, path, soon(t))
	_, err = s.Load(t.Context(), "a")
	troubleOf(t, err, Damaged)
	to := path + ".backup"
	troubleOf(t, s.Backup(t.Context(), to), Damaged)
	if _, err := os.Stat(to); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a backup of a damaged file was left: %v", err)
	}
	must(t, s.Close())
	_, err = openWith(t.Context(), path, settings{busy: busyWait, migrations: later(t, 10)})
	troubleOf(t, err, Damaged)
	if after, err := os.ReadFile(path); err != nil || string(after) != string(data) {
		t.Errorf("the file was changed, %v", err)
	}
}

// TestStepMissing: no call can bring it about, a hand in the file can.
func TestStepMissing(t *testing.T) {
	path := newPath(t)
	oldStore(t, path)
	_, err := raw(t, path).Exec("DELETE FROM step WHERE revision = 12")
	must(t, err)
	s := open(t, path, soon(t))
	_, err = s.Load(t.Context(), "a")
	troubleOf(t, err, Damaged)
	if _, err := s.LoadAt(t.Context(), "a", 11); err != nil {
		t.Errorf("what stands before the gap: %v", err)
	}
}

// TestMovedAway: what would be written to a file that nobody finds again is refused.
func TestMovedAway(t *testing.T) {
	path := newPath(t)
	s := open(t, path, soon(t))
	newJob(t, s, "a")
	if err := os.Rename(path, path+".away"); err != nil {
		t.Skipf("an open file cannot be moved here: %v", err)
	}
	said(t, troubleOf(t, s.Append(t.Context(), "a", stepOf(1)), Other).Words, "moved", "Put it back")
	must(t, os.WriteFile(path, []byte("another"), 0o600))
	troubleOf(t, s.Append(t.Context(), "a", stepOf(1)), Other)
	must(t, os.Rename(path+".away", path))
	must(t, s.Append(t.Context(), "a", stepOf(1)))
}

func TestOpenNowhere(t *testing.T) {
	var trouble *Trouble
	if _, err := Open(t.Context(), ""); !errors.As(err, &trouble) || trouble.Kind != Other {
		t.Fatalf("no path: %v", err)
	}
	said(t, trouble.Words, "DROPLEG_STORE")
	folder := filepath.Join(t.TempDir(), "jobs.db")
	must(t, os.Mkdir(folder, 0o700))
	_, err := Open(t.Context(), folder)
	said(t, troubleOf(t, err, Other).Words, "is a folder")
}

func TestClosed(t *testing.T) {
	s, err := openWith(t.Context(), newPath(t), soon(t))
	must(t, err)
	must(t, s.Close())
	said(t, troubleOf(t, s.Append(t.Context(), "a", stepOf(1)), Other).Words, "closed")
	_, err = s.Jobs(t.Context())
	said(t, troubleOf(t, err, Other).Words, "closed")
}

// TestKinds has the codes of SQLite's result code page and the system's errors.
func TestKinds(t *testing.T) {
	for code, want := range map[int]string{
		13: Full, 4874: Full, 8: ReadOnly, 1032: ReadOnly, 3: ReadOnly, 14: ReadOnly,
		5: Locked, 261: Locked, 6: Locked, 15: Locked, 3850: Locked,
		11: Damaged, 267: Damaged, 26: Damaged, 8458: Damaged, 10: Other, 778: Other, 1: Other,
	} {
		if got := kindOfCode(code); got != want {
			t.Errorf("code %d is %s, want %s", code, got, want)
		}
	}
	for number, want := range map[syscall.Errno]string{
		syscall.ENOSPC: Full, syscall.EROFS: ReadOnly, syscall.EACCES: ReadOnly, syscall.EIO: Other,
	} {
		if got := kindOf(&fs.PathError{Op: "write", Path: "x", Err: number}); got != want {
			t.Errorf("%v is %s, want %s", number, got, want)
		}
	}
	for _, err := range []error{nil, context.Canceled, ErrBehind, notThere("x")} {
		if got := asTrouble("x", err); got != err {
			t.Errorf("%v became %v", err, got)
		}
	}
	told := &Trouble{Kind: Full, Words: "told"}
	if got := asTrouble("x", fmt.Errorf("again: %w", told)); !errors.Is(got, told) {
		t.Errorf("told twice: %v", got)
	}
}

func TestBackup(t *testing.T) {
	path := newPath(t)
	want := oldStore(t, path)
	s := open(t, path, soon(t))
	must(t, s.PutPicture(t.Context(), "a", "p", "image/png", pattern(1, 5000)))
	folder := t.TempDir()
	to := filepath.Join(folder, "copy [1]?.db")
	must(t, s.Backup(t.Context(), to))
	// What is written later is not in it.
	must(t, s.Append(t.Context(), "a", stepOf(31)))
	before, err := os.ReadFile(to)
	must(t, err)

	if err := s.Backup(t.Context(), to); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over a file that is there: %v", err)
	}
	if err := s.Backup(t.Context(), folder); !errors.Is(err, fs.ErrExist) {
		t.Errorf("over a folder: %v", err)
	}
	if err := s.Backup(t.Context(), filepath.Join(folder, "none", "x.db")); err == nil {
		t.Error("into a folder that is not there: no error")
	}
	if after, err := os.ReadFile(to); err != nil || string(after) != string(before) {
		t.Errorf("the first backup was changed, %v", err)
	}
	names, err := os.ReadDir(folder)
	if err != nil || len(names) != 1 {
		t.Errorf("left in the folder: %v, %v", names, err)
	}

	b := open(t, to, soon(t))
	got, err := b.Load(t.Context(), "a")
	if err != nil || cmp.Diff(want, got) != "" {
		t.Errorf("%v %s", err, cmp.Diff(want, got))
	}
	if _, data, err := b.Picture(t.Context(), "a", "p"); err != nil || string(data) != string(pattern(1, 5000)) {
		t.Errorf("the picture: %v", err)
	}
	must(t, b.Append(t.Context(), "a", stepOf(31)))
	must(t, checkWhole(t.Context(), b.writer))
}

// TestBackupCancelled leaves nothing.
func TestBackupCancelled(t *testing.T) {
	path := newPath(t)
	oldStore(t, path)
	s := open(t, path, soon(t))
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	folder := t.TempDir()
	if err := s.Backup(ctx, filepath.Join(folder, "x.db")); !errors.Is(err, context.Canceled) {
		t.Errorf("a cancelled backup: %v", err)
	}
	if names, err := os.ReadDir(folder); err != nil || len(names) != 0 {
		t.Errorf("left in the folder: %v, %v", names, err)
	}
}
