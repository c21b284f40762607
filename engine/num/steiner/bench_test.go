package steiner

import (
	"context"
	"fmt"
	"testing"
	"time"
)

// hall is a graph as a shop has it: a grid of mains with blocked stretches, outlets on
// legs, prices in tenths of a millimetre, a bend worth 1.2 m.
func hall(wide, high, outlets int, seed uint64) Problem {
	d := dice(seed)
	x, y := make([]int64, wide), make([]int64, high)
	for i := range x {
		x[i] = int64(4000 + 100*d.roll(300))
	}
	for i := range y {
		y[i] = int64(4000 + 100*d.roll(300))
	}
	var legs []int
	used := map[int]bool{}
	for len(legs) < outlets+1 {
		if v := d.roll(wide * high); !used[v] {
			used[v] = true
			legs = append(legs, v)
		}
	}
	length := func(a, b int) int64 {
		switch {
		case b >= wide*high:
			return 20000
		case d.roll(12) == 0:
			return 400_000 // round an obstacle
		case b == a+1:
			return x[a%wide]
		}
		return y[a/wide]
	}
	return grid(wide, high, length, legs, 12000)
}

func BenchmarkTwelveOutlets(b *testing.B) {
	for _, seed := range []uint64{1, 2, 3, 4} {
		p := hall(24, 16, 12, seed)
		b.Run(fmt.Sprint(seed), func(b *testing.B) {
			for b.Loop() {
				a, err := Solve(context.Background(), p, Options{})
				if err != nil || !a.Proven {
					b.Fatalf("%+v %v", a, err)
				}
			}
		})
	}
}

func BenchmarkFiftyOutlets(b *testing.B) {
	for _, seed := range []uint64{1, 2, 3, 4} {
		p := hall(30, 20, 50, seed)
		b.Run(fmt.Sprint(seed), func(b *testing.B) {
			for b.Loop() {
				ctx, stop := context.WithTimeout(context.Background(), 5*time.Second)
				a, err := Solve(ctx, p, Options{})
				stop()
				if err != nil {
					b.Fatal(err)
				}
				b.ReportMetric(100*a.Gap(), "gap-%")
			}
		})
	}
}
