package mip

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// drawProblem makes a problem whose whole columns can be counted through, with at most
// one column that need not be whole, the last.
func drawProblem(t *rapid.T) Problem {
	var p Problem
	n := rapid.IntRange(1, 5).Draw(t, "columns")
	divisor := rapid.SampledFrom([]float64{1, 1, 4, 10}).Draw(t, "divisor")
	figure := func(low, high int, name string) float64 {
		return float64(rapid.IntRange(low, high).Draw(t, name)) / divisor
	}
	for j := range n {
		low := float64(rapid.IntRange(-3, 2).Draw(t, "low"))
		c := Column{Cost: figure(-9, 20, "cost"), Low: low, High: low + float64(rapid.IntRange(0, 4).Draw(t, "width")), Integer: true}
		if j == n-1 && n > 1 {
			c.Integer = rapid.Bool().Draw(t, "whole")
		}
		p.Columns = append(p.Columns, c)
	}
	for range rapid.IntRange(0, 5).Draw(t, "rows") {
		r := Row{Low: math.Inf(-1), High: math.Inf(1)}
		for j := range n {
			if v := figure(-5, 7, "coefficient"); v != 0 {
				r.Entries = append(r.Entries, Entry{j, v})
			}
		}
		switch side := figure(-10, 25, "side"); rapid.IntRange(0, 7).Draw(t, "sense") {
		case 0:
			r.Low, r.High = side, side
		case 1:
			r.Low, r.High = side, side+figure(0, 9, "width")
		case 2, 3:
			r.High = side
		default:
			r.Low = side
		}
		p.Rows = append(p.Rows, r)
	}
	return p
}

// brute counts through all whole values; the last column, if it is not whole, is best
// at an end of what the rows leave it.
func brute(p Problem) float64 {
	best := math.Inf(1)
	x := make([]float64, len(p.Columns))
	var fill func(j int)
	fill = func(j int) {
		if j < len(x) && p.Columns[j].Integer {
			for x[j] = p.Columns[j].Low; x[j] <= p.Columns[j].High; x[j]++ {
				fill(j + 1)
			}
			return
		}
		ends := []float64{0}
		if j < len(x) {
			ends = endsOf(p, x, j)
		}
		for _, end := range ends {
			if j < len(x) {
				x[j] = end
			}
			if p.keeps(x) {
				best = min(best, p.value(x))
			}
		}
	}
	fill(0)
	return best
}

// endsOf lists the values of column j at which a limit holds exactly.
func endsOf(p Problem, x []float64, j int) []float64 {
	ends := []float64{p.Columns[j].Low, p.Columns[j].High}
	for _, r := range p.Rows {
		sum, own := 0.0, 0.0
		for _, e := range r.Entries {
			if e.Column == j {
				own += e.Value
				continue
			}
			sum += e.Value * x[e.Column]
		}
		for _, side := range []float64{r.Low, r.High} {
			if own != 0 && finite(side) {
				ends = append(ends, (side-sum)/own)
			}
		}
	}
	return ends
}

// The expected value is found by counting through all points.
func TestBrute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawProblem(t)
		want := brute(p)
		r, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if math.IsInf(want, 1) {
			if r.Status != Infeasible || r.X != nil {
				t.Fatalf("%v with %v, though there is no point", r.Status, r.X)
			}
			return
		}
		if r.Status != Proven || !p.keeps(r.X) {
			t.Fatalf("%v: %v", r.Status, r.X)
		}
		if near := 1e-6 * (1 + math.Abs(want)); math.Abs(r.Value-want) > near || r.Bound > r.Value || r.Bound < want-near {
			t.Fatalf("%.12g, bound %.12g, want %.12g", r.Value, r.Bound, want)
		}
	})
}

// Wider problems, so that cuts and branching have work: seven columns from 0 to 4, the
// first two of which are gates (0 or 1) that the others need. Counted through as well.
func TestBruteGates(t *testing.T) {
	for seed := range uint64(30) {
		r := rand.New(rand.NewPCG(seed, 2))
		p := Problem{Columns: []Column{{Cost: 900, High: 1, Integer: true}, {Cost: 1400, High: 1, Integer: true}}}
		for j := 2; j < 7; j++ {
			p.Columns = append(p.Columns, Column{Cost: float64(100 + r.IntN(500)), High: 4, Integer: true})
			p.Rows = append(p.Rows, Row{[]Entry{{j, 1}, {j % 2, -4}}, math.Inf(-1), 0})
		}
		for range 4 {
			row := Row{Low: float64(5 + r.IntN(12)), High: math.Inf(1)}
			for j := 2; j < 7; j++ {
				if v := r.IntN(6); v > 0 {
					row.Entries = append(row.Entries, Entry{j, float64(v)})
				}
			}
			p.Rows = append(p.Rows, row)
		}
		want := brute(p)
		got, err := Solve(context.Background(), p, Options{})
		if err != nil || got.Value != want || math.IsInf(want, 1) != (got.Status == Infeasible) {
			t.Errorf("seed %d: %v %v, want %v: %v", seed, got.Status, got.Value, want, err)
		}
	}
}
