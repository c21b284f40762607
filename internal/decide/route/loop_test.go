package route

import (
	"slices"
	"testing"

	"dropleg/internal/shop/job"
)

// TestLoopIsTheSameEachTime: two ways lead back equally well, and the same one is taken.
func TestLoopIsTheSameEachTime(t *testing.T) {
	run := func(id, from, to job.ID, role string) job.Run {
		return job.Run{ID: id, From: job.End{Point: from}, To: job.End{Point: to}, Role: role}
	}
	j := &job.Job{}
	for _, id := range []job.ID{"point.a", "point.b", "point.c", "point.d"} {
		j.Net.Points = append(j.Net.Points, job.Point{ID: id})
	}
	j.Net.Runs = []job.Run{
		run("line.ring", "point.a", "point.d", "ring"), run("line.1", "point.a", "point.b", "main"), run("line.2", "point.a", "point.c", "main"),
		run("line.3", "point.d", "point.c", "main"), run("line.4", "point.d", "point.b", "main"),
	}
	a := &artist{draft: &draft{job: j}}
	want := []job.ID{"line.ring", "line.4", "line.1"}
	for range 50 {
		if got := a.loop(job.NewIndex(j)); !slices.Equal(got, want) {
			t.Fatalf("%v, want %v", got, want)
		}
	}
}
