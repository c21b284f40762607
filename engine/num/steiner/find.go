package steiner

import (
	"context"
	"slices"
)

// tree is an arborescence in a digraph: the arc by which each node is reached.
type tree struct {
	by    []int32 // none where not in the tree
	price int64
}

func (t *tree) clone() *tree { return &tree{slices.Clone(t.by), t.price} }

// planter grows trees in a digraph.
type planter struct {
	g    *digraph
	dist []int64
	from []int32
	term []bool
}

func newPlanter(g *digraph) *planter {
	p := &planter{g: g, dist: make([]int64, g.n), from: make([]int32, g.n), term: make([]bool, g.n)}
	for _, t := range g.terms {
		p.term[t] = true
	}
	return p
}

func (p *planter) empty() *tree {
	t := &tree{by: make([]int32, p.g.n)}
	for v := range t.by {
		t.by[v] = none
	}
	return t
}

// complete reaches all terminals that a tree lacks, the nearest first, each by its
// shortest way from the tree so far; near counts the ways, the price is the arcs' own.
func (p *planter) complete(t *tree, near func(arc int) int64) bool {
	g := p.g
	var h heap
	for v := range g.n {
		p.dist[v], p.from[v] = far, none
		if t.by[v] != none || v == g.root {
			p.dist[v] = 0
			h.push(item{0, uint64(v)})
		}
	}
	missing := 0
	for _, v := range g.terms {
		if t.by[v] == none {
			missing++
		}
	}
	for len(h) > 0 && missing > 0 {
		x := h.pop()
		v := int(x.of)
		if x.key > p.dist[v] {
			continue
		}
		if p.term[v] && t.by[v] == none {
			missing--
			for u := v; t.by[u] == none && u != g.root; u = g.arcs[p.from[u]].from {
				t.by[u] = p.from[u]
				t.price += g.arcs[p.from[u]].price
				p.dist[u] = 0
				h.push(item{0, uint64(u)})
			}
			continue
		}
		for _, i := range g.out[v] {
			to := g.arcs[i].to
			if d := x.key + near(int(i)); d < p.dist[to] {
				p.dist[to], p.from[to] = d, i
				h.push(item{d, uint64(to)})
			}
		}
	}
	return missing == 0
}

// prune takes away what leads to no terminal.
func (p *planter) prune(t *tree) {
	sons := make([]int, p.g.n)
	for _, i := range t.by {
		if i != none {
			sons[p.g.arcs[i].from]++
		}
	}
	for v := range t.by {
		for u := v; t.by[u] != none && sons[u] == 0 && !p.term[u]; {
			i := t.by[u]
			t.by[u] = none
			t.price -= p.g.arcs[i].price
			u = p.g.arcs[i].from
			sons[u]--
		}
	}
}

// without is a tree that no longer reaches some terminals.
func (p *planter) without(t *tree, terms []int) *tree {
	out := t.clone()
	for _, v := range terms {
		p.term[v] = false
	}
	p.prune(out)
	for _, v := range terms {
		p.term[v] = true
	}
	return out
}

// dice is a small generator of its own, so that the same question is worked on alike
// everywhere: multiply and add, the high bits count (Knuth's constants, recalled).
type dice uint64

func (d *dice) roll(n int) int {
	*d = *d*6364136223846793005 + 1442695040888963407
	return int(uint64(*d>>33) % uint64(n))
}

// improve takes terminals off a tree and reaches them anew, again and again: a few
// neighbours, or all beyond some place of the tree. What comes of it is gone on with where
// it is little dearer than the best, less and less so (record to record: Dueck 1993, recalled).
func (p *planter) improve(ctx context.Context, best *tree, near func(arc int) int64, tries int, enough int64) *tree {
	if len(p.g.terms) == 0 {
		return best
	}
	d := dice(uint64(len(p.g.arcs)))
	own := func(i int) int64 { return p.g.arcs[i].price }
	apart := p.apart()
	t := best
	for k := range tries {
		if ctx.Err() != nil || best.price <= enough {
			break
		}
		w := near
		if k%2 == 0 {
			w = own
		}
		now := p.without(t, p.loosen(t, &d, apart))
		if !p.complete(now, jitter(w, &d)) {
			continue
		}
		if now.price <= best.price+best.price/100*int64(tries-k)/int64(tries) {
			t = now
		}
		if now.price < best.price {
			best = now
		}
	}
	return best
}

// jitter makes ways dearer by up to a fifth, each its own, three times out of four.
func jitter(w func(arc int) int64, d *dice) func(arc int) int64 {
	noise, salt := int64(d.roll(4)), uint64(d.roll(1<<20))
	if noise == 0 {
		return w
	}
	return func(i int) int64 {
		return w(i) + w(i)/128*noise*int64((uint64(i)*2654435761^salt*40503)>>7%8)
	}
}

// loosen chooses the terminals that are taken off.
func (p *planter) loosen(t *tree, d *dice, apart [][]int) []int {
	first := d.roll(len(p.g.terms))
	var out []int
	if d.roll(3) > 0 {
		for _, s := range apart[first][:1+d.roll(min(len(apart[first]), 8))] {
			out = append(out, p.g.terms[s])
		}
		return out
	}
	v := p.g.terms[first]
	for range 1 + d.roll(24) {
		if t.by[v] == none || p.g.arcs[t.by[v]].from == p.g.root {
			break
		}
		v = p.g.arcs[t.by[v]].from
	}
	for _, s := range p.g.terms {
		for u := s; t.by[u] != none; u = p.g.arcs[t.by[u]].from {
			if u == v {
				out = append(out, s)
				break
			}
		}
	}
	return out
}

// apart lists for each terminal all of them, the nearest first, itself leading.
func (p *planter) apart() [][]int {
	out := make([][]int, len(p.g.terms))
	back := make([][]int64, len(p.g.terms))
	for k, t := range p.g.terms {
		// Ways lead from the root outwards only: how near two terminals are is told by
		// where the ways to both begin to differ, seen backwards.
		back[k] = p.g.distances([]int{t}, func(i int) int64 { return p.g.arcs[i].price }, false)
	}
	for k := range p.g.terms {
		near := make([]int64, len(p.g.terms))
		for m := range p.g.terms {
			near[m] = far
			for v := range p.g.n {
				if a, b := back[k][v], back[m][v]; a < far && b < far {
					near[m] = min(near[m], a+b)
				}
			}
			out[k] = append(out[k], m)
		}
		near[k] = -1
		slices.SortStableFunc(out[k], func(a, b int) int { return int(min(1, max(-1, near[a]-near[b]))) })
		out[k] = out[k][:min(len(out[k]), 12)]
	}
	return out
}
