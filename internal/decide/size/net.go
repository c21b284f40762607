package size

import (
	"dropleg/engine/element"
	"dropleg/internal/shop/model"
)

// net is the part of a model through which air comes to the tools that matter: what ends
// blind is off, and so is what lets nothing through.
type net struct {
	m     *model.Model
	nodes int     // the model's and one more, root, from which all sources hang
	at    [][]int // links at each node; negative ones lead from the root to a source
	live  []bool  // by element
	tools map[int][]int
	// Blocks are links that hang together so that each pair lies on a ring; a link on no
	// ring is a block by itself. blocksAt lists those at each node.
	blocks   [][]int
	blocksAt [][]int
}

// toSource is the link from the root to source i.
func toSource(i int) int { return -1 - i }

// newNet finds what is live for some pairs of tool and outlet.
func newNet(m *model.Model, pairs []int) *net {
	n := &net{m: m, nodes: len(m.Nodes()) + 1, live: make([]bool, len(m.Elements())), tools: map[int][]int{}}
	for _, p := range pairs {
		at := m.Pairs()[p].Node
		n.tools[at] = append(n.tools[at], p)
	}
	n.at = make([][]int, n.nodes)
	for i := range m.Elements() {
		law, _ := m.Law(i)
		if !passes(law) {
			continue
		}
		n.live[i] = true
		a, b := n.ends(i)
		n.at[a], n.at[b] = append(n.at[a], i), append(n.at[b], i)
	}
	for i, s := range m.Sources() {
		n.at[n.root()] = append(n.at[n.root()], toSource(i))
		n.at[s.Node] = append(n.at[s.Node], toSource(i))
	}
	n.trim()
	n.findBlocks()
	return n
}

func (n *net) root() int { return n.nodes - 1 }

// ends are the two nodes of a link.
func (n *net) ends(link int) (a, b int) {
	if link < 0 {
		return n.root(), n.m.Sources()[toSource(link)].Node
	}
	e := &n.m.Elements()[link]
	return e.From, e.To
}

// passes: a law lets air through at all, one way or the other.
func passes(law element.Law) bool {
	const high, low = 8e5, 1e5
	ahead, _, _ := law.Flow(high, low)
	back, _, _ := law.Flow(low, high)
	return ahead > 0 || back < 0
}

// trim takes off ends where neither a tool nor the root is.
func (n *net) trim() {
	var ends []int
	for i := range n.at {
		if n.blind(i) {
			ends = append(ends, i)
		}
	}
	for len(ends) > 0 {
		i := ends[len(ends)-1]
		ends = ends[:len(ends)-1]
		if !n.blind(i) {
			continue
		}
		link := n.at[i][0]
		n.at[i] = nil
		a, b := n.ends(link)
		other := a + b - i
		n.at[other] = without(n.at[other], link)
		if link >= 0 {
			n.live[link] = false
		}
		if n.blind(other) {
			ends = append(ends, other)
		}
	}
}

func (n *net) blind(node int) bool {
	return len(n.at[node]) == 1 && len(n.tools[node]) == 0 && node != n.root()
}

func without(list []int, x int) []int {
	var out []int
	for _, y := range list {
		if y != x {
			out = append(out, y)
		}
	}
	return out
}

// findBlocks parts what the root reaches into blocks, after Hopcroft and Tarjan 1973
// (recalled): a walk in depth, in which a block ends where nothing below leads back above.
func (n *net) findBlocks() {
	w := &blockWalk{net: n, depth: make([]int, n.nodes), low: make([]int, n.nodes)}
	w.down(n.root(), 1, nil)
	n.blocksAt = make([][]int, n.nodes)
	for b, links := range n.blocks {
		seen := map[int]bool{}
		for _, l := range links {
			x, y := n.ends(l)
			for _, node := range []int{x, y} {
				if !seen[node] {
					seen[node] = true
					n.blocksAt[node] = append(n.blocksAt[node], b)
				}
			}
		}
	}
}

type blockWalk struct {
	*net
	depth, low []int
	stack      []int // links
}

func (w *blockWalk) down(node, depth int, via *int) {
	w.depth[node], w.low[node] = depth, depth
	for _, l := range w.at[node] {
		if via != nil && l == *via {
			continue
		}
		a, b := w.ends(l)
		next := a + b - node
		switch {
		case w.depth[next] == 0:
			w.stack = append(w.stack, l)
			w.down(next, depth+1, &l)
			w.low[node] = min(w.low[node], w.low[next])
			if w.low[next] >= depth {
				w.close(l)
			}
		case w.depth[next] < depth:
			w.stack = append(w.stack, l)
			w.low[node] = min(w.low[node], w.depth[next])
		}
	}
}

// close ends the block that began with a link.
func (w *blockWalk) close(first int) {
	for i := len(w.stack) - 1; i >= 0; i-- {
		if w.stack[i] == first {
			w.blocks = append(w.blocks, append([]int(nil), w.stack[i:]...))
			w.stack = w.stack[:i]
			return
		}
	}
}
