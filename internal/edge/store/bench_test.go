package store

import (
	"fmt"
	"path/filepath"
	"testing"
)

func BenchmarkAppend(b *testing.B) {
	s := open(b, newPath(b), soon(b))
	newJob(b, s, "a")
	step := stepOf(1)
	revision := 0
	for b.Loop() {
		revision++
		step.Revision = revision
		must(b, s.Append(b.Context(), "a", step))
	}
}

// BenchmarkLoad has 1,000 steps after the last snapshot, far more than is left to come
// together in use.
func BenchmarkLoad(b *testing.B) {
	s := open(b, newPath(b), soon(b))
	newJob(b, s, "a")
	step := stepOf(1)
	for revision := 1; revision <= 1000; revision++ {
		step.Revision = revision
		must(b, s.Append(b.Context(), "a", step))
	}
	for b.Loop() {
		saved, err := s.Load(b.Context(), "a")
		if err != nil || len(saved.Steps) != 1000 {
			b.Fatal(len(saved.Steps), err)
		}
	}
}

func BenchmarkJobs(b *testing.B) {
	s := open(b, newPath(b), soon(b))
	for n := range 200 {
		id := fmt.Sprint("job-", n)
		newJob(b, s, id)
		must(b, s.Keep(b.Context(), id, 0, "a job of 200", document(0), pattern(n, 8000)))
	}
	for b.Loop() {
		jobs, err := s.Jobs(b.Context())
		if err != nil || len(jobs) != 200 {
			b.Fatal(len(jobs), err)
		}
	}
}

func BenchmarkOpen(b *testing.B) {
	path := newPath(b)
	newJob(b, open(b, path, soon(b)), "a")
	for b.Loop() {
		s, err := Open(b.Context(), path)
		must(b, err)
		must(b, s.Close())
	}
}

func BenchmarkBackup(b *testing.B) {
	s := open(b, newPath(b), soon(b))
	newJob(b, s, "a")
	must(b, s.PutPicture(b.Context(), "a", "p", "image/png", make([]byte, 16<<20)))
	folder := b.TempDir()
	for n := 0; b.Loop(); n++ {
		must(b, s.Backup(b.Context(), filepath.Join(folder, fmt.Sprint(n))))
	}
}
