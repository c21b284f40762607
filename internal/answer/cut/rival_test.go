package cut

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"dropleg/engine/num/numtest"
)

// TestGeneratedAgainstGlpsol solves generated questions once more by glpsol: an integer
// programme over every full pattern, which this test lists for itself. The price must
// be glpsol's where that comes to an end, and never above what it found.
func TestGeneratedAgainstGlpsol(t *testing.T) {
	for _, kind := range kindsMade {
		for seed := range uint64(6) {
			m := generate(kind, seed)
			t.Run(m.name, func(t *testing.T) {
				p, err := Solve(context.Background(), m.ask, nil)
				if err != nil || !p.Proven {
					t.Fatalf("%v, proven %t", err, p.Proven)
				}
				faults(t, m.ask, p)
				programme, ok := patternModel(m.ask, 4000)
				if !ok {
					t.Skip("too many patterns for the other solver")
				}
				rival := numtest.Glpsol(t, programme, 4)
				least := math.Round(rival.Best)
				if rival.Ended && float64(p.Price) != least || float64(p.Price) > least {
					t.Errorf("price %d, glpsol %v (ended: %t)", p.Price, least, rival.Ended)
				}
			})
		}
	}
}

// patternModel writes the programme in the LP format.
func patternModel(q Question, most int) (string, bool) {
	price, rows, count := []string{}, make([][]string, len(q.Pieces)+len(q.Stocks)), 0
	for s, stock := range q.Stocks {
		room := stock.Length - q.EndTrim + q.Kerf
		take := make([]int, len(q.Pieces))
		var list func(i int, room Length)
		list = func(i int, room Length) {
			if i < len(q.Pieces) {
				size := q.Pieces[i].Length + q.Kerf
				for take[i] = min(q.Pieces[i].Count, int(room/size)); take[i] >= 0; take[i]-- {
					list(i+1, room-Length(take[i])*size)
				}
				return
			}
			for k, n := range take {
				if n < q.Pieces[k].Count && q.Pieces[k].Length+q.Kerf <= room {
					return // one more fits
				}
			}
			x := fmt.Sprint("x", count)
			count++
			price = append(price, fmt.Sprint(stock.Price, " ", x))
			for k, n := range take {
				if n > 0 {
					rows[k] = append(rows[k], fmt.Sprint(n, " ", x))
				}
			}
			rows[len(q.Pieces)+s] = append(rows[len(q.Pieces)+s], x)
			if count > most {
				panic(errTooMany)
			}
		}
		if !within(func() { list(0, room) }) {
			return "", false
		}
	}
	return modelText(q, price, rows), true
}

// modelText writes down the prices of all patterns, and of each row what its patterns
// count for.
func modelText(q Question, price []string, rows [][]string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "Minimize\n obj: %s\nSubject To\n", strings.Join(price, " + "))
	for k, p := range q.Pieces {
		fmt.Fprintf(&b, " p%d: %s >= %d\n", k, strings.Join(rows[k], " + "), p.Count)
	}
	for s, stock := range q.Stocks {
		if stock.Available != nil && len(rows[len(q.Pieces)+s]) > 0 {
			fmt.Fprintf(&b, " s%d: %s <= %d\n", s, strings.Join(rows[len(q.Pieces)+s], " + "), *stock.Available)
		}
	}
	b.WriteString("General\n")
	for i := range price {
		fmt.Fprintf(&b, " x%d\n", i)
	}
	b.WriteString("End\n")
	return b.String()
}

// within tells whether list came to its end.
func within(list func()) (ok bool) {
	defer func() { ok = recover() == nil }()
	list()
	return true
}
