package network

import (
	"fmt"

	"dropleg/engine/element"
	"dropleg/engine/num/sparse"
)

// Node is a place with one pressure. It has a fixed pressure, or it balances
// what the links bring against Demand and Outflow (either, both or neither).
type Node struct {
	Name     string
	Fixed    bool
	Pressure float64 // Pa absolute, where Fixed
	Demand   float64 // kg/s taken out whatever the pressure; below zero: put in
	// Outflow takes air from the node to a place at Back, never the other way.
	Outflow element.Law
	Back    float64 // Pa absolute
}

// Link is an element between two nodes, given by their index. Flow is positive
// from From to To.
type Link struct {
	Name     string
	From, To int
	Law      element.Law
}

// Network is the plain description. Compile reads it and keeps nothing of it.
type Network struct {
	Nodes []Node
	Links []Link
}

// AddNode appends a node and returns its index.
func (n *Network) AddNode(v Node) int {
	n.Nodes = append(n.Nodes, v)
	return len(n.Nodes) - 1
}

// AddLink appends a link and returns its index.
func (n *Network) AddLink(l Link) int {
	n.Links = append(n.Links, l)
	return len(n.Links) - 1
}

// Topology is a network with its order of elimination found. It does not
// change and may be shared; each goroutine solves with a Solver of its own.
type Topology struct {
	nodes   []Node
	links   []Link
	pattern *sparse.Pattern
	// Links at each node: linkAt[nodePtr[i]:nodePtr[i+1]].
	nodePtr, linkAt []int32
}

// Compile checks the links' ends and orders the equations. What the nodes and
// links carry (pressures, demands, laws) may be changed later in a Solver.
func (n *Network) Compile() (*Topology, error) {
	t := &Topology{nodes: append([]Node(nil), n.Nodes...), links: append([]Link(nil), n.Links...)}
	edges := make([][2]int32, len(n.Links))
	t.nodePtr = make([]int32, len(n.Nodes)+1)
	for i, l := range n.Links {
		if l.From < 0 || l.From >= len(n.Nodes) || l.To < 0 || l.To >= len(n.Nodes) {
			return nil, fmt.Errorf("link %d %q: no node %d or %d", i, l.Name, l.From, l.To)
		}
		if l.Law == nil {
			return nil, fmt.Errorf("link %d %q has no law", i, l.Name)
		}
		edges[i] = [2]int32{int32(l.From), int32(l.To)}
		t.nodePtr[l.From+1]++
		t.nodePtr[l.To+1]++
	}
	for v := range n.Nodes {
		t.nodePtr[v+1] += t.nodePtr[v]
	}
	t.linkAt = make([]int32, 2*len(n.Links))
	at := append([]int32(nil), t.nodePtr...)
	for i, e := range edges {
		for _, v := range e {
			t.linkAt[at[v]] = int32(i)
			at[v]++
		}
	}
	t.pattern = sparse.Analyze(len(n.Nodes), edges)
	return t, nil
}

// Nodes and Links tell how many there are.
func (t *Topology) Nodes() int { return len(t.nodes) }
func (t *Topology) Links() int { return len(t.links) }
