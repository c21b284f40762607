package steiner

import (
	"context"
	"slices"
)

// Labels are by node and subset of terminals: the least tree from the node to these.
// They are set in the order of their price, and only where, with the least that the
// rest must cost, a tree cheaper than the best known may come of them.

// label is a subset reached from a node, and how: by an arc, or of two subsets.
type label struct {
	price int64
	arc   int32  // the first arc; none where it is of two
	half  uint32 // one of the two subsets
	set   bool   // final
}

// mostExact bounds the terminals, the root aside, that subsets are formed of, and
// mostLabels the labels that are kept.
const (
	mostExact  = 24
	mostLabels = 3_000_000
)

// labels is such a search under way.
type labels struct {
	g     *digraph
	k     int
	known map[uint64]label
	final [][]uint32 // subsets set, by node
	queue heap
	rest  []int64 // by subset: what cuts to the other terminals pay
	begin []int64 // reduced distance from the root
	best  int64
}

// cheaper looks for a tree cheaper than best. ok is false where it gave up; with ok and
// no tree there is none.
func cheaper(ctx context.Context, g *digraph, a *ascent, best int64) (t *tree, ok bool, err error) {
	k := len(g.terms)
	if k == 0 || k > mostExact {
		return nil, false, nil
	}
	s := &labels{
		g: g, k: k, known: map[uint64]label{}, final: make([][]uint32, g.n), rest: a.remaining(k), best: best,
		begin: g.distances([]int{g.root}, func(i int) int64 { return a.left[i] }, true),
	}
	for i, v := range g.terms {
		s.note(v, 1<<i, label{arc: none})
	}
	goal := s.key(g.root, 1<<k-1)
	for n := 0; len(s.queue) > 0; n++ {
		if n%1024 == 0 && ctx.Err() != nil {
			return nil, false, ctx.Err()
		}
		if len(s.known) > mostLabels {
			return nil, false, nil
		}
		x := s.queue.pop()
		l := s.known[x.of]
		if l.set || x.key > l.price {
			continue
		}
		if x.of == goal {
			t := newPlanter(g).empty()
			s.collect(g.root, 1<<k-1, t)
			return t, true, nil
		}
		l.set = true
		s.known[x.of] = l
		s.spread(int(x.of>>s.k), uint32(x.of&(1<<k-1)), l.price)
	}
	return nil, true, nil
}

func (s *labels) key(v int, set uint32) uint64 { return uint64(v)<<s.k | uint64(set) }

// note offers a label.
func (s *labels) note(v int, set uint32, l label) {
	if s.begin[v] >= far || l.price+s.begin[v]+s.rest[set] >= s.best {
		return
	}
	key := s.key(v, set)
	if old, ok := s.known[key]; ok && (old.set || old.price <= l.price) {
		return
	}
	s.known[key] = l
	s.queue.push(item{l.price, key})
}

// spread goes on from a label that is final: one arc towards the root, or together
// with what else is final at its node.
func (s *labels) spread(v int, set uint32, price int64) {
	for _, i := range s.g.in[v] {
		s.note(s.g.arcs[i].from, set, label{price: price + s.g.arcs[i].price, arc: i})
	}
	for _, other := range s.final[v] {
		if other&set == 0 {
			s.note(v, other|set, label{price: price + s.known[s.key(v, other)].price, arc: none, half: set})
		}
	}
	s.final[v] = append(s.final[v], set)
}

// collect writes down the tree of a label.
func (s *labels) collect(v int, set uint32, t *tree) {
	for {
		l := s.known[s.key(v, set)]
		switch {
		case l.arc != none:
			a := s.g.arcs[l.arc]
			if t.by[a.to] == none {
				t.by[a.to] = l.arc
				t.price += a.price
			}
			v = a.to
		case l.half != 0:
			s.collect(v, l.half, t)
			set &^= l.half
		default:
			return
		}
	}
}

// remaining is, by the subset that is reached already, what the cuts pay that hold a
// terminal beyond it.
func (a *ascent) remaining(k int) []int64 {
	within := make([]int64, 1<<k) // cuts whose terminals all lie in the subset
	for _, c := range a.cuts {
		within[c.terms] += c.pay
	}
	for bit := range k {
		for set := range within {
			if set>>bit&1 == 1 {
				within[set] += within[set&^(1<<bit)]
			}
		}
	}
	for set := range within {
		within[set] = a.bound - within[set]
	}
	return within
}

// inOrder lists the arcs of a tree, an arc after the one that leads to it.
func (g *digraph) inOrder(t *tree) []int {
	sons := make([][]int, g.n)
	for v, i := range t.by {
		if i != none {
			sons[g.arcs[i].from] = append(sons[g.arcs[i].from], v)
		}
	}
	var out []int
	todo := []int{g.root}
	for len(todo) > 0 {
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, w := range slices.Backward(sons[v]) {
			out = append(out, int(t.by[w]))
			todo = append(todo, w)
		}
	}
	return out
}
