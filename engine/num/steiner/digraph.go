package steiner

// digraph is what is searched: arcs with a price, a root and terminals to be reached.
// Where nothing turns its nodes are those of the problem. Else a node is a way of
// arriving, the arc by which air comes, and turns are part of the arcs.
type digraph struct {
	n     int
	root  int
	terms []int // without the root
	arcs  []arc
	out   [][]int32 // arcs by the node that they leave
	in    [][]int32 // arcs by the node that they reach
}

// arc is one way. tag is twice the link that it passes, plus one for its way back, or
// none where it only reaches a terminal.
type arc struct {
	from, to int
	price    int64
	tag      int
}

const none = -1

func newDigraph(n, root int, terms []int, arcs []arc) *digraph {
	g := &digraph{n: n, root: root, terms: terms, arcs: arcs, out: make([][]int32, n), in: make([][]int32, n)}
	for i, a := range arcs {
		g.out[a.from] = append(g.out[a.from], int32(i))
		g.in[a.to] = append(g.in[a.to], int32(i))
	}
	return g
}

// plain is the digraph of a problem without turns; root is one of the terminals.
func plain(p *Problem, links []link, terms []int, root int) *digraph {
	var arcs []arc
	for i, l := range links {
		arcs = append(arcs, arc{l.a, l.b, l.there, 2 * i}, arc{l.b, l.a, l.back, 2*i + 1})
	}
	var rest []int
	for _, t := range terms {
		if t != root {
			rest = append(rest, t)
		}
	}
	return newDigraph(p.Nodes, root, rest, arcs).reached()
}

// arriving is the digraph of a problem with turns: node 2i is the end of link i, 2i+1
// its beginning, come to from the other end; then the root, then the terminals.
func arriving(p *Problem, links []link, terms []int) *digraph {
	root := 2 * len(links)
	at := make([][]int, p.Nodes) // ways out of a node, by tag
	for i, l := range links {
		at[l.a] = append(at[l.a], 2*i)
		at[l.b] = append(at[l.b], 2*i+1)
	}
	first := func(tag int) int { // the edge by which a way leaves
		if tag%2 == 0 {
			return links[tag/2].atA
		}
		return links[tag/2].atB
	}
	price := func(tag int) int64 {
		if tag%2 == 0 {
			return links[tag/2].there
		}
		return links[tag/2].back
	}
	var arcs []arc
	for _, tag := range at[terms[0]] {
		arcs = append(arcs, arc{root, tag, price(tag), tag})
	}
	sink := map[int]int{}
	var rest []int
	for k, t := range terms[1:] {
		sink[t] = root + 1 + k
		rest = append(rest, root+1+k)
	}
	for tag := range 2 * len(links) {
		l := links[tag/2]
		node, last := l.b, l.atB
		if tag%2 == 1 {
			node, last = l.a, l.atA
		}
		if s, ok := sink[node]; ok {
			arcs = append(arcs, arc{tag, s, 0, none})
		}
		if node == terms[0] {
			continue // nothing comes back to the root
		}
		for _, next := range at[node] {
			if next/2 != tag/2 {
				arcs = append(arcs, arc{tag, next, price(next) + p.turn(node, last, first(next)), next})
			}
		}
	}
	return newDigraph(root+len(terms), root, rest, arcs).reached()
}

// reached is the digraph without what no tree from the root to terminals can use, its
// nodes numbered anew.
func (g *digraph) reached() *digraph {
	return g.kept(func(int) bool { return true })
}

// kept is the digraph with some arcs only, and of those the ones between root and terminals.
func (g *digraph) kept(keep func(arc int) bool) *digraph {
	next, _ := g.keptWith(keep)
	return next
}

// keptWith is that with the arcs' numbers before.
func (g *digraph) keptWith(keep func(arc int) bool) (*digraph, []int32) {
	ahead, behind := g.mark([]int{g.root}, keep, true), g.mark(g.terms, keep, false)
	number := make([]int, g.n)
	n := 0
	for v := range g.n {
		number[v] = none
		if ahead[v] && behind[v] {
			number[v] = n
			n++
		}
	}
	if number[g.root] == none {
		number[g.root] = n
		n++
	}
	var arcs []arc
	var was []int32
	for i, a := range g.arcs {
		if keep(i) && number[a.from] != none && number[a.to] != none && a.to != g.root {
			arcs = append(arcs, arc{number[a.from], number[a.to], a.price, a.tag})
			was = append(was, int32(i))
		}
	}
	terms := make([]int, len(g.terms))
	for i, t := range g.terms {
		if terms[i] = number[t]; terms[i] == none { // out of reach: it stays, alone
			terms[i] = n
			n++
		}
	}
	return newDigraph(n, number[g.root], terms, arcs), was
}

// mark tells the nodes ahead of some, or behind them.
func (g *digraph) mark(from []int, keep func(arc int) bool, ahead bool) []bool {
	seen := make([]bool, g.n)
	todo := []int{}
	for _, v := range from {
		seen[v] = true
		todo = append(todo, v)
	}
	for len(todo) > 0 {
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		list := g.out[v]
		if !ahead {
			list = g.in[v]
		}
		for _, i := range list {
			to := g.arcs[i].to
			if !ahead {
				to = g.arcs[i].from
			}
			if keep(int(i)) && !seen[to] {
				seen[to] = true
				todo = append(todo, to)
			}
		}
	}
	return seen
}
