package steiner

import (
	"context"
	"slices"
)

// Options end the work early and tell of its course. The zero value works to the end.
type Options struct {
	// Parts is the most parts that the question is split into where it is split; 0 for
	// any number.
	Parts int
	// Progress is called now and then with the best price so far and the bound.
	Progress func(best, bound int64)
}

// Solve finds the least tree. Where ctx ends first, the best tree so far comes with its
// bound and no error. An error is ErrProblem, *ApartError, or that of ctx where it ended
// before any tree was found.
func Solve(ctx context.Context, p Problem, o Options) (*Answer, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	terminal := make([]bool, p.Nodes)
	var terms []int
	for _, t := range p.Terminals {
		if !terminal[t] {
			terminal[t] = true
			terms = append(terms, t)
		}
	}
	if len(terms) == 1 {
		return &Answer{Proven: true}, nil
	}
	links := p.links(terminal)
	if apart, ok := firstApart(p.Nodes, links, terms); ok {
		return nil, &ApartError{apart}
	}
	var g *digraph
	if p.Turn == nil {
		var err error
		if g, err = bestRoot(ctx, &p, links, terms); err != nil {
			return nil, err
		}
	} else {
		g = arriving(&p, links, terms)
	}
	s := &search{opts: o, price: far}
	if err := s.run(ctx, g); err != nil {
		return nil, err
	}
	return p.answer(links, s), nil
}

// firstApart is the first terminal that the links do not lead to.
func firstApart(n int, links []link, terms []int) (int, bool) {
	var arcs []arc
	for _, l := range links {
		arcs = append(arcs, arc{from: l.a, to: l.b}, arc{from: l.b, to: l.a})
	}
	seen := newDigraph(n, terms[0], nil, arcs).mark(terms[:1], func(int) bool { return true }, true)
	for _, t := range terms {
		if !seen[t] {
			return t, true
		}
	}
	return 0, false
}

// mostRoots is how many terminals are tried as the root where any will do.
const mostRoots = 8

// bestRoot is the digraph of a problem without turns from the terminal that gives the
// best bound.
func bestRoot(ctx context.Context, p *Problem, links []link, terms []int) (*digraph, error) {
	var best *digraph
	bound := int64(-1)
	for _, root := range terms[:min(len(terms), mostRoots)] {
		g := plain(p, links, terms, root)
		a, err := ascend(ctx, g, nil)
		if err != nil {
			return nil, err
		}
		if a.bound > bound {
			best, bound = g, a.bound
		}
	}
	return best, nil
}

// search is a question under way: the best tree so far, by the tags of its arcs in
// order, and what no tree goes below.
type search struct {
	opts  Options
	tags  []int
	price int64
	bound int64
}

// take notes a tree that is cheaper than the best so far.
func (s *search) take(g *digraph, t *tree) {
	if t.price >= s.price {
		return
	}
	s.price, s.tags = t.price, nil
	for _, i := range g.inOrder(t) {
		if tag := g.arcs[i].tag; tag != none {
			s.tags = append(s.tags, tag)
		}
	}
	s.tell()
}

func (s *search) tell() {
	if s.opts.Progress != nil {
		s.opts.Progress(s.price, min(s.bound, s.price))
	}
}

// run works the question out: bound, tree and elimination in turn, then labels where
// the terminals are few, then parts.
func (s *search) run(ctx context.Context, g *digraph) error {
	first, err := ascend(ctx, g, nil)
	if err != nil {
		return err
	}
	s.bound = first.bound
	small, a, err := s.shrink(ctx, g, min(rootTries, max(leastTries, rootWork/len(g.arcs))))
	if err != nil {
		return err
	}
	if small == nil {
		s.bound = s.price
		return nil
	}
	s.bound = max(s.bound, a.bound)
	s.tell()
	t, ok, err := cheaper(ctx, small, a, s.price)
	switch {
	case err != nil:
		return nil //nolint:nilerr // time is up: the best so far stands
	case t != nil:
		newPlanter(small).prune(t)
		s.take(small, t)
		s.bound = s.price
	case ok:
		s.bound = s.price
	default:
		s.part(ctx, small, a)
	}
	return nil
}

// How often trees of the whole question are taken apart and mended: so often, but not for
// more than so many arcs in all, where that leaves some.
const (
	rootTries  = 1200
	leastTries = 60
	rootWork   = 4_000_000
)

// mostRounds bounds how often a digraph is made smaller; each has to take away a
// twentieth of the arcs.
const mostRounds = 12

// shrink bounds, finds trees and takes away what no better tree can use. The digraph is
// nil where none is better than the best so far.
func (s *search) shrink(ctx context.Context, g *digraph, tries int) (*digraph, *ascent, error) {
	for range mostRounds {
		a, err := ascend(ctx, g, nil)
		if err != nil {
			return s.given(g, nil, err)
		}
		good := s.plant(ctx, g, a, tries)
		tries /= 4
		if good != nil && a.bound < s.price {
			b, err := ascend(ctx, g, good)
			if err == nil && b.bound > a.bound {
				a = b
			}
		}
		if a.bound >= s.price {
			return nil, nil, nil
		}
		next := g.kept(a.useful(g, s.price))
		if !next.whole() {
			return nil, nil, nil
		}
		slow := len(next.arcs) > len(g.arcs)*19/20
		g = next
		if slow {
			break
		}
	}
	a, err := ascend(ctx, g, nil)
	if err != nil {
		return s.given(g, nil, err)
	}
	if a.bound >= s.price {
		return nil, nil, nil
	}
	return g, a, nil
}

// given is what stands when time is up: nothing, without any tree.
func (s *search) given(g *digraph, a *ascent, err error) (*digraph, *ascent, error) {
	if a == nil {
		a = &ascent{left: make([]int64, len(g.arcs))}
	}
	if s.price < far {
		return g, a, nil
	}
	return nil, nil, err
}

// whole says whether all terminals can be reached.
func (g *digraph) whole() bool {
	seen := g.mark([]int{g.root}, func(int) bool { return true }, true)
	return !slices.ContainsFunc(g.terms, func(t int) bool { return !seen[t] })
}

// plant finds trees: by the arcs' prices, and along what the bound has paid for already.
func (s *search) plant(ctx context.Context, g *digraph, a *ascent, tries int) *tree {
	p := newPlanter(g)
	var best *tree
	for _, weight := range []int64{0, 4, 1} {
		near := func(i int) int64 { return g.arcs[i].price + weight*a.left[i] }
		t := p.empty()
		if !p.complete(t, near) {
			continue
		}
		if tries > 0 {
			t = p.improve(ctx, t, near, tries/3, a.bound)
		}
		if s.take(g, t); best == nil || t.price < best.price {
			best = t
		}
	}
	return best
}

// answer puts the best tree into the words of the problem.
func (p *Problem) answer(links []link, s *search) *Answer {
	var edges []int
	for _, tag := range s.tags {
		edges = append(edges, links[tag/2].edges...)
	}
	slices.Sort(edges)
	edges = slices.Compact(edges)
	out := &Answer{Bound: min(s.bound, s.price)}
	var ok bool
	if out.Price, out.Tree, ok = p.PriceOf(edges); !ok {
		out.Price, out.Tree, _ = p.PriceOf(p.joined(edges))
	}
	out.Proven = out.Price <= out.Bound
	return out
}

// joined makes a tree of edges by which some node is entered twice: of several ways to
// a node the shortest from the root stays, and what then leads nowhere goes.
func (p *Problem) joined(edges []int) []int {
	var links []link
	for _, e := range edges {
		x := p.Edges[e]
		links = append(links, link{a: x.A, b: x.B, there: x.Price, back: x.Price, edges: []int{e}})
	}
	g := plain(&Problem{Nodes: p.Nodes}, links, slices.Compact(slices.Clone(p.Terminals)), p.Terminals[0])
	pl := newPlanter(g)
	t := pl.empty()
	d := g.distances([]int{g.root}, func(i int) int64 { return g.arcs[i].price }, true)
	for i, a := range g.arcs {
		if t.by[a.to] == none && a.to != g.root && d[a.from]+a.price == d[a.to] && d[a.from] < d[a.to] {
			t.by[a.to] = int32(i)
		}
	}
	pl.prune(t)
	var out []int
	for _, i := range g.inOrder(t) {
		out = append(out, links[g.arcs[i].tag/2].edges...)
	}
	return out
}
