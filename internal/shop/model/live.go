package model

import (
	"dropleg/engine/element"
	"dropleg/engine/network"
)

// live is the part of the network in which air can move while certain tools
// run. Left out are branches that end blind, which is most of a shop: the chains
// of all outlets where nothing runs. Nothing flows in them, so that pressures
// there follow from where they hang.
type live struct {
	on      []int // pairs that run
	stores  []int // the model's nodes that have a store behind them
	net     *network.Solver
	variant int    // of the laws in net
	nodes   []int  // the model's nodes in it
	links   []int  // the model's links in it
	at      []int  // by the model's node: its place in nodes; -1 in a blind branch
	blind   []twig // each before the one that it hangs on
}

// twig is a node of a blind branch and how it hangs on the rest.
type twig struct {
	node, from int
	link       int // -1: on nothing
}

// liveFor finds the part that is live while the given pairs run: it takes off
// ends, where neither a source, a store, a compressor nor a running tool is, until none
// is left. (A blind loop stays; its pressures are solved for.)
func (m *Model) liveFor(on, stores []int) (*live, error) {
	v := &live{on: on, stores: stores, at: make([]int, len(m.nodes)), blind: make([]twig, 0, len(m.nodes))}
	ends := make([]int, len(m.nodes)) // links left at each node; a stop has more than any
	for i := range m.nodes {
		ends[i] = len(m.linksAt[i])
		if m.isSource[i] || len(m.plantAt[i]) > 0 {
			ends[i] += 2
		}
	}
	for _, i := range on {
		ends[m.pairs[i].Node] += 2
	}
	for _, n := range stores {
		ends[n] += 2
	}
	off := make([]bool, len(m.links))
	for i := range m.nodes {
		for n := i; n >= 0 && ends[n] <= 1 && v.at[n] == 0; {
			v.at[n] = -1
			t := twig{node: n, from: -1, link: -1}
			for _, l := range m.linksAt[n] {
				if !off[l] {
					off[l] = true
					t.link, t.from = l, m.links[l].From+m.links[l].To-n
					ends[t.from]--
				}
			}
			v.blind = append(v.blind, t)
			n = t.from
		}
	}
	return v, v.compile(m, off)
}

// compile numbers what is live and orders its equations.
func (v *live) compile(m *Model, off []bool) error {
	live := len(m.nodes) - len(v.blind)
	v.nodes = make([]int, 0, live)
	for i := range m.nodes {
		if v.at[i] == 0 {
			v.at[i] = len(v.nodes)
			v.nodes = append(v.nodes, i)
		}
	}
	room := max(0, len(m.links)-len(v.blind)) + 1
	n := network.Network{Nodes: make([]network.Node, live), Links: make([]network.Link, 0, room)}
	v.links = make([]int, 0, room)
	laws := m.laws(0).links
	for i := range m.links {
		if !off[i] {
			v.links = append(v.links, i)
			n.AddLink(network.Link{From: v.at[m.links[i].From], To: v.at[m.links[i].To], Law: laws[i]})
		}
	}
	v.addStores(&n)
	top, err := n.Compile()
	if err != nil {
		return err
	}
	v.net = top.NewSolver()
	return nil
}

// spread gives an answer of the live part to the whole model; nil for none.
func (s *Solver) spread(st *network.State) *network.State {
	if st == nil {
		return nil
	}
	m, w := s.m, &s.whole
	if w.Pressure == nil {
		n := len(m.nodes)
		*w = network.State{
			Pressure: make([]float64, n), Flow: make([]float64, len(m.links)),
			Taken: make([]float64, n), Determined: make([]bool, n),
		}
	}
	clear(w.Flow)
	w.Iterations, w.Residual = st.Iterations, st.Residual
	for i, n := range s.live.nodes {
		w.Pressure[n], w.Taken[n], w.Determined[n] = st.Pressure[i], st.Taken[i], st.Determined[i]
	}
	for i, l := range s.live.links {
		w.Flow[l] = st.Flow[i]
	}
	for i := len(s.live.blind) - 1; i >= 0; i-- {
		t := s.live.blind[i]
		w.Pressure[t.node], w.Taken[t.node], w.Determined[t.node] = 0, 0, false
		if t.link >= 0 && w.Determined[t.from] {
			forward := m.links[t.link].From == t.from
			w.Pressure[t.node], w.Determined[t.node] = fills(s.set.links[t.link], w.Pressure[t.from], forward)
		}
	}
	return w
}

// fills is the pressure to which a blind branch fills from p through a law,
// forward or against it; false where no air gets in.
func fills(law element.Law, p float64, forward bool) (float64, bool) {
	d, ok := law.(element.Directed)
	if !ok {
		return p, true
	}
	ahead, back := d.Passes()
	switch {
	case ahead && back:
		return p, true
	case ahead && forward:
		return d.Holds(p), true
	}
	return 0, false
}
