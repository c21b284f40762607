package cut

import (
	"testing"
)

// faults gives what is wrong with a plan, by the words of the question alone.
func faults(t *testing.T, q Question, p Plan, joined ...Joining) {
	t.Helper()
	price, used := int64(0), make([]int, len(q.Stocks))
	seen := map[copyOf]Length{}
	for _, b := range p.Bars {
		stock := q.Stocks[b.Stock]
		price += stock.Price
		used[b.Stock]++
		sum := q.EndTrim
		for i, c := range b.Cuts {
			if i > 0 {
				sum += q.Kerf
				if before := b.Cuts[i-1]; c.Piece < before.Piece || c.Piece == before.Piece && c.Copy <= before.Copy && !c.Joined {
					t.Errorf("pieces do not stand as they were given: %+v", b.Cuts)
				}
			}
			sum += c.Length
			k := copyOf{c.Piece, c.Copy}
			if _, twice := seen[k]; twice && !c.Joined {
				t.Errorf("piece %+v is cut twice", c)
			}
			seen[k] += c.Length
		}
		if len(b.Cuts) == 0 || sum > stock.Length {
			t.Errorf("a bar of %d holds %d pieces of %d with trim and kerfs", stock.Length, len(b.Cuts), sum)
		}
		if want := max(0, stock.Length-sum-q.Kerf); b.Open != want || b.Named != (want > 0 && want >= q.Useful) {
			t.Errorf("open end %d (named %t), want %d", b.Open, b.Named, want)
		}
	}
	for i, s := range q.Stocks {
		if s.Available != nil && used[i] > *s.Available {
			t.Errorf("%d of stock %q, %d are available", used[i], s.ID, *s.Available)
		}
	}
	checkSeen(t, q, seen, len(joined) > 0)
	if price != p.Price || p.Bound > p.Price || p.Proven != (p.Bound == p.Price) {
		t.Errorf("price %d, bound %d, proven %t; the bars cost %d", p.Price, p.Bound, p.Proven, price)
	}
}

type copyOf struct{ piece, copy int }

// checkSeen holds that each copy of each piece was cut, at its length.
func checkSeen(t *testing.T, q Question, seen map[copyOf]Length, joined bool) {
	t.Helper()
	total := 0
	for i, piece := range q.Pieces {
		total += piece.Count
		for n := range piece.Count {
			if got := seen[copyOf{i, n}]; got != piece.Length && !joined {
				t.Errorf("copy %d of piece %d is cut %d long, want %d", n, i, got, piece.Length)
			}
		}
	}
	if len(seen) != total {
		t.Errorf("%d pieces are cut, want %d", len(seen), total)
	}
}
