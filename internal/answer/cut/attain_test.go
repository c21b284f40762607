package cut

import (
	"testing"

	"pgregory.net/rapid"
)

// TestAttain: the least sum from a price on, against counting through all numbers of bars.
func TestAttain(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := &shape{kinds: []kind{{size: int64(rapid.IntRange(1, 60).Draw(r, "size")), need: rapid.IntRange(1, 4).Draw(r, "need")}}}
		n := rapid.IntRange(1, 3).Draw(r, "bars")
		for range n {
			s.bars = append(s.bars, bar{room: int64(rapid.IntRange(1, 90).Draw(r, "room")), price: int64(rapid.IntRange(0, 30).Draw(r, "price")), most: rapid.IntRange(1, 5).Draw(r, "most")})
		}
		least := int64(rapid.IntRange(0, 200).Draw(r, "least"))
		best, priced := int64(-1), false
		var count func(i int, paid, room int64)
		count = func(i int, paid, room int64) {
			if i == len(s.bars) {
				if room >= s.kinds[0].size*int64(s.kinds[0].need) && paid >= least && (best < 0 || paid < best) {
					best = paid
				}
				return
			}
			for k := 0; k <= s.bars[i].most; k++ {
				count(i+1, paid+int64(k)*s.bars[i].price, room+int64(k)*s.bars[i].room)
			}
		}
		count(0, 0, 0)
		for _, b := range s.bars {
			priced = priced || b.price > 0
		}
		got := s.attain(least)
		switch {
		case best < 0 || !priced:
			if got != least {
				r.Fatalf("nothing is attained and %d becomes %d", least, got)
			}
		case got != best:
			r.Fatalf("from %d: %d, want %d", least, got, best)
		}
	})
}
