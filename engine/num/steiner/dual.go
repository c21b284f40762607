package steiner

import "context"

// ascent is a solution of the dual: cuts that each tree has to cross, with what is
// paid for crossing them. The sum is a bound; what is left of the arcs' prices is
// what a tree costs beyond it.
type ascent struct {
	bound int64
	left  []int64 // reduced prices of the arcs
	cuts  []cut
}

// cut is what crossing into a set of nodes pays, and the terminals in the set.
type cut struct {
	terms uint64 // by their place in the digraph's list; only of lists up to 64
	pay   int64
	arcs  []int32 // that cross it
}

// ascend raises, for one terminal after the other, the cut of what reaches it for
// nothing, until all are reached from the root: the smallest cut first, and where a
// good tree is known, before all those that it crosses once, since what a cut pays is
// lost where the least tree crosses it again (Polzin, Vahdati 2001, recalled).
func ascend(ctx context.Context, g *digraph, good *tree) (*ascent, error) {
	a := &ascent{left: make([]int64, len(g.arcs))}
	for i := range g.arcs {
		a.left[i] = g.arcs[i].price
	}
	return a, a.climb(ctx, g, good, nil)
}

// climb raises cuts until no more can be; with dice their order is by chance.
func (a *ascent) climb(ctx context.Context, g *digraph, good *tree, d *dice) error {
	place := make([]int, g.n) // of a terminal in the list, from 1
	active := make([]bool, len(g.terms))
	var queue heap
	for k, t := range g.terms {
		place[t] = k + 1
		active[k] = true
		queue.push(item{int64(len(g.in[t])), uint64(k)})
	}
	r := raiser{g: g, a: a, place: place, active: active, sets: make([]growth, len(g.terms))}
	for len(queue) > 0 {
		if err := ctx.Err(); err != nil {
			return err
		}
		x := queue.pop()
		k := int(x.of)
		if !r.grow(k) {
			active[k] = false
			continue
		}
		size := r.size(good)
		if d != nil {
			size += size * int64(d.roll(64)) / 64
		}
		if len(queue) > 0 && size > queue[0].key && size > x.key {
			queue.push(item{size, x.of})
			continue
		}
		r.raise()
		queue.push(item{size, x.of})
	}
	return nil
}

// raiser is the work space of an ascent.
type raiser struct {
	g      *digraph
	a      *ascent
	place  []int
	active []bool
	sets   []growth // by terminal
	set    *growth  // the one that was grown last
	todo   []int
}

// growth is the nodes that reach a terminal for nothing. They only become more: what an
// arc has left never rises.
type growth struct {
	in    []bool
	edge  []int32 // arcs into the set that have something left, and some from within it
	terms uint64
	ends  []int // places of the terminals in it, beside its own
}

// grow finds the nodes that reach a terminal for nothing and the arcs into them. It is
// false where the root is among them, or another terminal that is still to be reached.
func (r *raiser) grow(k int) bool {
	s := &r.sets[k]
	r.set = s
	if s.in == nil {
		s.in = make([]bool, r.g.n)
		s.add(r, k, r.g.terms[k])
	}
	kept := s.edge[:0]
	for _, i := range s.edge {
		from := r.g.arcs[i].from
		switch {
		case s.in[from]:
		case r.a.left[i] > 0:
			kept = append(kept, i)
		default:
			s.add(r, k, from)
		}
	}
	s.edge = kept
	for len(r.todo) > 0 {
		v := r.todo[len(r.todo)-1]
		r.todo = r.todo[:len(r.todo)-1]
		for _, i := range r.g.in[v] {
			switch from := r.g.arcs[i].from; {
			case s.in[from]:
			case r.a.left[i] > 0:
				s.edge = append(s.edge, i)
			default:
				s.add(r, k, from)
			}
		}
	}
	if s.in[r.g.root] {
		return false
	}
	for _, p := range s.ends {
		if r.active[p] {
			return false
		}
	}
	return true
}

// add takes a node into the set of terminal k.
func (s *growth) add(r *raiser, k, v int) {
	s.in[v] = true
	r.todo = append(r.todo, v)
	if p := r.place[v] - 1; p >= 0 {
		if p != k {
			s.ends = append(s.ends, p)
		}
		if p < 64 {
			s.terms |= 1 << p
		}
	}
}

// size ranks the cut that was found.
func (r *raiser) size(good *tree) int64 {
	n := int64(len(r.set.edge))
	if good == nil {
		return n
	}
	for _, i := range r.set.edge {
		if a := r.g.arcs[i]; good.by[a.to] == i && !r.set.in[a.from] {
			n += int64(len(r.g.arcs))
		}
	}
	return n
}

// raise pays for the cut that was found as much as its cheapest arc has left.
func (r *raiser) raise() {
	pay := far
	for _, i := range r.set.edge {
		if !r.set.in[r.g.arcs[i].from] {
			pay = min(pay, r.a.left[i])
		}
	}
	if pay == far {
		return // nothing leads in; the caller has seen to it that something does
	}
	arcs := make([]int32, 0, len(r.set.edge))
	for _, i := range r.set.edge {
		if !r.set.in[r.g.arcs[i].from] {
			r.a.left[i] -= pay
			arcs = append(arcs, i)
		}
	}
	r.a.bound += pay
	r.a.cuts = append(r.a.cuts, cut{r.set.terms, pay, arcs})
}

// useful tells, for every arc, whether a tree cheaper than best may hold it.
func (a *ascent) useful(g *digraph, best int64) func(arc int) bool {
	left := func(i int) int64 { return a.left[i] }
	there := g.distances([]int{g.root}, left, true)
	onward := g.distances(g.terms, left, false)
	return func(i int) bool {
		v := g.arcs[i]
		return there[v.from] < far && onward[v.to] < far && a.bound+there[v.from]+a.left[i]+onward[v.to] < best
	}
}
