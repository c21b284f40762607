package steiner

import (
	"context"
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// brute tries every set of edges.
func brute(p *Problem) int64 {
	least := int64(math.MaxInt64)
	for set := range 1 << len(p.Edges) {
		var edges []int
		for e := range p.Edges {
			if set>>e&1 == 1 {
				edges = append(edges, e)
			}
		}
		if price, _, ok := p.PriceOf(edges); ok {
			least = min(least, price)
		}
	}
	return least
}

// grid is a grid of nodes with edges between neighbours; turning costs by whether the
// way goes on in its direction. Terminals hang on legs of their own.
func grid(wide, high int, length func(a, b int) int64, legs []int, turn int64) Problem {
	p := Problem{Nodes: wide*high + len(legs)}
	var flat []bool // by edge
	add := func(a, b int, level bool) {
		p.Edges = append(p.Edges, Edge{a, b, length(a, b)})
		flat = append(flat, level)
	}
	for y := range high {
		for x := range wide {
			v := y*wide + x
			if x+1 < wide {
				add(v, v+1, true)
			}
			if y+1 < high {
				add(v, v+wide, false)
			}
		}
	}
	for i, v := range legs {
		add(v, wide*high+i, false)
		p.Terminals = append(p.Terminals, wide*high+i)
	}
	mains := len(p.Edges) - len(legs)
	p.Turn = func(_, in, out int) int64 {
		if in >= mains || out >= mains || flat[in] == flat[out] {
			return 0
		}
		return turn
	}
	return p
}

// TestBruteForce: on small grids with bends no set of edges is cheaper; the proof is
// whole where a turn costs no more than an edge, since then no crossing pays.
func TestBruteForce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide, high := rapid.IntRange(2, 3).Draw(t, "wide"), rapid.IntRange(2, 3).Draw(t, "high")
		legs := rapid.SliceOfNDistinct(rapid.IntRange(0, wide*high-1), 2, 4, rapid.ID[int]).Draw(t, "legs")
		draw := rapid.Int64Range(5, 30)
		turn := rapid.Int64Range(0, 40).Draw(t, "turn")
		p := grid(wide, high, func(int, int) int64 { return draw.Draw(t, "length") }, legs, turn)
		want := brute(&p)
		a, err := Solve(context.Background(), p, Options{})
		if err != nil || a.Price < want || a.Bound > want || a.Proven && a.Price != want {
			t.Fatalf("%+v, %v; least is %d", a, err, want)
		}
		price, _, ok := p.PriceOf(edgesOf(a))
		if !ok || price != a.Price {
			t.Fatalf("the tree costs %d, %v, and not %d", price, ok, a.Price)
		}
		if turn <= 5 && !a.Proven {
			t.Fatalf("not proven: %+v", a)
		}
	})
}

func edgesOf(a *Answer) []int {
	var out []int
	for _, x := range a.Tree {
		out = append(out, x.Edge)
	}
	return out
}

// TestParts: questions that are split find what labels find.
func TestParts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		legs := rapid.SliceOfNDistinct(rapid.IntRange(0, 41), 3, 8, rapid.ID[int]).Draw(t, "legs")
		d := dice(rapid.Uint64().Draw(t, "seed"))
		p := grid(7, 6, func(int, int) int64 { return int64(5 + d.roll(20)) }, legs, 7)
		a, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		terminal := make([]bool, p.Nodes)
		for _, v := range p.Terminals {
			terminal[v] = true
		}
		g := arriving(&p, p.links(terminal), p.Terminals)
		s := &search{price: far}
		da, err := ascend(context.Background(), g, nil)
		if err != nil {
			t.Fatal(err)
		}
		s.split(context.Background(), g, da)
		if s.price != a.Bound || s.bound != a.Bound {
			t.Fatalf("split: %d, not below %d; by labels %d", s.price, s.bound, a.Bound)
		}
	})
}

func TestRefusals(t *testing.T) {
	for name, p := range map[string]Problem{
		"no terminal":   {Nodes: 2},
		"far terminal":  {Nodes: 2, Terminals: []int{2}},
		"edge nowhere":  {Nodes: 2, Terminals: []int{0}, Edges: []Edge{{0, 5, 1}}},
		"price below 0": {Nodes: 2, Terminals: []int{0}, Edges: []Edge{{0, 1, -1}}},
	} {
		if _, err := Solve(context.Background(), p, Options{}); !errors.Is(err, ErrProblem) {
			t.Errorf("%s: %v", name, err)
		}
	}
	var apart *ApartError
	if _, err := Solve(context.Background(), Problem{Nodes: 3, Terminals: []int{0, 1, 2}, Edges: []Edge{{0, 1, 1}}}, Options{}); !errors.As(err, &apart) || apart.Node != 2 {
		t.Errorf("%v", err)
	}
	a, err := Solve(context.Background(), Problem{Nodes: 3, Terminals: []int{1, 1}}, Options{})
	if err != nil || !a.Proven || a.Price != 0 {
		t.Errorf("one terminal: %+v, %v", a, err)
	}
	ended, stop := context.WithCancel(context.Background())
	stop()
	p := grid(5, 5, func(int, int) int64 { return 3 }, []int{0, 7, 24, 20}, 2)
	if _, err := Solve(ended, p, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled before any tree: %v", err)
	}
}
