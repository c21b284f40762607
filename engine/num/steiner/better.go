package steiner

import (
	"context"
	"slices"
)

// part makes the bound better where terminals are many, and the digraph smaller by it, in
// turn, and splits what is left.
func (s *search) part(ctx context.Context, g *digraph, a *ascent) {
	tries := min(partTries, partWork/len(g.arcs))
	for range partRounds {
		good := s.plant(ctx, g, a, tries)
		if good == nil || ctx.Err() != nil {
			break
		}
		if b, err := ascend(ctx, g, good); err == nil && b.bound > a.bound {
			a = b
		}
		a = s.better(ctx, g, a, good)
		next, was := g.keptWith(a.useful(g, s.price))
		if a.bound >= s.price || !next.whole() {
			s.bound = s.price
			return
		}
		g, a = next, a.on(was)
	}
	s.split(ctx, g, a)
}

// How often a question is looked at so, and in how many tries at a tree each time.
const (
	partRounds = 4
	partTries  = 1000
	partWork   = 4_000_000
)

// How often a bound is taken apart and raised anew, but for no more than so many arcs in
// all, and the share of its cuts, in hundredths, that goes each time: those that a good
// tree crosses more than once, whose pay is lost there, so many times as often.
const (
	betterTries = 160
	betterWork  = 1_000_000
	loosened    = 2
	lostMore    = 10
)

// better takes some cuts of a bound back and raises others in their place, again and again,
// and goes on with what is no worse (after Poggi de Aragão, Uchoa, Werneck 2001, recalled).
func (s *search) better(ctx context.Context, g *digraph, a *ascent, good *tree) *ascent {
	d := dice(uint64(len(g.arcs)))
	for range min(betterTries, betterWork/len(g.arcs)) {
		if ctx.Err() != nil || a.bound >= s.price {
			break
		}
		next := a.loosened(g, good, &d)
		if next.climb(ctx, g, good, &d) == nil && next.bound >= a.bound {
			if next.bound > s.bound {
				s.bound = next.bound
				s.tell()
			}
			a = next
		}
	}
	return a
}

// loosened is a bound without some of its cuts.
func (a *ascent) loosened(g *digraph, good *tree, d *dice) *ascent {
	next := &ascent{left: slices.Clone(a.left), bound: a.bound, cuts: make([]cut, 0, len(a.cuts))}
	for _, c := range a.cuts {
		share, crossed := loosened, 0
		for _, i := range c.arcs {
			if good.by[g.arcs[i].to] == i {
				crossed++
			}
		}
		if crossed > 1 {
			share *= lostMore
		}
		if d.roll(100) >= share {
			next.cuts = append(next.cuts, c)
			continue
		}
		for _, i := range c.arcs {
			next.left[i] += c.pay
		}
		next.bound -= c.pay
	}
	return next
}

// on is a bound on a digraph that lacks some arcs, by the numbers that its arcs had.
func (a *ascent) on(was []int32) *ascent {
	next := &ascent{bound: a.bound, left: make([]int64, len(was))}
	now := make([]int32, len(a.left))
	for i := range now {
		now[i] = none
	}
	for i, old := range was {
		next.left[i] = a.left[old]
		now[old] = int32(i)
	}
	for _, c := range a.cuts {
		arcs := make([]int32, 0, len(c.arcs))
		for _, i := range c.arcs {
			if now[i] != none {
				arcs = append(arcs, now[i])
			}
		}
		next.cuts = append(next.cuts, cut{c.terms, c.pay, arcs})
	}
	return next
}
