package mip

import (
	"context"
	"math"
)

// Status says what is known at the end.
type Status int

// The four ends.
const (
	Proven     Status = iota // X is best: no point costs less (without whole costs: less by a ten-millionth)
	CutShort                 // time or nodes ran out; X is the best found, nil if none
	Infeasible               // no point keeps to all limits
	Unbounded                // the cost falls without end, so far as whole numbers do not stop it
)

func (s Status) String() string {
	return [...]string{"proven", "cut short", "infeasible", "unbounded"}[s]
}

// Options end the work early and tell of its course. The zero value works to the end.
type Options struct {
	// Nodes is the most parts to look at; 0 for any number.
	Nodes int
	// Step makes costs between the same two multiples of it count as equal: of such
	// points the least one that was met is given. 0: no costs do.
	Step float64
	// Progress is called at each better point and now and then; best is +Inf before
	// the first point, bound is -Inf before anything is proved.
	Progress func(best, bound float64, nodes int)
}

// Result is what was found and what was proved.
type Result struct {
	Status Status
	X      []float64 // nil without a point
	Value  float64   // cost of X; +Inf without a point
	Bound  float64   // no point costs less
	Nodes  int
}

// Solve seeks the point of least cost. A context that ends cuts the work short, which
// is no error: the result says so by its status.
func Solve(ctx context.Context, p Problem, o Options) (Result, error) {
	if err := p.check(); err != nil {
		return Result{}, err
	}
	m, room := newModel(p)
	if !room || !m.tighten() {
		return Result{Status: Infeasible, Value: math.Inf(1), Bound: math.Inf(1)}, nil
	}
	s := newSearch(ctx, p, o, m)
	s.run()
	return s.result(), nil
}
