package job

import (
	"math"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// Places of the fixture, worked by hand from its figures.
func TestPlaces(t *testing.T) {
	j := parsed(t, shop)
	ix := NewIndex(j)
	// 2 m along a wall from (0, 6) to (10, 6), 0.05 m off it into the room.
	if at, ok := ix.Where(ix.Point("point.tee")); !ok || at.Distance(geom.Point{2, 5.95, 2.8}) > 1e-12 {
		t.Errorf("tee at %v", at)
	}
	// Up 2.1, across hypot(5.45, 0.05), on hypot(1, 0.05).
	want := 2.1 + math.Hypot(5.45, 0.05) + math.Hypot(1, 0.05)
	if l, known := ix.LengthOf(ix.Run("line.main-1")); !known || math.Abs(float64(l)-want) > 1e-12 {
		t.Errorf("length %v, want %v", l, want)
	}
	if n := len(ix.Centreline(ix.Run("line.main-1"))); n != 4 {
		t.Errorf("%d points", n)
	}
	if z := ix.ZoneOf(ix.Run("line.drop")); z == nil || z.ID != "zone.hall" {
		t.Errorf("zone %v", z)
	}
	if r := ix.RoomAt(geom.Point{20, 3, 1}); r != nil {
		t.Errorf("a place outside is in %s", r.ID)
	}
	if ends := ix.Ends("point.tee"); len(ends) != 3 || ends[0].Other() != "point.receiver" || ends[1].Other() != "point.end" {
		t.Errorf("ends %+v", ends)
	}
	if o := ix.OutletOfHose("hose.bench"); o == nil || o.ID != "outlet.bench" || ix.OutletOfPart("part.regulator") != o || ix.OutletsAt("point.drop")[0] != o {
		t.Error("the outlet is not found by what hangs there")
	}
	if ix.Run("point.tee") != nil || ix.Point("point.none") != nil || !ix.Has("hose.bench") || ix.Has("hose.none") {
		t.Error("an id leads to a thing of another kind")
	}
}

func TestClimate(t *testing.T) {
	j := parsed(t, shop)
	ix := NewIndex(j)
	for id, want := range map[ID][2]float64{"zone.hall": {18, 37}, "zone.lean-to": {-5, 37}} {
		c := j.ClimateOf(ix.Zone(id))
		if math.Abs(c.Winter.Celsius()-want[0]) > 1e-9 || math.Abs(c.Summer.Celsius()-want[1]) > 1e-9 || !c.Assumed {
			t.Errorf("%s: %v to %v, assumed %v", id, c.Winter.Celsius(), c.Summer.Celsius(), c.Assumed)
		}
	}
	out := j.ClimateOf(&Zone{Climate: "outside"})
	if out.Assumed || out.Winter != unit.Celsius(-12) || out.Summer != unit.Celsius(32) {
		t.Errorf("outside %+v", out)
	}
}

func TestFreshID(t *testing.T) {
	j := parsed(t, shop)
	j.Retired = []ID{"line.main-3"}
	ix := NewIndex(j)
	for stem, want := range map[ID]ID{"line.main-1": "line.main-4", "line.new": "line.new", "hose.bench": "hose.bench-2", "point.tee": "point.tee-2"} {
		if got := ix.FreshID(stem); got != want {
			t.Errorf("%s gives %s, want %s", stem, got, want)
		}
	}
}
