package steiner

import (
	"errors"
	"fmt"
	"math"
)

// Errors of a question that has no answer.
var (
	// ErrProblem is wrapped by what is said of a problem that cannot be read.
	ErrProblem = errors.New("steiner: unusable problem")
	// ErrApart is wrapped by *ApartError.
	ErrApart = errors.New("steiner: a terminal cannot be reached")
)

// ApartError names the first terminal that no way leads to from the root.
type ApartError struct{ Node int }

func (e *ApartError) Error() string { return fmt.Sprintf("%v: node %d", ErrApart, e.Node) }

// Unwrap gives ErrApart.
func (e *ApartError) Unwrap() error { return ErrApart }

// Edge joins two nodes. What lies on the way, a hole through a wall, is in its price.
type Edge struct {
	A, B  int
	Price int64 // 0 or more, in the smallest unit that the caller counts in
}

// Problem asks for the least tree that joins the terminals.
//
// Air flows from the root outwards. A tree costs the prices of its edges, and at every
// node, for each edge by which air leaves, Turn of the edge by which it comes and that
// one. At the root nothing comes and nothing turns.
//
// So a corner costs its turn, and a straight branch through a tee costs none beside the
// turn of what branches off; where air comes by the branch of a tee and leaves by both
// ends of its run, two turns are paid. What a tee itself costs need not be said: with
// every terminal an end of its own (an outlet where the line goes on is a branch too),
// each tree of k terminals has k−2 branchings, a cross counting as two. A caller for
// whom a tee is dearer than the turn that it makes adds (k−2) times the difference.
//
// Two lines may pass a node without joining only in the bound: a tree enters each node once.
type Problem struct {
	Nodes     int
	Edges     []Edge
	Terminals []int // the first is the root; doubles count once
	// Turn is the price of coming to a node by one edge and leaving by another, 0 or more;
	// nil for none. It is asked for each pair once.
	Turn func(node, in, out int) int64
}

// most bounds the sum of all prices, so that no sum overflows.
const most = math.MaxInt64 / 8

func (p *Problem) check() error {
	if len(p.Terminals) == 0 {
		return fmt.Errorf("%w: no terminal", ErrProblem)
	}
	for _, t := range p.Terminals {
		if t < 0 || t >= p.Nodes {
			return fmt.Errorf("%w: terminal %d of %d nodes", ErrProblem, t, p.Nodes)
		}
	}
	sum := int64(0)
	for i, e := range p.Edges {
		if e.A < 0 || e.A >= p.Nodes || e.B < 0 || e.B >= p.Nodes {
			return fmt.Errorf("%w: edge %d joins %d and %d of %d nodes", ErrProblem, i, e.A, e.B, p.Nodes)
		}
		if e.Price < 0 || e.Price > most-sum {
			return fmt.Errorf("%w: edge %d costs %d; prices are 0 or more, and their sum at most %d", ErrProblem, i, e.Price, int64(most))
		}
		sum += e.Price
	}
	return nil
}

// Taken is an edge of a tree with the direction of the air in it.
type Taken struct {
	Edge int
	Back bool // from its B to its A
}

// Answer is the best tree found and what was proved.
type Answer struct {
	Tree   []Taken // from the root outwards: an edge comes after the one that leads to it
	Price  int64   // of the tree, turns included
	Bound  int64   // no tree costs less
	Proven bool    // Price is least
}

// Gap is by what share of its price the tree may at most be too dear.
func (a *Answer) Gap() float64 {
	if a.Price <= a.Bound {
		return 0
	}
	return float64(a.Price-a.Bound) / float64(a.Price)
}

// PriceOf is what a tree costs; the edges in any order. ok is false where they are no
// tree that holds the root and every terminal.
func (p *Problem) PriceOf(edges []int) (price int64, tree []Taken, ok bool) {
	at := map[int][]int{}
	for _, e := range edges {
		at[p.Edges[e].A] = append(at[p.Edges[e].A], e)
		at[p.Edges[e].B] = append(at[p.Edges[e].B], e)
	}
	type step struct{ node, by int }
	seen := map[int]bool{p.Terminals[0]: true}
	todo := []step{{p.Terminals[0], -1}}
	for len(todo) > 0 {
		s := todo[0]
		todo = todo[1:]
		for _, e := range at[s.node] {
			if e == s.by {
				continue
			}
			edge := p.Edges[e]
			to := edge.A + edge.B - s.node
			if seen[to] {
				return 0, nil, false
			}
			seen[to] = true
			price += edge.Price
			if s.by >= 0 && p.Turn != nil {
				price += p.Turn(s.node, s.by, e)
			}
			tree = append(tree, Taken{e, edge.A != s.node})
			todo = append(todo, step{to, e})
		}
	}
	for _, t := range p.Terminals {
		if !seen[t] {
			return 0, nil, false
		}
	}
	return price, tree, len(tree) == len(edges)
}
