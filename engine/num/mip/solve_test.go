package mip

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
)

var inf = math.Inf(1)

func TestBadProblems(t *testing.T) {
	column := Column{Cost: 1, High: 1, Integer: true}
	for name, p := range map[string]Problem{
		"cost NaN":       {Columns: []Column{{Cost: math.NaN(), High: 1}}},
		"cost infinite":  {Columns: []Column{{Cost: inf, High: 1}}},
		"low of +Inf":    {Columns: []Column{{Low: inf, High: inf}}},
		"unknown column": {Columns: []Column{column}, Rows: []Row{{Entries: []Entry{{1, 1}}}}},
		"value NaN":      {Columns: []Column{column}, Rows: []Row{{Entries: []Entry{{0, math.NaN()}}}}},
		"side NaN":       {Columns: []Column{column}, Rows: []Row{{Low: math.NaN()}}},
	} {
		if _, err := Solve(context.Background(), p, Options{}); !errors.Is(err, ErrProblem) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Each answer can be seen by eye.
func TestSmall(t *testing.T) {
	whole := func(cost, low, high float64) Column { return Column{cost, low, high, true} }
	for _, row := range []struct {
		name   string
		p      Problem
		status Status
		value  float64
	}{
		{"nothing asked", Problem{}, Proven, 0},
		{"at its bounds", Problem{Columns: []Column{whole(2, 3, 9), whole(-1, 0, 4)}}, Proven, 2},
		{"crossed bounds", Problem{Columns: []Column{whole(1, 2, 1)}}, Infeasible, inf},
		{"no whole value between", Problem{Columns: []Column{whole(1, 0.2, 0.8)}}, Infeasible, inf},
		{"row without entries", Problem{Columns: []Column{whole(1, 0, 1)}, Rows: []Row{{Low: 1, High: inf}}}, Infeasible, inf},
		{"falls without end", Problem{Columns: []Column{{-1, 0, inf, false}}}, Unbounded, inf},
		{"no bounds, held by a row", Problem{Columns: []Column{{1, -inf, inf, true}}, Rows: []Row{{[]Entry{{0, 2}}, -7, inf}}}, Proven, -3},
		{"parity", Problem{
			Columns: []Column{whole(1, 0, 50), whole(1, 0, 50)},
			Rows:    []Row{{[]Entry{{0, 2}, {1, 4}}, 7, 7}},
		}, Infeasible, inf},
		{"one column twice in a row", Problem{Columns: []Column{whole(3, 0, 9)}, Rows: []Row{{[]Entry{{0, 1}, {0, 1}}, 5, inf}}}, Proven, 9},
		{"part stays broken", Problem{
			Columns: []Column{whole(3, 0, 9), {1, 0, 0.5, false}},
			Rows:    []Row{{[]Entry{{0, 1}, {1, 1}}, 2.25, inf}},
		}, Proven, 6.25},
	} {
		r, err := Solve(context.Background(), row.p, Options{})
		if err != nil || r.Status != row.status || r.Value != row.value {
			t.Errorf("%s: %v %v %v, want %v %v", row.name, r.Status, r.Value, err, row.status, row.value)
		}
	}
}

// cover makes a covering problem that takes some branching.
func cover(seed uint64, columns, rows int) Problem {
	r := rand.New(rand.NewPCG(seed, 1))
	var p Problem
	for range columns {
		p.Columns = append(p.Columns, Column{Cost: float64(50 + r.IntN(300)), High: 20, Integer: true})
	}
	for range rows {
		row := Row{Low: float64(10 + r.IntN(20)), High: inf}
		for j := range columns {
			if r.IntN(3) == 0 {
				row.Entries = append(row.Entries, Entry{j, float64(1 + r.IntN(8))})
			}
		}
		p.Rows = append(p.Rows, row)
	}
	return p
}

func TestCutShort(t *testing.T) {
	p := cover(3, 40, 30)
	whole, err := Solve(context.Background(), p, Options{})
	if err != nil || whole.Status != Proven {
		t.Fatal(whole.Status, err)
	}
	few, err := Solve(context.Background(), p, Options{Nodes: 3})
	if err != nil || few.Status != CutShort || few.Nodes > 3 {
		t.Fatalf("%v after %d nodes: %v", few.Status, few.Nodes, err)
	}
	if few.Bound > whole.Value || few.Value < whole.Value {
		t.Errorf("%v to %v does not hold %v", few.Bound, few.Value, whole.Value)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	none, err := Solve(ctx, p, Options{})
	if err != nil || none.Status != CutShort || none.Bound > whole.Value {
		t.Errorf("cancelled: %v, bound %v: %v", none.Status, none.Bound, err)
	}
}

func TestProgress(t *testing.T) {
	p := cover(5, 40, 30)
	last := inf
	r, err := Solve(context.Background(), p, Options{Progress: func(best, bound float64, _ int) {
		if best > last || bound > best {
			t.Errorf("best %v after %v, bound %v", best, last, bound)
		}
		last = best
	}})
	if err != nil || last != r.Value {
		t.Errorf("told %v, found %v: %v", last, r.Value, err)
	}
}

func TestSameAnswer(t *testing.T) {
	for seed := range uint64(3) {
		p := cover(seed, 30, 20)
		a, _ := Solve(context.Background(), p, Options{})
		b, _ := Solve(context.Background(), p, Options{})
		if !reflect.DeepEqual(a, b) {
			t.Errorf("seed %d: %v, then %v", seed, a, b)
		}
	}
}

// With steps, the answer lies in the same step as the least cost.
func TestStep(t *testing.T) {
	for seed := range uint64(6) {
		p := cover(seed, 30, 20)
		exact, _ := Solve(context.Background(), p, Options{})
		const step = 40
		r, err := Solve(context.Background(), p, Options{Step: step})
		if err != nil || r.Status != Proven || math.Floor(r.Value/step) != math.Floor(exact.Value/step) || r.Bound > exact.Value {
			t.Errorf("seed %d: %v %v, bound %v, least %v: %v", seed, r.Status, r.Value, r.Bound, exact.Value, err)
		}
	}
}

// A limit or a share on which nothing depends may not change the value.
func TestRowOrder(t *testing.T) {
	p := cover(7, 25, 15)
	want, _ := Solve(context.Background(), p, Options{})
	for i, j := 0, len(p.Rows)-1; i < j; i, j = i+1, j-1 {
		p.Rows[i], p.Rows[j] = p.Rows[j], p.Rows[i]
	}
	p.Rows = append(p.Rows, Row{p.Rows[0].Entries, 0, inf})
	got, _ := Solve(context.Background(), p, Options{})
	if got.Value != want.Value || got.Status != Proven {
		t.Errorf("%v %v, want %v", got.Status, got.Value, want.Value)
	}
}

func BenchmarkCover(b *testing.B) {
	p := cover(3, 40, 30)
	for b.Loop() {
		if _, err := Solve(context.Background(), p, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}
