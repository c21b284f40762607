package steiner

import "slices"

// link is a chain of edges between two nodes where ways meet, end or turn.
type link struct {
	a, b   int
	there  int64 // price from a to b, turns within included
	back   int64
	atA    int   // the edge at the end a
	atB    int   // the edge at the end b
	edges  []int // from a to b
	closed bool  // taken into another
}

// links are the edges without what no tree needs: ends that are no terminals, and nodes
// of two edges, whose edges become one.
func (p *Problem) links(terminal []bool) []link {
	out := make([]link, 0, len(p.Edges))
	at := make([][]int, p.Nodes)
	add := func(l link) {
		i := len(out)
		out = append(out, l)
		at[l.a], at[l.b] = append(at[l.a], i), append(at[l.b], i)
	}
	for i, e := range p.Edges {
		if e.A != e.B {
			add(link{a: e.A, b: e.B, there: e.Price, back: e.Price, atA: i, atB: i, edges: []int{i}})
		}
	}
	drop := func(i int) {
		out[i].closed = true
		for _, v := range []int{out[i].a, out[i].b} {
			at[v] = slices.DeleteFunc(at[v], func(k int) bool { return k == i })
		}
	}
	todo := make([]int, p.Nodes)
	for v := range todo {
		todo[v] = v
	}
	for len(todo) > 0 {
		v := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		switch {
		case terminal[v] || len(at[v]) == 0 || len(at[v]) > 2:
		case len(at[v]) == 1:
			l := out[at[v][0]]
			drop(at[v][0])
			todo = append(todo, l.a+l.b-v)
		default:
			i, k := at[v][0], at[v][1]
			first, second := out[i].endingAt(v), out[k].startingAt(v)
			drop(i)
			drop(k)
			if first.a == second.b { // a loop
				todo = append(todo, first.a)
				continue
			}
			add(first.joined(second, p.turn(v, first.atB, second.atA), p.turn(v, second.atA, first.atB)))
		}
	}
	return slices.DeleteFunc(out, func(l link) bool { return l.closed })
}

func (p *Problem) turn(node, in, out int) int64 {
	if p.Turn == nil {
		return 0
	}
	return max(0, p.Turn(node, in, out))
}

func (l link) turned() link {
	edges := slices.Clone(l.edges)
	slices.Reverse(edges)
	return link{a: l.b, b: l.a, there: l.back, back: l.there, atA: l.atB, atB: l.atA, edges: edges}
}

func (l link) startingAt(v int) link {
	if l.a == v {
		return l
	}
	return l.turned()
}

func (l link) endingAt(v int) link {
	if l.b == v {
		return l
	}
	return l.turned()
}

// joined is l and then m; there and back are the turns between them.
func (l link) joined(m link, there, back int64) link {
	return link{
		a: l.a, b: m.b, there: l.there + m.there + there, back: l.back + m.back + back,
		atA: l.atA, atB: m.atB, edges: slices.Concat(l.edges, m.edges),
	}
}
