package model

import (
	"dropleg/engine/element"
	"dropleg/internal/shop/job"
)

// variant is what a law depends on besides the job: the figures' bias and
// whether what loads up is loaded.
type variant struct {
	bias   Bias
	loaded bool
}

// lawOf makes the law of a link for a variant.
type lawOf func(variant) (element.Law, error)

// link is an element with what builds its law, while the graph is laid.
type link struct {
	Element
	law    lawOf
	likely element.Law // the law of the first variant, tried by Build
	// oneWay: air passes From → To only (check valve, regulator); such a link
	// parts zones of pressure.
	oneWay bool
	zone   job.ID
	rt     float64 // Z R T of the air in it, J/kg
}

// graph collects nodes and links while the job is read. Nodes that turn out to
// be one place (a part without loss) are merged and numbered afresh at the end.
type graph struct {
	nodes  []Node
	parent []int
	byKey  map[string]int
	links  []link
}

// newGraph has room for what most jobs make of their points, lines and outlets.
func newGraph(j *job.Job) graph {
	nodes := 2*len(j.Net.Points) + 6*len(j.Outlets)
	return graph{
		nodes: make([]Node, 0, nodes), parent: make([]int, 0, nodes), byKey: make(map[string]int, nodes),
		links: make([]link, 0, len(j.Net.Points)+len(j.Net.Runs)+5*len(j.Outlets)),
	}
}

// node finds or adds the node of a key.
func (g *graph) node(n Node) int {
	if i, ok := g.byKey[n.Key]; ok {
		return i
	}
	i := len(g.nodes)
	g.nodes = append(g.nodes, n)
	g.parent = append(g.parent, i)
	g.byKey[n.Key] = i
	return i
}

// find is the node that stands for all merged with i.
func (g *graph) find(i int) int {
	for g.parent[i] != i {
		g.parent[i] = g.parent[g.parent[i]]
		i = g.parent[i]
	}
	return i
}

// merge makes a and b one node; the older keeps its key.
func (g *graph) merge(a, b int) {
	a, b = g.find(a), g.find(b)
	if a > b {
		a, b = b, a
	}
	g.parent[b] = a
}

// add lays a link.
func (g *graph) add(l link) { g.links = append(g.links, l) }

// number gives every distinct node its final index and returns the map from
// laid nodes to final ones. Links that merging left with both ends at one node
// carry nothing and are dropped.
func (g *graph) number() (nodes []Node, final []int) {
	final = make([]int, len(g.nodes))
	nodes = g.nodes[:0] // none moves back
	for i := range g.nodes {
		if g.find(i) == i {
			final[i] = len(nodes)
			nodes = append(nodes, g.nodes[i])
		}
	}
	for i := range g.nodes {
		final[i] = final[g.find(i)]
	}
	kept := g.links[:0]
	for _, l := range g.links {
		l.From, l.To = final[l.From], final[l.To]
		if l.From == l.To {
			continue
		}
		l.Index = len(kept)
		kept = append(kept, l)
	}
	g.links = kept
	return nodes, final
}
