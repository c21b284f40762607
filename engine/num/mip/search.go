package mip

import (
	"context"
	"math"
	"slices"
)

const maxSteps = 2000

// search is branch and bound: the dictionary walks from node to node, for a node is
// nothing but bounds and any dictionary can start under any bounds.
type search struct {
	ctx       context.Context
	asked     Problem
	options   Options
	m         *model
	dict      *dictionary
	spare     *dictionary // to come back to after looking ahead
	best      []float64
	bestValue float64
	open      nodeHeap
	made      int // nodes made, for their order
	nodes     int // nodes looked at
	history   []history
	lost      float64 // least bound among parts given up without proof
	present   float64 // bound of the part that is being looked at
	endless   bool
	cut       bool
}

func newSearch(ctx context.Context, p Problem, o Options, m *model) *search {
	return &search{
		ctx: ctx, asked: p, options: o, m: m, dict: newDictionary(ctx, m), spare: &dictionary{},
		bestValue: math.Inf(1), lost: math.Inf(1), present: math.Inf(1), history: make([]history, m.n),
	}
}

// closeness is how near, relative, bound and value come before a point counts as best,
// when costs are not whole numbers; the bound given then says so.
const closeness = 1e-7

// limit is the bound from which on a part cannot hold anything better.
func (s *search) limit() float64 {
	if s.best == nil {
		return math.Inf(1)
	}
	if step := s.options.Step; step > 0 {
		return math.Floor(s.bestValue/step) * step
	}
	if s.m.grid > 0 {
		return s.bestValue - s.m.grid*(1-1e-6)
	}
	return s.bestValue - closeness*(1+math.Abs(s.bestValue))
}

func (s *search) stopped() bool {
	if s.cut {
		return true
	}
	s.cut = s.ctx.Err() != nil || s.options.Nodes > 0 && s.nodes >= s.options.Nodes
	return s.cut
}

// run does the whole work. The first relaxation is strengthened by cuts; then nodes are
// followed down to an end each time, and after that the one of least bound is next.
func (s *search) run() {
	s.present = math.Inf(-1)
	s.dict.bound(s.m.low, s.m.high)
	end, r := s.dict.dual(math.Inf(1), maxSteps)
	if end == empty && s.dict.provedEmpty(r) {
		s.present = math.Inf(1)
		return
	}
	if end == optimal {
		if s.atOpenEnd() {
			s.endless = true
			return
		}
		s.round()
		s.rootFix()
		s.strengthen()
	}
	n := s.m.n
	at := &node{
		low: slices.Clone(s.m.low[:n]), high: slices.Clone(s.m.high[:n]),
		bound: s.onGrid(s.dict.proved()), branch: branch{column: -1},
	}
	for at != nil {
		s.present = at.bound
		if s.stopped() {
			s.lost = min(s.lost, at.bound)
			break
		}
		if s.nodes++; s.nodes%64 == 0 {
			s.tell()
		}
		if at = s.explore(at); at == nil {
			at = s.next()
		}
	}
	s.present = math.Inf(1)
}

func (s *search) tell() {
	if s.options.Progress != nil {
		s.options.Progress(s.bestValue, s.floor(), s.nodes)
	}
}

// floor is what is proved of every point: of the parts that are done, that they hold
// nothing better than the best by more than limit leaves; of all others, their bounds.
func (s *search) floor() float64 {
	bound := s.bestValue
	if s.m.grid == 0 || s.options.Step > 0 {
		bound = s.limit()
	}
	bound = min(bound, s.lost, s.present)
	if s.open.Len() > 0 {
		bound = min(bound, s.open[0].bound)
	}
	return bound
}

// atOpenEnd tells a relaxation that leans on a bound which was not asked for.
func (s *search) atOpenEnd() bool {
	for j := range s.m.n {
		if s.m.opened[j] && math.Abs(s.dict.x[j]) >= farthest {
			if place := -1 - s.dict.at[j]; place < 0 || math.Abs(s.dict.d[place]) > s.dict.still {
				return true
			}
		}
	}
	return false
}

// explore looks at one node. It gives the child to go on with, nil when the part is
// done or both children wait.
func (s *search) explore(nd *node) *node {
	if nd.bound >= s.limit() || !s.m.narrow(nd.low, nd.high) {
		return nil
	}
	g := s.dict
	g.bound(nd.low, nd.high)
	end := s.relax()
	if end == beyond || end == empty {
		return nil
	}
	if end == tired {
		return s.halve(nd)
	}
	s.learn(nd.branch, g.value())
	nd.bound = max(nd.bound, s.onGrid(g.proved()))
	if nd.bound >= s.limit() {
		return nil
	}
	s.round()
	if !s.fractional() {
		return s.settle(nd)
	}
	s.fixBounds(nd.low, nd.high, g.proved())
	return s.divide(nd)
}

// relax solves a node's relaxation; beyond and empty come back proved, or as tired.
func (s *search) relax() outcome {
	g := s.dict
	for range 2 {
		end, r := g.dual(s.limit(), maxSteps)
		switch end {
		case optimal:
			return optimal
		case beyond:
			if g.proved() >= s.limit() {
				return beyond
			}
			if end, _ = g.dual(math.Inf(1), maxSteps); end == optimal {
				return optimal
			}
		case empty:
			if g.provedEmpty(r) {
				return empty
			}
		}
		g.renew()
	}
	return tired
}

// settle deals with a relaxation whose whole columns are whole up to rounding: they
// are set to those values and the other columns solved once more. Should that leave
// the part open, it is split further.
func (s *search) settle(nd *node) *node {
	fixed := *nd
	fixed.low = slices.Clone(s.dict.x[:s.m.n])
	for j, whole := range s.m.whole[:s.m.n] {
		if whole {
			fixed.low[j] = min(max(math.Round(fixed.low[j]), nd.low[j]), nd.high[j])
		}
	}
	s.tryFixed(&fixed)
	if nd.bound >= s.limit() {
		return nil
	}
	return s.halve(nd)
}

// halve splits a part whose relaxation says nothing, at the widest whole column. What
// has none left is one point, which is tried, or is given up with its bound.
func (s *search) halve(nd *node) *node {
	widest, column := 0.0, -1
	for j := range s.m.n {
		if width := nd.high[j] - nd.low[j]; s.m.whole[j] && width > widest {
			widest, column = width, j
		}
	}
	if column < 0 {
		s.tryFixed(nd)
		if nd.bound < s.limit() && !slices.Equal(nd.low, nd.high) {
			s.lost = min(s.lost, nd.bound)
		}
		return nil
	}
	middle := math.Floor((nd.low[column] + nd.high[column]) / 2)
	down, up := s.children(nd, column, middle)
	s.push(up)
	return down
}

// onGrid rounds a proved bound up to the next cost that can occur.
func (s *search) onGrid(bound float64) float64 {
	if s.m.grid == 0 {
		return bound
	}
	return math.Ceil(bound/s.m.grid-1e-6) * s.m.grid
}

func (s *search) result() Result {
	r := Result{X: s.best, Value: s.bestValue, Bound: s.floor(), Nodes: s.nodes}
	switch {
	case s.endless:
		r.Status, r.Bound = Unbounded, math.Inf(-1)
	case s.best != nil && r.Bound >= s.limit():
		r.Status = Proven
	case s.best == nil && math.IsInf(r.Bound, 1):
		r.Status = Infeasible
	default:
		r.Status = CutShort
	}
	return r
}
