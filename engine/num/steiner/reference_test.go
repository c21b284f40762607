package steiner

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"
)

// instance is a file of testdata/ref/bench/steiner*: least_length there is proven by the
// Dreyfus–Wagner recursion and again by directed cuts in cbc; that of steiner-published is
// the published optimum of the PACE 2018 challenge.
type instance struct {
	Nodes     int      `json:"nodes"`
	Edges     [][3]int `json:"edges"`
	Terminals []int    `json:"terminals"`
	Least     int64    `json:"least_length"`
}

func (q instance) problem() Problem {
	p := Problem{Nodes: q.Nodes, Terminals: q.Terminals}
	for _, e := range q.Edges {
		p.Edges = append(p.Edges, Edge{e[0], e[1], int64(e[2])})
	}
	return p
}

func TestReferences(t *testing.T) {
	for _, folder := range []string{"steiner", "steiner-published"} {
		files, err := filepath.Glob("../../../testdata/ref/bench/" + folder + "/*.json")
		if err != nil || len(files) < 4 {
			t.Fatalf("%d files, %v", len(files), err)
		}
		for _, file := range files {
			t.Run(filepath.Base(file), func(t *testing.T) {
				raw, err := os.ReadFile(file)
				if err != nil {
					t.Fatal(err)
				}
				var q instance
				if err := json.Unmarshal(raw, &q); err != nil {
					t.Fatal(err)
				}
				p := q.problem()
				a, err := Solve(context.Background(), p, Options{})
				if err != nil || a.Price != q.Least || !a.Proven || a.Bound != q.Least {
					t.Fatalf("%+v, %v; least is %d", a, err, q.Least)
				}
				// The turns of nothing are no turns: the other digraph answers the same.
				p.Turn = func(int, int, int) int64 { return 0 }
				b, err := Solve(context.Background(), p, Options{})
				if err != nil || b.Price != q.Least || !b.Proven {
					t.Errorf("by ways of arriving: %+v, %v; least is %d", b, err, q.Least)
				}
			})
		}
	}
}
