//go:build unix

package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// childReadOnly says what can be done with a file that may not be written.
func childReadOnly(path string) error {
	ctx := context.Background()
	kind := func(err error) string {
		var trouble *Trouble
		if errors.As(err, &trouble) {
			return trouble.Kind
		}
		return fmt.Sprint(err)
	}
	s, err := Open(ctx, path)
	fmt.Println("open", kind(err))
	if err != nil {
		return nil
	}
	saved, err := s.Load(ctx, "a")
	fmt.Println("load", saved.Revision, kind(err))
	fmt.Println("append", kind(s.Append(ctx, "a", stepOf(saved.Revision+1))))
	_, err = s.Changed(ctx)
	fmt.Println("changed", kind(err))
	fmt.Println("backup", kind(s.Backup(ctx, filepath.Join(os.TempDir(), filepath.Base(filepath.Dir(path))))))
	return s.Close()
}

// runAsAnother runs the child as somebody who may not write what we made. For root no
// mode is in the way, so it becomes nobody.
func runAsAnother(t *testing.T, path string) string {
	t.Helper()
	binary := filepath.Join(openFolder(t), "child")
	from, err := os.Open(os.Args[0])
	must(t, err)
	defer from.Close()
	into, err := os.OpenFile(binary, os.O_CREATE|os.O_WRONLY, 0o755)
	must(t, err)
	_, err = io.Copy(into, from)
	must(t, errors.Join(err, into.Close()))
	theirs := openFolder(t)
	must(t, os.Chmod(theirs, 0o777))
	cmd := exec.Command(binary, path)
	cmd.Env = append(os.Environ(), childVariable+"=read-only", "TMPDIR="+theirs)
	cmd.Stderr = os.Stderr
	cmd.Dir = theirs
	if os.Geteuid() == 0 {
		const nobody = 65534
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
	}
	out, err := cmd.Output()
	if errors.Is(err, syscall.EPERM) && len(out) == 0 {
		t.Skipf("another user's process cannot be started here: %v", err)
	}
	must(t, err)
	return strings.ReplaceAll(strings.TrimSpace(string(out)), "\n", "; ")
}

// openFolder is a folder that everybody may enter, unlike t.TempDir.
func openFolder(t *testing.T) string {
	t.Helper()
	folder, err := os.MkdirTemp("", "store")
	must(t, err)
	must(t, os.Chmod(folder, 0o755))
	t.Cleanup(func() {
		must(t, os.Chmod(folder, 0o755))
		must(t, os.RemoveAll(folder))
	})
	return folder
}

func TestReadOnly(t *testing.T) {
	const reads = "load 30 <nil>; append read-only; changed <nil>; backup <nil>"
	for _, c := range []struct {
		name         string
		file, folder os.FileMode
		keepOpen     bool // by us, so that a log lies there
		change       string
		want         string
	}{
		{"folder", 0o666, 0o555, false, "", "open <nil>; " + reads},
		{"file", 0o444, 0o777, false, "", "open <nil>; " + reads},
		{"both", 0o444, 0o555, false, "", "open <nil>; " + reads},
		{"both, in use", 0o444, 0o555, true, "", "open <nil>; " + reads},
		{"unreadable", 0o000, 0o555, false, "", "open read-only"},
		{"older schema", 0o444, 0o555, false, "PRAGMA user_version = 0", "open read-only"},
	} {
		t.Run(c.name, func(t *testing.T) {
			folder := openFolder(t)
			path := filepath.Join(folder, "jobs.db")
			oldStore(t, path)
			if c.change != "" {
				db := openPool(source(path, 0), 1)
				_, err := db.Exec(c.change)
				must(t, errors.Join(err, db.Close()))
			}
			if c.keepOpen {
				s := open(t, path, soon(t))
				must(t, s.Restore(t.Context(), "a"))
				for _, name := range []string{path + "-wal", path + "-shm"} {
					must(t, os.Chmod(name, c.file))
				}
			}
			before, err := os.ReadFile(path)
			must(t, err)
			must(t, os.Chmod(path, c.file))
			must(t, os.Chmod(folder, c.folder))
			if got := runAsAnother(t, path); got != c.want {
				t.Errorf("%s\n got %s\nwant %s", c.name, got, c.want)
			}
			if after, err := os.ReadFile(path); os.Geteuid() == 0 && (err != nil || string(after) != string(before)) {
				t.Errorf("the file was changed, %v", err)
			}
		})
	}
}

// TestReadOnlyFolder: there is no file and none can be made.
func TestReadOnlyFolder(t *testing.T) {
	folder := openFolder(t)
	must(t, os.Chmod(folder, 0o555))
	for _, name := range []string{"jobs.db", "sub/jobs.db"} {
		if got := runAsAnother(t, filepath.Join(folder, name)); got != "open read-only" {
			t.Errorf("%s: %s", name, got)
		}
	}
}
