package store

import (
	"errors"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// TestFullDisk fills a small disk in memory, which takes the right to mount one.
func TestFullDisk(t *testing.T) {
	disk := t.TempDir()
	if err := syscall.Mount("tmpfs", disk, "tmpfs", 0, "size=2m"); err != nil {
		t.Skipf("no disk can be mounted here (TestFull does without): %v", err)
	}
	t.Cleanup(func() { must(t, syscall.Unmount(disk, 0)) })
	path := filepath.Join(disk, "jobs.db")
	s, err := openWith(t.Context(), path, soon(t))
	must(t, err)
	t.Cleanup(func() { s.Close() })
	newJob(t, s, "a")
	revision := 0
	for err == nil && revision < 10_000 {
		if err = s.Append(t.Context(), "a", stepOf(revision+1)); err == nil {
			revision++
		}
	}
	said(t, troubleOf(t, err, Full).Words, "no room")
	saved, err := s.Load(t.Context(), "a")
	if err != nil || saved.Revision != revision {
		t.Errorf("%d steps were acknowledged, %d are there: %v", revision, saved.Revision, err)
	}
	troubleOf(t, s.Backup(t.Context(), filepath.Join(disk, "jobs.db.backup")), Full)
	if names, err := os.ReadDir(disk); err != nil || len(names) != 3 {
		t.Errorf("a backup without room left something: %v, %v", names, err)
	}
	// A migration without room leaves the old schema.
	must(t, s.Close())
	_, err = openWith(t.Context(), path, settings{busy: busyWait, migrations: later(t, 10)})
	troubleOf(t, err, Full)

	must(t, syscall.Mount("tmpfs", disk, "tmpfs", syscall.MS_REMOUNT, "size=16m"))
	s, err = openWith(t.Context(), path, soon(t))
	must(t, err)
	must(t, s.Append(t.Context(), "a", stepOf(revision+1)))
	must(t, checkWhole(t.Context(), s.writer))

	// The same disk, of which nothing can be written any more.
	must(t, s.Close())
	must(t, syscall.Mount("tmpfs", disk, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, "size=16m"))
	s, err = openWith(t.Context(), path, soon(t))
	must(t, err)
	if saved, err = s.Load(t.Context(), "a"); err != nil || saved.Revision != revision+1 {
		t.Errorf("on a read-only disk: revision %d, %v", saved.Revision, err)
	}
	said(t, troubleOf(t, s.Append(t.Context(), "a", stepOf(revision+2)), ReadOnly).Words, "read-only")
	_, err = Open(t.Context(), filepath.Join(disk, "new", "jobs.db"))
	var trouble *Trouble
	if !errors.As(err, &trouble) || trouble.Kind != ReadOnly {
		t.Errorf("a new file on a read-only disk: %v", err)
	}
}
