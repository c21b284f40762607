package route

import (
	"context"
	"fmt"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// longHall is an unheated hall with outlets along both its long walls, frost to summer.
func longHall(t testing.TB, long float64) *shop {
	s := newShop(t)
	s.must(&fit.Room{
		Name: "Hall", Ceiling: 5, Climate: "unheated", Walls: &fit.RoomWalls{Thickness: 0.2},
		Outline: []geom.Flat{{0, 0}, {long, 0}, {long, 18}, {0, 18}},
	})
	s.job.Site.Cold, s.job.Site.Hot = new(unit.Celsius(-10)), new(unit.Celsius(32))
	s.compressor(geom.Point{1.5, 9, 1})
	for k := range 12 {
		y := 0.08
		if k%2 == 1 {
			y = 17.92
		}
		s.outlet(fmt.Sprintf("Outlet %d", k+1), geom.Point{long * (float64(k) + 0.5) / 12, y, 1.1})
	}
	return s
}

// Lines of a hall give way where they grow: by the law of growth
// itself (package hold), nothing that is laid is left without a leg that takes it up. What is
// led out of its line for that falls all the way, so that no water stands in it.
func TestLongLinesGiveWay(t *testing.T) {
	for _, stock := range []string{"aluminium-metric", "pe-al-pe-metric", "steel-en10255"} {
		for _, long := range []float64{20, 60, 100} {
			s := longHall(t, long)
			all, err := Propose(context.Background(), s.study(), Wish{Stock: stock}, nil)
			if err != nil {
				t.Fatal(stock, long, titles(err))
			}
			after, _, err := all[0].Edit.Apply(s.job)
			if err != nil {
				t.Fatal(err)
			}
			ix := job.NewIndex(after)
			held, err := study.Of(after, s.shelf).Hold(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			if pent := Pent(ix, held); pent > 0 || !all[0].Verified {
				t.Errorf("%s, %v m: %.2f mm have nowhere to go: %+v", stock, long, 1e3*pent, held.Held)
			}
			for i := range after.Net.Runs {
				r := &after.Net.Runs[i]
				way := ix.Centreline(r)
				for k := 2; k < len(way) && (r.Role == "main" || r.Role == "branch"); k++ {
					if way[k][2] > way[k-1][2]+geom.Tiny && way[k-1][2] < way[k-2][2]-geom.Tiny {
						t.Errorf("%s, %v m: %s has a low point at %v", stock, long, r.ID, way[k-1])
					}
				}
			}
		}
	}
}

// A loop as it is drawn, with what it has in hand, hangs no farther off the wall than it may
// without a bracket of its own.
func TestLoopsAreNoDeeperThanTheyMay(t *testing.T) {
	for _, long := range []float64{60, 100} {
		s := longHall(t, long)
		w := &Wish{Stock: "aluminium-metric"}
		l, err := layoutOf(context.Background(), s.draft, w, mustPen(t, s, w), nil)
		if err != nil {
			t.Fatal(titles(err))
		}
		if _, err := l.drawn(context.Background(), s.draft); err != nil || len(l.bows) == 0 {
			t.Fatal(err, l.bows)
		}
		for _, b := range l.bows {
			if b.deep > 1.2+geom.Tiny {
				t.Errorf("%v m: %.3f m deep", long, b.deep)
			}
		}
	}
}

// In a small heated shop nothing grows by more than clips give way to: no neck is wider and no
// loop is drawn.
func TestShortLinesAreLaidAsEver(t *testing.T) {
	for _, stock := range []string{"copper-l", "steel-en10255"} {
		s := ell(t)
		w := &Wish{Stock: stock}
		l, err := layoutOf(context.Background(), s.draft, w, mustPen(t, s, w), nil)
		if err != nil {
			t.Fatal(titles(err))
		}
		if _, err := l.drawn(context.Background(), s.draft); err != nil || len(l.wide) > 0 || len(l.bows) > 0 {
			t.Errorf("%s: %v, wider %v, loops %v", stock, err, l.wide, l.bows)
		}
	}
}
