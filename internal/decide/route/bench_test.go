package route

import (
	"context"
	"fmt"
	"testing"
	"time"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/fit"
)

// hallShop is a hall of 60 by 30 m with a store beside it, posts, gates, a crane beam and
// outlets on its walls and, one in four, in its middle.
func hallShop(t testing.TB, outlets int) *shop {
	s := newShop(t)
	s.room("Hall", 6, geom.Flat{0, 0}, geom.Flat{60, 0}, geom.Flat{60, 30}, geom.Flat{0, 30})
	s.room("Store", 4, geom.Flat{60.2, 0}, geom.Flat{72, 0}, geom.Flat{72, 12}, geom.Flat{60.2, 12})
	for _, along := range []float64{10, 28, 46} {
		s.must(&fit.Opening{Wall: s.wallAt(geom.Flat{30, 0}), Kind: "gate", Along: unit.Length(along), Width: 4, Height: 4})
	}
	s.obstacle("beam", "crane", 4.6, 5, geom.Flat{0.5, 14.8}, geom.Flat{59.5, 15.2})
	for k := range 5 {
		x := 10 * float64(k+1)
		s.obstacle("post", fmt.Sprintf("post-%d", k), 0, 6, geom.Flat{x, 14.8}, geom.Flat{x + 0.3, 15.2})
		s.obstacle("machine", fmt.Sprintf("press-%d", k), 0, 3, geom.Flat{x + 2, 8}, geom.Flat{x + 5, 10})
	}
	s.compressor(geom.Point{70, 11.5, 1})
	for k := range outlets {
		t := float64(k) / float64(outlets)
		p := geom.Point{1 + 57*t, 29.92, 1.1}
		switch k % 4 {
		case 1:
			p = geom.Point{59.92, 1 + 28*t, 1.1}
		case 2:
			p = geom.Point{4 + 52*t, 3 + float64(k%5)*2 + float64(k%3)*8.5, 1.1} // none under the crane
		case 3:
			p = geom.Point{0.08, 1 + 28*t, 1.1}
		}
		s.outlet(fmt.Sprintf("Outlet %d", k+1), p)
	}
	return s
}

func benchLay(b *testing.B, outlets int, over []string) {
	s := hallShop(b, outlets)
	w := &Wish{Over: over, Stock: "aluminium-metric"}
	p := mustPen(b, s, w)
	m := mazeFor(b, s, w)
	b.ReportMetric(float64(len(m.nodes)), "nodes")
	for b.Loop() {
		ctx, stop := context.WithTimeout(context.Background(), 5*time.Second)
		l, err := layoutOf(ctx, s.draft, w, p, nil)
		stop()
		if err != nil {
			b.Fatal(titles(err))
		}
		b.ReportMetric(100*float64(l.price-l.bound)/float64(l.price), "gap-%")
	}
	b.ReportMetric(float64(len(m.nodes)), "nodes")
}

func BenchmarkLayTwelve(b *testing.B)       { benchLay(b, 12, nil) }
func BenchmarkLayTwelveAcross(b *testing.B) { benchLay(b, 12, []string{Ceiling}) }
func BenchmarkLayFifty(b *testing.B)        { benchLay(b, 50, nil) }
func BenchmarkLayFiftyAcross(b *testing.B)  { benchLay(b, 50, []string{Ceiling}) }

func BenchmarkProposeThirty(b *testing.B) {
	s := hallShop(b, 30)
	for b.Loop() {
		if _, err := Propose(context.Background(), s.study(), Wish{}, nil); err != nil {
			b.Fatal(titles(err))
		}
	}
}
