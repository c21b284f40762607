package fit_test

import (
	"testing"

	"dropleg/engine/geom"
	"dropleg/internal/shop/job"
)

// TestADrainBelowTheOutlet: one drip line leads from the drain port down to it, and a
// second asking changes nothing.
func TestADrainBelowTheOutlet(t *testing.T) {
	s := dropped(t)
	drains := s.count("drain-cock")
	s.isAt("point.drain-cock", geom.Point{s.at("point.bench")[0], s.at("point.bench")[1], 1.1 - 0.12})
	drips := 0
	for _, r := range s.job.Net.Runs {
		if r.Role != "drip" {
			continue
		}
		drips++
		if r.From != (job.End{Point: "point.bench", Port: "drain"}) || r.To.Point != "point.drain-cock" || r.Size != "1/2" {
			t.Errorf("the drip line is %+v", r)
		}
	}
	if drips != 1 {
		t.Errorf("%d drip lines, want 1", drips)
	}
	s.do(`{"do":"compose","outlet":"outlet.bench","mark":"Q","drain":"automatic-drain"}`)
	if got := s.count("drain-cock") + s.count("automatic-drain"); got != drains {
		t.Errorf("%d drains, want %d", got, drains)
	}
}

// TestAnOutletHangsAtAnotherPart: lines and outlets keep their ends where the part has
// them, else the change is refused.
func TestAnOutletHangsAtAnotherPart(t *testing.T) {
	s := dropped(t)
	at := s.ix().Outlet("outlet.lathe").Point
	s.refused(`{"do":"compose","outlet":"outlet.lathe","drain":"drain-cock"}`, "no opening for a drain")
	s.do(`{"do":"compose","outlet":"outlet.lathe","kind":"wall-block","drain":"drain-cock"}`)
	if got := s.kindAt(at); got != "wall-block" {
		t.Errorf("it hangs at a %s", got)
	}
	if got := s.count("drain-cock"); got != 2 {
		t.Errorf("%d drains, want 2", got)
	}
	s.do(`{"do":"compose","outlet":"outlet.lathe","kind":"manifold"}`)
	if o := s.ix().Outlet("outlet.lathe"); o.Port != "branch-1" {
		t.Errorf("it hangs at the port %s", o.Port)
	}
	s.refused(`{"do":"compose","outlet":"outlet.bench","kind":"drop-elbow"}`, "drain", "erase that line first")
	s.refused(`{"do":"compose","outlet":"outlet.bench","kind":"wal-block"}`, "no outlet hangs at")
	s.refused(`{"do":"compose","outlet":"outlet.bench","drain":"tee"}`, "is no drain")
}
