package cut

import (
	"context"
	"testing"
)

var referenceUnion = Union{Price: 100, Shortest: 3000}

// A joint that pays is paid for again with its two ends as pieces of their own: the
// price must be the same, since no other place of the joint was found to be cheaper.
func TestJoinedEndsAsPieces(t *testing.T) {
	paying := 0
	for _, r := range references(t) {
		known, err := Solve(context.Background(), r.ask, nil)
		if err != nil {
			t.Fatal(err)
		}
		answers, err := Joinable(context.Background(), r.ask, known, referenceUnion, everyPiece(r.ask))
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range answers {
			if !a.Pays {
				continue
			}
			paying++
			two := r.ask
			two.Pieces = append([]Piece(nil), two.Pieces...)
			two.Pieces[a.Piece].Count--
			two.Pieces = append(two.Pieces, Piece{"first", a.Ends[0], 1}, Piece{"second", a.Ends[1], 1})
			p, err := Solve(context.Background(), two, nil)
			if err != nil || p.Price != a.Plan.Price || a.Saves <= 0 {
				t.Errorf("%s, piece %d: %d with its ends %v as pieces, %d joined (%v)", r.name, a.Piece, p.Price, a.Ends, a.Plan.Price, err)
			}
			faults(t, r.ask, a.Plan, a)
		}
	}
	if paying == 0 {
		t.Error("no joint paid: nothing was tried")
	}
}

func everyPiece(q Question) []int {
	var all []int
	for i := range q.Pieces {
		all = append(all, i)
	}
	return all
}

// BenchmarkJoinable asks for every piece in turn.
func BenchmarkJoinable(b *testing.B) {
	for _, r := range references(b) {
		b.Run(r.name, func(b *testing.B) {
			known, err := Solve(context.Background(), r.ask, nil)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, err := Joinable(context.Background(), r.ask, known, referenceUnion, everyPiece(r.ask)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
