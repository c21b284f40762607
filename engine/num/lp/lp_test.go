package lp

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"
)

// system is a small programme in plain numbers, for an answer by other means.
type system struct {
	sense []Sense
	right []float64
	cost  []float64
	rows  [][]float64
}

func draw(r *rand.Rand) system {
	m, n := 2+r.IntN(2), 3+r.IntN(3)
	s := system{}
	for range n {
		s.cost = append(s.cost, 0.2+r.Float64())
	}
	for i := range m {
		sense := AtLeast
		if i == m-1 && r.IntN(2) == 0 {
			sense = AtMost
		}
		row := make([]float64, n)
		for j := range row {
			row[j] = float64(r.IntN(4))
		}
		s.sense, s.right, s.rows = append(s.sense, sense), append(s.right, float64(1+r.IntN(9))), append(s.rows, row)
	}
	return s
}

const penalty = 50

func (s system) program() *Program {
	p := New(s.sense, s.right, penalty)
	for j, c := range s.cost {
		p.AddColumn(c, s.column(j))
	}
	return p
}

func (s system) column(j int) []Entry {
	var entries []Entry
	for i, row := range s.rows {
		if row[j] != 0 {
			entries = append(entries, Entry{i, row[j]})
		}
	}
	return entries
}

// byCorners gives the least cost among all corners: every choice of as many variables
// as there are rows, slacks and bought-off parts among them, solved by Cramer's rule.
func (s system) byCorners() float64 {
	m := len(s.rows)
	var columns [][]float64
	costs := append([]float64(nil), s.cost...)
	for j := range s.cost {
		column := make([]float64, m)
		for i := range m {
			column[i] = s.rows[i][j]
		}
		columns = append(columns, column)
	}
	for i := range m {
		sign := 1.0
		if s.sense[i] == AtLeast {
			sign = -1
		}
		over, bought := make([]float64, m), make([]float64, m)
		over[i], bought[i] = sign, -sign
		columns, costs = append(columns, over, bought), append(costs, 0, penalty)
	}
	best := math.Inf(1)
	var pick func(from int, chosen []int)
	pick = func(from int, chosen []int) {
		if len(chosen) == m {
			best = min(best, corner(columns, costs, s.right, chosen))
			return
		}
		for j := from; j < len(columns); j++ {
			pick(j+1, append(chosen[:len(chosen):len(chosen)], j))
		}
	}
	pick(0, nil)
	return best
}

func corner(columns [][]float64, costs, right []float64, chosen []int) float64 {
	square := make([][]float64, len(chosen))
	for k, j := range chosen {
		square[k] = columns[j]
	}
	det := determinant(square)
	if math.Abs(det) < 1e-9 {
		return math.Inf(1)
	}
	cost := 0.0
	for k, j := range chosen {
		keep := square[k]
		square[k] = right
		x := determinant(square) / det
		square[k] = keep
		if x < -1e-9 {
			return math.Inf(1)
		}
		cost += x * costs[j]
	}
	return cost
}

func determinant(a [][]float64) float64 {
	if len(a) == 1 {
		return a[0][0]
	}
	sum, sign := 0.0, 1.0
	for k := range a {
		var minor [][]float64
		for i, row := range a {
			if i != k {
				minor = append(minor, row[1:])
			}
		}
		sum += sign * a[k][0] * determinant(minor)
		sign = -sign
	}
	return sum
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-6*(1+math.Abs(b)) }

// Expected costs are the least over all corners of the programme.
func TestAgainstCorners(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 500 {
		s := draw(r)
		p := s.program()
		if err := p.Dual(context.Background(), math.Inf(1)); err != nil {
			t.Fatal(err)
		}
		want := s.byCorners()
		if !near(p.Cost(), want) {
			t.Fatalf("cost %v, want %v: %+v", p.Cost(), want, s)
		}
		checkMultipliers(t, s, p)
	}
}

// checkMultipliers holds what proves an answer: no column is worth more than it costs,
// and all rows together are worth what the solution costs.
func checkMultipliers(t *testing.T, s system, p *Program) {
	t.Helper()
	y := p.Multipliers()
	sum := 0.0
	for i, r := range s.right {
		sum += y[i] * r
		if s.sense[i] == AtLeast && y[i] < -1e-9 || s.sense[i] == AtMost && y[i] > 1e-9 {
			t.Fatalf("row %d has the multiplier %v", i, y[i])
		}
	}
	for j, c := range s.cost {
		for i, row := range s.rows {
			c -= y[i] * row[j]
		}
		if c < -1e-7 {
			t.Fatalf("column %d is worth %v more than it costs", j, -c)
		}
	}
	if !near(sum, p.Cost()) {
		t.Fatalf("the rows are worth %v, the solution costs %v", sum, p.Cost())
	}
}

// Columns that come one by one give what all at once give.
func TestColumnsLater(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 300 {
		s := draw(r)
		p := New(s.sense, s.right, penalty)
		if err := p.Dual(context.Background(), math.Inf(1)); err != nil {
			t.Fatal(err)
		}
		for j, c := range s.cost {
			p.AddColumn(c, s.column(j))
			if err := p.Primal(context.Background()); err != nil {
				t.Fatal(err)
			}
		}
		if want := s.byCorners(); !near(p.Cost(), want) {
			t.Fatalf("cost %v, want %v: %+v", p.Cost(), want, s)
		}
	}
}

// A row that is added, with a column named twice, gives what a programme gives that has
// it from the start; dropped and restored, all is as before.
func TestRowsLater(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 300 {
		s := draw(r)
		p := s.program()
		if err := p.Dual(context.Background(), math.Inf(1)); err != nil {
			t.Fatal(err)
		}
		var before Basis
		p.Save(&before)
		cost := p.Cost()
		p.AddRow(AtLeast, 3, []int{0, 1, 1})
		if err := p.Dual(context.Background(), math.Inf(1)); err != nil {
			t.Fatal(err)
		}
		row := make([]float64, len(s.cost))
		row[0], row[1] = 1, 2
		more := system{append(s.sense[:len(s.sense):len(s.sense)], AtLeast), append(s.right[:len(s.right):len(s.right)], 3), s.cost, append(s.rows[:len(s.rows):len(s.rows)], row)}
		if want := more.byCorners(); !near(p.Cost(), want) {
			t.Fatalf("cost %v, want %v: %+v", p.Cost(), want, more)
		}
		p.DropRow()
		p.Restore(&before)
		p.SetRight(0, s.right[0]+1)
		p.SetRight(0, s.right[0])
		if err := p.Dual(context.Background(), math.Inf(1)); err != nil || !near(p.Cost(), cost) {
			t.Fatalf("cost %v after the row is gone, was %v (%v)", p.Cost(), cost, err)
		}
	}
}

// More rows than the inverse has room for at first, and more pivots than it is trusted
// for; the expected cost is by hand: each column by itself, rounded up by its own row.
func TestManyRows(t *testing.T) {
	p := New([]Sense{AtLeast}, []float64{100}, 1e4)
	const n = 150
	for range n {
		p.AddColumn(1, []Entry{{0, 1}})
	}
	p.Restart()
	for j := range n {
		p.AddRow(AtLeast, 2, []int{j})
		if err := p.Dual(context.Background(), math.Inf(1)); err != nil {
			t.Fatal(err)
		}
	}
	if !near(p.Cost(), 2*n) {
		t.Errorf("cost %v, want %d", p.Cost(), 2*n)
	}
}

func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p := draw(rand.New(rand.NewPCG(1, 1))).program()
	if p.Dual(ctx, math.Inf(1)) == nil || p.Primal(ctx) == nil {
		t.Error("a cancelled programme was solved")
	}
}
