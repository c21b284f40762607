package network

import (
	"context"
	"testing"

	"pgregory.net/rapid"
)

// networkOf builds a document; it must be sound.
func networkOf(t rapid.TB, d *Document) *Network {
	t.Helper()
	n, problems := d.Network()
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return n
}

func solverOf(t rapid.TB, n *Network) *Solver {
	t.Helper()
	top, err := n.Compile()
	if err != nil {
		t.Fatal(err)
	}
	return top.NewSolver()
}

func TestWarmSolveDoesNotAllocate(t *testing.T) {
	for _, d := range []*Document{treeDocument(40, 1), gridDocument(10, 1)} {
		s := solverOf(t, networkOf(t, d))
		if _, err := s.Solve(context.Background()); err != nil {
			t.Fatal(d.Title, err)
		}
		demand := 0.003
		allocs := testing.AllocsPerRun(20, func() {
			demand *= 1.05
			s.SetDemand(3, demand)
			if _, err := s.Solve(context.Background()); err != nil {
				t.Fatal(d.Title, err)
			}
		})
		if allocs != 0 {
			t.Errorf("%s: %v allocations", d.Title, allocs)
		}
	}
}

var speedCases = []struct {
	name string
	doc  func() *Document
}{
	{"tree40", func() *Document { return treeDocument(40, 1) }},
	{"tree10000", func() *Document { return treeDocument(10000, 1) }},
	{"grid32x32", func() *Document { return gridDocument(32, 1) }},
	{"grid100x100", func() *Document { return gridDocument(100, 1) }},
}

// BenchmarkCold orders the equations, makes a solver and solves from nothing.
func BenchmarkCold(b *testing.B) {
	for _, c := range speedCases {
		b.Run(c.name, func(b *testing.B) {
			n := networkOf(b, c.doc())
			b.ReportAllocs()
			iterations := 0
			for b.Loop() {
				a, err := solverOf(b, n).Solve(context.Background())
				if err != nil {
					b.Fatal(err)
				}
				iterations = a.Iterations
			}
			b.ReportMetric(float64(iterations), "steps")
		})
	}
}

// BenchmarkCompiled solves from nothing with the order already found.
func BenchmarkCompiled(b *testing.B) {
	for _, c := range speedCases {
		b.Run(c.name, func(b *testing.B) {
			s := solverOf(b, networkOf(b, c.doc()))
			b.ReportAllocs()
			for b.Loop() {
				s.Forget()
				if _, err := s.Solve(context.Background()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkWarm changes one demand by a tenth and back, each time from the
// last answer.
func BenchmarkWarm(b *testing.B) {
	for _, c := range speedCases {
		b.Run(c.name, func(b *testing.B) {
			s := solverOf(b, networkOf(b, c.doc()))
			at := len(s.nodes)/8*4 + 4
			for s.Node(at).Demand == 0 {
				at--
			}
			d := s.Node(at).Demand
			b.ReportAllocs()
			iterations := 0
			for i := 0; b.Loop(); i++ {
				s.SetDemand(at, d*(1+0.1*float64(i%2)))
				a, err := s.Solve(context.Background())
				if err != nil {
					b.Fatal(err)
				}
				iterations = a.Iterations
			}
			b.ReportMetric(float64(iterations), "steps")
		})
	}
}

// BenchmarkFromDocument reads the text, builds, orders and solves.
func BenchmarkFromDocument(b *testing.B) {
	d, _ := readReference(b, "../../testdata/ref/bench/network/tree-40.json")
	for b.Loop() {
		if _, problems, err := d.Answer(context.Background(), nil); err != nil || len(problems) > 0 {
			b.Fatal(err, problems)
		}
	}
}
