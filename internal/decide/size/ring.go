package size

import (
	"context"
	"math"
	"slices"

	"dropleg/engine/network"
	"dropleg/internal/decide/size/tree"
)

// ring is a block of links that hang together on rings: all its lines take one size. With
// the flows that leave it given, so is how it parts them; the way of the air to each place
// where some leaves is then followed as in a tree.
type ring struct {
	entry   int
	links   []int
	ports   []int // nodes where air leaves: a tool or what hangs below
	choices []int
	rungs   [][]int // by option, as choices: the option of each
	ways    map[wayKey][][]step
	nodes   map[int]int // by the model's node
}

type wayKey struct{ option, kase int }

// step is a link on the way to a port with its flow.
type step struct {
	hop
	flow float64
}

// around makes a place of a block and walks on from each of its nodes.
func (f *frame) around(b, node, up, port int, seen []bool) {
	r := &ring{entry: node, links: f.net.blocks[b], ways: map[wayKey][][]step{}, nodes: map[int]int{}}
	p := f.open(up, port, -1)
	f.places[p].ring = r
	for _, l := range r.links {
		a, z := f.net.ends(l)
		for _, n := range []int{a, z} {
			if _, ok := r.nodes[n]; !ok {
				r.nodes[n] = len(r.nodes)
			}
		}
		if l >= 0 {
			if c := f.choiceOf[l]; c >= 0 && !slices.Contains(r.choices, c) {
				r.choices = append(r.choices, c)
			}
		}
	}
	if up < 0 { // the sources themselves stand on a ring: the lowest of their pressures holds
		supply := math.Inf(1)
		for _, s := range f.model.Sources() {
			supply = min(supply, float64(s.CutIn.Abs(f.model.Atmosphere())))
		}
		f.problem.Places[p].Supply = slices.Repeat([]float64{supply}, f.problem.Cases)
	}
	for _, l := range r.links { // from the root a source is no way off
		if a, z := f.net.ends(l); l < 0 {
			r.nodes[z] = r.nodes[a]
		}
	}
	inside := make([]int, 0, len(r.nodes))
	for n := range r.nodes {
		inside = append(inside, n)
	}
	slices.Sort(inside)
	for _, n := range inside {
		if n == node {
			continue
		}
		at, before := len(r.ports), len(f.places)
		r.ports = append(r.ports, n)
		f.down(n, p, at, seen)
		if len(f.places) == before {
			r.ports = r.ports[:at]
		}
	}
}

// ringLaws gives a ring its options: all its lines by the same size, as far as each has it.
func (f *frame) ringLaws(i int) {
	v, r := &f.problem.Places[i], f.places[i].ring
	most := 1
	for _, c := range r.choices {
		most = max(most, len(f.choices[c].options))
	}
	for k := range most {
		o := tree.Option{}
		var picks []int
		for _, c := range r.choices {
			at := max(f.choices[c].barred, min(k, len(f.choices[c].options)-1))
			picks = append(picks, at)
			if !f.prices[c] {
				o.Price += f.choices[c].options[at].price
			}
			if f.choices[c].line && !f.choices[c].held {
				o.Bore = max(o.Bore, f.choices[c].options[at].bore)
			}
		}
		r.rungs = append(r.rungs, picks)
		v.Options = append(v.Options, o)
	}
	for _, c := range r.choices {
		f.prices[c] = true
	}
	v.Line = v.Options[0].Bore > 0
	v.Inlet = func(option, kase, port int, out float64) float64 {
		ways := f.waysOf(i, option, kase)
		if ways == nil {
			return math.Inf(1)
		}
		way := ways[port]
		for n := len(way) - 1; n >= 0; n-- {
			out = f.climbLinks([]hop{way[n].hop}, f.rungOf(r, option, way[n].link), kase, func(int) float64 { return way[n].flow }, out)
		}
		return out
	}
}

// rungOf is the rung by which a link of a ring goes in an option of the ring.
func (f *frame) rungOf(r *ring, option, link int) int {
	rung := 0
	for k, c := range r.choices {
		pick := f.choices[c].options[r.rungs[option][k]].rung
		if link >= 0 && f.choiceOf[link] == c {
			return pick
		}
		rung = max(rung, pick)
	}
	return rung
}

// waysOf solves a ring with what leaves it in a case and follows the air to each port;
// nil where it cannot be carried.
func (f *frame) waysOf(i, option, kase int) [][]step {
	r := f.places[i].ring
	key := wayKey{option, kase}
	if ways, ok := r.ways[key]; ok {
		return ways
	}
	r.ways[key] = nil
	n := network.Network{Nodes: make([]network.Node, len(r.nodes))}
	supply := 0.0
	for _, s := range f.model.Sources() {
		supply = max(supply, float64(s.CutIn.Abs(f.model.Atmosphere())))
	}
	n.Nodes[r.nodes[r.entry]] = network.Node{Fixed: true, Pressure: supply}
	for c := range f.problem.Places {
		if v := &f.problem.Places[c]; v.Parent == i {
			n.Nodes[r.nodes[r.ports[v.Port]]].Demand += v.Flow[kase]
		}
	}
	var links []int
	for _, l := range r.links {
		a, z := f.net.ends(l)
		if l < 0 {
			continue
		}
		law := f.rungs[f.rungOf(r, option, l)].laws[l]
		if law == nil {
			law, _ = f.model.Law(l)
		}
		links = append(links, l)
		n.AddLink(network.Link{From: r.nodes[a], To: r.nodes[z], Law: law})
	}
	top, err := n.Compile()
	if err != nil {
		return nil
	}
	st, err := top.NewSolver().Solve(context.Background())
	if err != nil {
		return nil
	}
	ways := make([][]step, len(r.ports))
	for k, node := range r.ports {
		ways[k] = f.upstream(r, links, st.Flow, node)
		if ways[k] == nil {
			return nil
		}
	}
	r.ways[key] = ways
	return ways
}

// upstream follows the air from a node of a ring to its entry, at each node by the link
// that brings most. A node that nothing comes to has the way of no flow.
func (f *frame) upstream(r *ring, links []int, flow []float64, node int) []step {
	way := []step{}
	for range r.nodes {
		if r.nodes[node] == r.nodes[r.entry] {
			slices.Reverse(way)
			return way
		}
		best, most := -1, 0.0
		for k, l := range links {
			a, z := f.net.ends(l)
			in := flow[k]
			if a == node {
				in = -in
			}
			if (a == node || z == node) && in > most {
				best, most = k, in
			}
		}
		if best < 0 {
			return way[:0]
		}
		a, z := f.net.ends(links[best])
		way = append(way, step{hop{links[best], z == node}, most})
		node = a + z - node
	}
	return nil
}
