package check

import (
	"testing"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model/shoptest"
)

// bypassed is a receiver, a dryer with a bypass valve round it, and an outlet.
func bypassed(shut bool) *job.Job {
	n := shoptest.Machine()
	n.Points = append(n.Points,
		job.Point{ID: "point.split", Part: job.Part{Kind: "tee"}},
		job.Point{ID: "point.dryer", Part: job.Part{Kind: "refrigerated-dryer"}},
		job.Point{ID: "point.bypass", Part: job.Part{Kind: "ball-valve", Shut: shut}},
		job.Point{ID: "point.join", Part: job.Part{Kind: "tee"}},
		job.Point{ID: "point.end", Part: job.Part{Kind: "drop-elbow"}},
		job.Point{ID: "point.drain", Part: job.Part{Kind: "drain-cock"}},
	)
	shoptest.Join(&n, "line.1", "point.receiver", "point.split", [2]string{"out", "run-1"}, "3/4", 1, "link")
	shoptest.Join(&n, "line.2", "point.split", "point.dryer", [2]string{"run-2", "in"}, "3/4", 1, "link")
	shoptest.Join(&n, "line.3", "point.dryer", "point.join", [2]string{"out", "run-1"}, "3/4", 1, "link")
	shoptest.Join(&n, "line.4", "point.split", "point.bypass", [2]string{"branch", "in"}, "3/4", 1, "link")
	shoptest.Join(&n, "line.5", "point.bypass", "point.join", [2]string{"out", "branch"}, "3/4", 1, "link")
	shoptest.Join(&n, "line.6", "point.join", "point.end", [2]string{"run-2", "in"}, "3/4", 1, "main")
	shoptest.Join(&n, "line.7", "point.receiver", "point.drain", [2]string{"drain", "in"}, "1/2", 1, "link")
	return &job.Job{Version: job.Version, Net: n}
}

func layoutOf(j *job.Job) *layout { return newLayout(job.NewIndex(j), catalog.Builtin()) }

// TestBehind: an open bypass lets wet air past the dryer, a shut one does not.
func TestBehind(t *testing.T) {
	for _, row := range []struct {
		shut, behind bool
	}{{true, true}, {false, false}} {
		l := layoutOf(bypassed(row.shut))
		got := l.behind(catalog.Dries)
		if got[l.at["point.end"]] != row.behind {
			t.Errorf("bypass shut %v: behind the dryer %v", row.shut, !row.behind)
		}
		if got[l.at["point.dryer"]] || got[l.at["point.receiver"]] {
			t.Error("the dryer or what feeds it counts as behind it")
		}
	}
}

// TestTwigs: a drain on its own line is no fork and drains the receiver.
func TestTwigs(t *testing.T) {
	l := layoutOf(bypassed(true))
	if r := l.at["point.receiver"]; !l.drained(r) || l.forks(r) != 1 {
		t.Errorf("receiver: drained %v, %d ways on; want true, 1 (the compressor ends the other leg)", l.drained(r), l.forks(r))
	}
	if s := l.at["point.split"]; l.drained(s) || l.forks(s) < 2 {
		t.Errorf("split: drained %v, %d ways on", l.drained(s), l.forks(s))
	}
}

// TestSections: each drop of a ring is a section of its own that leaves the ring at one place.
func TestSections(t *testing.T) {
	l := layoutOf(shoptest.Ring(5))
	drops := l.sections(drops, mains)
	if len(drops) != 5 {
		t.Fatalf("%d drops, want 5", len(drops))
	}
	for _, d := range drops {
		if len(d.from) != 1 || len(d.runs) != 1 || len(d.points) != 2 {
			t.Errorf("a drop with %d places on the ring, %d runs, %d points", len(d.from), len(d.runs), len(d.points))
		}
	}
	if ring := l.sections(mains, nil); len(ring) != 1 || len(ring[0].runs) != 6 {
		t.Errorf("%d rings", len(ring))
	}
}
