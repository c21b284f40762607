package cut

import (
	"context"
	"math/rand/v2"
	"testing"
)

// tightQuestion makes a question that has plans and whose price is seldom that of the
// material: pieces of a quarter to nine tenths of a stock length.
func tightQuestion(r *rand.Rand, pieces int) Question {
	q := Question{Kerf: Length(r.IntN(3)), EndTrim: Length(r.IntN(2)), Useful: 5}
	q.Stocks = []Stock{{ID: "long", Length: 60, Price: int64(between(r, 8, 12))}}
	if r.IntN(2) == 0 {
		n := between(r, 1, 3)
		q.Stocks = append(q.Stocks, Stock{ID: "short", Length: Length(between(r, 30, 45)), Price: int64(between(r, 3, 7)), Available: &n})
	}
	if r.IntN(2) == 0 {
		n := 1
		q.Stocks = append(q.Stocks, Stock{ID: "left", Length: Length(between(r, 20, 50)), Available: &n, Leftover: true})
	}
	var lengths []int
	for range pieces {
		lengths = append(lengths, between(r, 15, 54))
	}
	q = q.with(lengths)
	for i := range q.Pieces {
		q.Pieces[i].Length /= 10
	}
	return q
}

// Expected prices are by brute force.
func TestTightAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 150 {
		q := tightQuestion(r, between(r, 6, 10))
		p, err := Solve(context.Background(), q, nil)
		if err != nil {
			t.Fatal(err)
		}
		if want := bruteForce(q); !p.Proven || p.Price != want {
			t.Errorf("price %d, bound %d, brute force %d: %+v", p.Price, p.Bound, want, q)
		}
		faults(t, q, p)
	}
}

// Expected prices are by brute force over every place of the joint.
func TestTightJoints(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	paying := 0
	for range 150 {
		q := tightQuestion(r, between(r, 4, 6))
		u := Union{Price: int64(r.IntN(3)), Length: Length(r.IntN(2)), Shortest: Length(between(r, 3, 8))}
		known, err := Solve(context.Background(), q, nil)
		if err != nil {
			t.Fatal(err)
		}
		piece := r.IntN(len(q.Pieces))
		answers, err := Joinable(context.Background(), q, known, u, []int{piece})
		if err != nil {
			t.Fatal(err)
		}
		want, a := bruteJoin(q, piece, u), answers[0]
		if a.Pays != (want+u.Price < known.Price) || !a.Proven || a.Pays && a.Plan.Price != want {
			t.Errorf("pays %t, proven %t, stock %d; brute force %d instead of %d with a union of %d", a.Pays, a.Proven, a.Plan.Price, want, known.Price, u.Price)
		}
		if a.Pays {
			paying++
			faults(t, q, a.Plan, a)
		}
	}
	if paying == 0 {
		t.Error("no joint paid: nothing was tried")
	}
	t.Log(paying, "joints pay")
}
