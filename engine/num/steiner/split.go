package steiner

import (
	"context"
	"slices"
)

// part is the question with some nodes to be reached as well, and some left out.
type part struct {
	g *digraph
	a *ascent
}

// split looks at parts of the question, the one of the least bound first: a node is
// reached, or it is not.
func (s *search) split(ctx context.Context, g *digraph, a *ascent) {
	open := []part{{g, a}}
	for n := 0; len(open) > 0; n++ {
		best := 0
		for i := range open {
			if open[i].a.bound < open[best].a.bound {
				best = i
			}
		}
		x := open[best]
		if x.a.bound >= s.price {
			break
		}
		if x.a.bound > s.bound {
			s.bound = x.a.bound
			s.tell()
		}
		if ctx.Err() != nil || s.opts.Parts > 0 && n >= s.opts.Parts {
			return
		}
		open = slices.Delete(open, best, best+1)
		for _, half := range s.halves(x) {
			small, da, err := s.shrink(ctx, half, 0)
			if err != nil || ctx.Err() != nil {
				return
			}
			if small != nil {
				da.bound = max(da.bound, x.a.bound)
				open = append(open, part{small, da})
			}
		}
	}
	s.bound = s.price
}

// halves are a part with a node reached, and without it.
func (s *search) halves(x part) []*digraph {
	v := x.pick()
	if v == none {
		return nil
	}
	with := newDigraph(x.g.n, x.g.root, append(slices.Clone(x.g.terms), v), x.g.arcs)
	without := x.g.kept(func(i int) bool { return x.g.arcs[i].from != v && x.g.arcs[i].to != v })
	if !without.whole() {
		return []*digraph{with}
	}
	return []*digraph{with, without}
}

// pick is the node to split at: one that ways through the nodes already paid for come
// to from several sides, or leave to several.
func (x part) pick() int {
	skip := make([]bool, x.g.n)
	skip[x.g.root] = true
	for _, t := range x.g.terms {
		skip[t] = true
	}
	best, most := none, 0
	for v := range x.g.n {
		if skip[v] {
			continue
		}
		score := 1
		for _, i := range x.g.in[v] {
			if x.a.left[i] == 0 {
				score += 2
			}
		}
		for _, i := range x.g.out[v] {
			if x.a.left[i] == 0 {
				score += 2
			}
		}
		if score > most {
			best, most = v, score
		}
	}
	return best
}
