package model

import (
	"container/heap"
	"math"
)

// Resistances is how hard each place is to reach from the sources: the least
// sum, over any way, of each element's loss in squared pressure over flow
// squared (Pa²·s²/kg²), taken at a small loss under cut-in with likely figures,
// loaded. It ranks outlets; it is no answer of the network.
type Resistances struct {
	m    *Model
	to   []float64 // by node; +Inf where no way leads
	up   []int     // node before on the easiest way; -1 at a source
	hops []int
}

// Resistance finds the easiest way to every node (Dijkstra).
func (m *Model) Resistance() *Resistances {
	r := &Resistances{m: m, to: make([]float64, len(m.nodes)), up: make([]int, len(m.nodes)), hops: make([]int, len(m.nodes))}
	each := m.resist()
	var q frontier
	for i := range r.to {
		r.to[i], r.up[i] = math.Inf(1), -1
	}
	for _, s := range m.sources {
		r.to[s.Node] = 0
		q = append(q, reached{node: s.Node})
	}
	for len(q) > 0 {
		here := heap.Pop(&q).(reached)
		if here.r > r.to[here.node] {
			continue
		}
		for _, l := range m.linksAt[here.node] {
			link := &m.links[l]
			next := link.From + link.To - here.node
			if link.oneWay && link.From != here.node {
				continue
			}
			if sum := here.r + each[l]; sum < r.to[next] {
				r.to[next], r.up[next], r.hops[next] = sum, here.node, r.hops[here.node]+1
				heap.Push(&q, reached{next, sum})
			}
		}
	}
	return r
}

// resist is each element's resistance.
func (m *Model) resist() []float64 {
	top := 0.0
	for _, s := range m.sources {
		top = math.Max(top, float64(s.CutIn.Abs(m.atm)))
	}
	out := make([]float64, len(m.links))
	for i, law := range m.laws(0).links {
		out[i] = math.Inf(1)
		// A regulator passes nothing at a small loss above its setting: try lower.
		for _, share := range []float64{0.98, 0.6, 0.3} {
			if flow, _, _ := law.Flow(top, share*top); flow > 0 {
				out[i] = top * top * (1 - share*share) / (flow * flow)
				break
			}
		}
	}
	return out
}

// ToPair is the resistance from a source to a pair's tool; -1 where no way leads.
func (r *Resistances) ToPair(pair int) float64 {
	x := r.to[r.m.pairs[pair].Node]
	if math.IsInf(x, 1) {
		return -1
	}
	return x
}

// Shared is the resistance of what the easiest ways to two pairs have in common.
func (r *Resistances) Shared(a, b int) float64 {
	x, y := r.m.pairs[a].Node, r.m.pairs[b].Node
	for x != y {
		if r.hops[x] < r.hops[y] {
			x, y = y, x
		}
		if r.up[x] < 0 {
			return 0
		}
		x = r.up[x]
	}
	if math.IsInf(r.to[x], 1) {
		return 0
	}
	return r.to[x]
}

// reached is a node on the frontier of the search.
type reached struct {
	node int
	r    float64
}

type frontier []reached

func (f frontier) Len() int           { return len(f) }
func (f frontier) Less(i, k int) bool { return f[i].r < f[k].r }
func (f frontier) Swap(i, k int)      { f[i], f[k] = f[k], f[i] }
func (f *frontier) Push(x any)        { *f = append(*f, x.(reached)) }
func (f *frontier) Pop() any {
	old := *f
	last := old[len(old)-1]
	*f = old[:len(old)-1]
	return last
}
