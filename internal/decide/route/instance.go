package route

import (
	"context"
	"errors"
	"fmt"
	"math"

	"dropleg/engine/num/steiner"
)

// Instance is a bare question as a document: a graph by its edges [node, node, length]
// and the nodes to be joined, without a shop.
type Instance struct {
	Title     string       `json:"title"`
	Nodes     int          `json:"nodes"`
	Edges     [][3]float64 `json:"edges"`
	Terminals []int        `json:"terminals"`
}

// Answered is the answer to an instance, in the keys of such documents.
type Answered struct {
	Title  string       `json:"title"`
	Least  float64      `json:"least_length"`
	Proven bool         `json:"proven"`
	Bound  float64      `json:"bound"`
	Edges  [][3]float64 `json:"edges"` // as in the instance
}

// grain is what one unit of length of an instance is counted in where its lengths are
// no whole numbers.
const grain = 1e6

// Solve answers an instance; where ctx ends first, with the best so far. The error says
// what cannot be used.
func (q *Instance) Solve(ctx context.Context, progress func(best, bound float64)) (*Answered, error) {
	p, scale, err := q.problem()
	if err != nil {
		return nil, err
	}
	o := steiner.Options{}
	if progress != nil {
		o.Progress = func(best, bound int64) { progress(float64(best)/scale, float64(bound)/scale) }
	}
	a, err := steiner.Solve(ctx, p, o)
	var apart *steiner.ApartError
	if errors.As(err, &apart) {
		return nil, fmt.Errorf("no edges lead from node %d to node %d", q.Terminals[0], apart.Node)
	}
	if err != nil {
		return nil, err
	}
	out := &Answered{Title: q.Title, Least: float64(a.Price) / scale, Proven: a.Proven, Bound: float64(a.Bound) / scale, Edges: [][3]float64{}}
	for _, t := range a.Tree {
		out.Edges = append(out.Edges, q.Edges[t.Edge])
	}
	return out, nil
}

func (q *Instance) problem() (steiner.Problem, float64, error) {
	scale := 1.0
	for i, e := range q.Edges {
		if e[0] != math.Trunc(e[0]) || e[1] != math.Trunc(e[1]) || !(e[2] >= 0 && e[2] <= 1e9) {
			return steiner.Problem{}, 1, fmt.Errorf("edges[%d]: read %v, want [node, node, length of 0 to 1e9]", i, e)
		}
		if e[2] != math.Trunc(e[2]) {
			scale = grain
		}
	}
	p := steiner.Problem{Nodes: q.Nodes, Terminals: q.Terminals}
	for _, e := range q.Edges {
		p.Edges = append(p.Edges, steiner.Edge{A: int(e[0]), B: int(e[1]), Price: int64(math.Round(e[2] * scale))})
	}
	return p, scale, nil
}
