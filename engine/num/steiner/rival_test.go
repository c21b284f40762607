package steiner

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"dropleg/engine/num/numtest"
)

// TestRival holds bounds against glpsol (GNU Linear Programming Kit), which reads a
// formulation of its own below: for each terminal a flow of one from the root, along
// ways that are paid for as soon as any flow takes them. It shares no code with the search.
func TestRival(t *testing.T) {
	compared := 0
	for seed := range uint64(12) {
		d := dice(1000 + seed)
		wide, high := 4+d.roll(3), 3+d.roll(2)
		var legs []int
		used := map[int]bool{}
		for len(legs) < 4+d.roll(3) {
			if v := d.roll(wide * high); !used[v] {
				used[v] = true
				legs = append(legs, v)
			}
		}
		p := grid(wide, high, func(int, int) int64 { return int64(10 + d.roll(40)) }, legs, int64(d.roll(25)))
		a, err := Solve(context.Background(), p, Options{})
		if err != nil {
			t.Fatal(err)
		}
		rival := numtest.Glpsol(t, rivalText(&p), 10)
		want := int64(math.Round(rival.Best))
		if !rival.Ended {
			t.Logf("seed %d: not proven by glpsol in its time, %d here", seed, a.Bound)
			continue
		}
		compared++
		if a.Bound != want || a.Price < want {
			t.Errorf("seed %d: %d, not below %d; glpsol %d", seed, a.Price, a.Bound, want)
		}
	}
	if compared < 6 {
		t.Errorf("%d compared", compared)
	}
}

// rivalText is the problem in CPLEX LP form. A state is an edge gone along in one
// direction; a move goes from one state to the next, or from the root into a first one.
func rivalText(p *Problem) string {
	type state struct{ edge, to int }
	var states []state
	for i, e := range p.Edges {
		states = append(states, state{i, e.A}, state{i, e.B})
	}
	type move struct {
		from, to int // −1: the root
		price    int64
	}
	var moves []move
	tail := func(s state) int { return p.Edges[s.edge].A + p.Edges[s.edge].B - s.to }
	for k, s := range states {
		if tail(s) == p.Terminals[0] {
			moves = append(moves, move{-1, k, p.Edges[s.edge].Price})
		}
		for i, r := range states {
			if r.to == tail(s) && r.edge != s.edge {
				moves = append(moves, move{i, k, p.Edges[s.edge].Price + p.Turn(r.to, r.edge, s.edge)})
			}
		}
	}
	var b, bounds, whole strings.Builder
	b.WriteString("Minimize\n cost:")
	for m, v := range moves {
		fmt.Fprintf(&b, " + %d y%d\n", v.price, m)
		fmt.Fprintf(&bounds, " 0 <= y%d <= 1\n", m)
		fmt.Fprintf(&whole, " y%d\n", m)
	}
	b.WriteString("Subject To\n")
	for _, t := range p.Terminals[1:] {
		for k, s := range states { // what comes to a state goes on, or ends at the terminal
			line := ""
			for m, v := range moves {
				if v.to == k {
					line += fmt.Sprintf(" + f%d_%d", t, m)
				}
				if v.from == k {
					line += fmt.Sprintf(" - f%d_%d", t, m)
				}
			}
			if line == "" {
				continue
			}
			if s.to == t {
				fmt.Fprintf(&b, "%s - e%d_%d = 0\n", line, t, k)
			} else {
				fmt.Fprintf(&b, "%s = 0\n", line)
			}
		}
		for k, s := range states {
			if s.to == t {
				fmt.Fprintf(&b, " + e%d_%d\n", t, k)
			}
		}
		b.WriteString(" = 1\n")
		for m := range moves {
			fmt.Fprintf(&b, " y%d - f%d_%d >= 0\n", m, t, m)
		}
	}
	return b.String() + "Bounds\n" + bounds.String() + "Binary\n" + whole.String() + "End\n"
}
