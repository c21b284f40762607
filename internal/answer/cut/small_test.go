package cut

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// smallQuestion draws a question that brute force can answer.
func smallQuestion(t *rapid.T, pieces int) Question {
	q := Question{
		Kerf:    Length(rapid.IntRange(0, 3).Draw(t, "kerf")),
		EndTrim: Length(rapid.IntRange(0, 2).Draw(t, "trim")),
		Useful:  Length(rapid.IntRange(0, 10).Draw(t, "useful")),
	}
	for i := range rapid.IntRange(1, 3).Draw(t, "stocks") {
		s := Stock{
			ID:     fmt.Sprint("s", i),
			Length: Length(rapid.IntRange(10, 40).Draw(t, "length")),
			Price:  int64(rapid.IntRange(0, 12).Draw(t, "price")),
		}
		if rapid.Bool().Draw(t, "limited") {
			n := rapid.IntRange(0, 3).Draw(t, "available")
			s.Available, s.Leftover = &n, rapid.Bool().Draw(t, "leftover")
		}
		q.Stocks = append(q.Stocks, s)
	}
	for i, n := 0, rapid.IntRange(1, pieces).Draw(t, "pieces"); n > 0; i++ {
		count := rapid.IntRange(1, n).Draw(t, "count")
		n -= count
		q.Pieces = append(q.Pieces, Piece{fmt.Sprint("p", i), Length(rapid.IntRange(2, 30).Draw(t, "piece")), count})
	}
	return q
}

// Expected prices are by brute force (brute_test.go).
func TestSmallAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		q := smallQuestion(r, 9)
		want := bruteForce(q)
		p, err := Solve(context.Background(), q, nil)
		var long *TooLongError
		var short *NotEnoughError
		switch {
		case errors.As(err, &long), errors.As(err, &short):
			if want < never {
				r.Fatalf("%v, and there is a plan for %d", err, want)
			}
		case err != nil:
			r.Fatal(err)
		default:
			if !p.Proven || p.Price != want {
				r.Fatalf("price %d, bound %d; brute force has %d", p.Price, p.Bound, want)
			}
			faults(t, q, p)
		}
		if t.Failed() {
			r.Fatalf("%+v", q)
		}
	})
}

// Expected savings are by brute force over every place of the joint.
func TestJoinableAgainstBruteForce(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		q := smallQuestion(r, 6)
		u := Union{
			Price:    int64(rapid.IntRange(0, 6).Draw(r, "union")),
			Length:   Length(rapid.IntRange(0, 1).Draw(r, "union length")),
			Shortest: Length(rapid.IntRange(1, 6).Draw(r, "shortest")),
		}
		piece := rapid.IntRange(0, len(q.Pieces)-1).Draw(r, "joined")
		known, err := Solve(context.Background(), q, nil)
		if err != nil {
			known = Plan{}
		}
		answers, err := Joinable(context.Background(), q, known, u, []int{piece})
		want := bruteJoin(q, piece, u)
		var long *TooLongError
		if errors.As(err, &long) && want == never {
			return
		}
		if err != nil {
			r.Fatal(err)
		}
		a := answers[0]
		pays := want < never && (known.Bars == nil || want+u.Price < known.Price)
		if a.Pays != pays || !a.Proven {
			r.Fatalf("pays %t (proven %t), brute force: stock for %d instead of %d", a.Pays, a.Proven, want, known.Price)
		}
		if !a.Pays {
			return
		}
		if a.Plan.Price != want || known.Bars != nil && a.Saves != known.Price-want-u.Price {
			r.Fatalf("stock for %d, saves %d; brute force %d instead of %d", a.Plan.Price, a.Saves, want, known.Price)
		}
		if a.Ends[0]+a.Ends[1]+u.Length != q.Pieces[piece].Length || min(a.Ends[0], a.Ends[1]) < u.Shortest {
			r.Fatalf("ends %v of a piece of %d", a.Ends, q.Pieces[piece].Length)
		}
		faults(t, q, a.Plan, a)
		if t.Failed() {
			r.Fatalf("%+v", q)
		}
	})
}
