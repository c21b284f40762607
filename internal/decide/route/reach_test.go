package route

import (
	"context"
	"math/bits"
	"slices"
	"strings"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// hullShop is a boat in the middle of a room with a gate.
func hullShop(t *testing.T) *shop {
	s := newShop(t)
	s.room("Shop", 3.6, geom.Flat{0, 0}, geom.Flat{12, 0}, geom.Flat{12, 8}, geom.Flat{0, 8})
	s.must(&fit.Opening{Wall: s.wallAt(geom.Flat{6, 0}), Kind: "gate", Along: 4.5, Width: 3, Height: 2.5})
	s.obstacle("hull", "Hull", 0, 2, geom.Flat{3, 3}, geom.Flat{9, 5})
	return s
}

// TestEverySideOfTheHull: the choice is held against every set of the same places.
func TestEverySideOfTheHull(t *testing.T) {
	for _, hose := range []float64{6, 8, 12, 16} {
		s := hullShop(t)
		r, err := Reach(context.Background(), s.study(), ReachWish{Hose: unit.Length(hose)})
		if err != nil {
			t.Fatal(err, titles(err))
		}
		work, _ := workedOn(s.job, nil)
		f := floorOf(job.NewIndex(s.job), work)
		all := f.places(job.NewIndex(s.job), s.shelf, false)
		f.cover(all, hose)
		if want := fewestOf(f, all); len(r.Spots) != want || !r.Proven {
			t.Errorf("hose of %v: %d outlets, proven %v; every set says %d", hose, len(r.Spots), r.Proven, want)
		}
		covered := len(r.Missed)
		for k := range f.sides {
			if slices.ContainsFunc(r.Spots, func(x Spot) bool { return slices.Contains(x.Covers, f.sides[k].name) }) {
				covered++
			}
		}
		if len(f.sides) != 4 || covered != 4 {
			t.Errorf("hose of %v: %d of %d sides: %+v", hose, covered, len(f.sides), r)
		}
	}
}

// fewestOf tries every set of sides that places cover, by how many sets it takes.
func fewestOf(f *floor, all []place) int {
	goal := 0
	best := map[int]int{0: 0}
	for _, p := range all {
		set := 0
		for _, k := range p.covers {
			set |= 1 << k
		}
		goal |= set
		for have, n := range best {
			if m, ok := best[have|set]; !ok || m > n+1 {
				best[have|set] = n + 1
			}
		}
	}
	for range bits.OnesCount(uint(goal)) { // until nothing changes
		for _, p := range all {
			set := 0
			for _, k := range p.covers {
				set |= 1 << k
			}
			for have, n := range best {
				if m, ok := best[have|set]; !ok || m > n+1 {
					best[have|set] = n + 1
				}
			}
		}
	}
	return best[goal]
}

// TestLongerHoseNeedsNoMore: what a hose reaches a longer one reaches too.
func TestLongerHoseNeedsNoMore(t *testing.T) {
	missed, spots := 99, 99
	for _, hose := range []float64{4, 6, 8, 10, 14, 20} {
		r, err := Reach(context.Background(), hullShop(t).study(), ReachWish{Hose: unit.Length(hose)})
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Missed) > missed || len(r.Missed) == missed && len(r.Spots) > spots {
			t.Errorf("hose of %v: %d missed by %d; a shorter one %d by %d", hose, len(r.Missed), len(r.Spots), missed, spots)
		}
		missed, spots = len(r.Missed), len(r.Spots)
	}
}

// TestNoOutletInADoor, and no hose through it: with the door in the only way round, the
// far side is missed.
func TestNoOutletInADoor(t *testing.T) {
	s := hullShop(t)
	r, err := Reach(context.Background(), s.study(), ReachWish{Hose: 12, Ceiling: true})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range r.Spots {
		if x.Wall != "" && x.At[1] < 0.5 && x.At[0] > 4.4 && x.At[0] < 7.6 {
			t.Errorf("an outlet in the gate: %+v", x)
		}
	}
	after, _, err := r.Edit.Apply(s.job)
	if err != nil || !job.Usable(job.Validate(after, catalog.Builtin())) {
		t.Errorf("the job with its outlets: %v", err)
	}
}

// TestReachThenLay: what is proposed can be laid; an example's outlets count as they are.
func TestReachThenLay(t *testing.T) {
	s := hullShop(t)
	s.compressor(geom.Point{0.3, 0.3, 0.9})
	r, err := Reach(context.Background(), s.study(), ReachWish{Hose: 10})
	if err != nil {
		t.Fatal(err)
	}
	next, err := s.study().After(r.Edit)
	if err != nil {
		t.Fatal(err)
	}
	laid, err := Propose(context.Background(), next, Wish{}, nil)
	if err != nil || laid[0].Figures.Feet != len(r.Spots) {
		t.Errorf("%v %v", laid, titles(err))
	}
	raw, _ := example.Read("boat-shop")
	j, _ := job.Parse(raw)
	b, err := Reach(context.Background(), study.Of(j, catalog.Builtin()), ReachWish{Around: []job.ID{"obstacle.hull"}, Hose: 10.5})
	if err != nil || !slices.ContainsFunc(b.Spots, func(x Spot) bool { return x.Stands }) {
		t.Errorf("%+v %v", b, err)
	}
	if _, err := Reach(context.Background(), study.Of(j, catalog.Builtin()), ReachWish{Around: []job.ID{"obstacle.none"}}); !strings.Contains(strings.Join(titles(err), ""), "no obstacle") {
		t.Errorf("%v", titles(err))
	}
}
