package model

import (
	"slices"

	"dropleg/engine/network"
	"dropleg/engine/unit"
)

// Store is a vessel in a case that does not hold its pressure but gives what it holds:
// Gives × (Back − p) of air come out of it at its node, or go in. That is an implicit step
// of its own balance V/(R T) dp/dt, which so is solved together with the network.
type Store struct {
	Node  int              // of Model.Nodes
	Back  unit.AbsPressure // at which it exchanges nothing
	Gives float64          // kg/(s Pa), ≥ 0
	Held  bool             // it stands at Back instead
}

// StoreState is what one store does.
type StoreState struct {
	Pressure unit.AbsPressure
	Out      unit.MassFlow // into the network; negative: it fills
	Known    bool
}

// exchange is the law of a store's air, linear in the pressures.
type exchange float64

// Flow implements element.Law.
func (g exchange) Flow(p1, p2 float64) (m, d1, d2 float64) {
	return float64(g) * (p1 - p2), float64(g), -float64(g)
}

// storeNodes lists where the stores of a case are.
func (c Case) storeNodes() []int {
	if len(c.Stores) == 0 {
		return nil
	}
	at := make([]int, len(c.Stores))
	for i, s := range c.Stores {
		at[i] = s.Node
	}
	return at
}

// addStores hangs on each store's node the air behind it, as a node of its own.
func (v *live) addStores(n *network.Network) {
	for _, node := range v.stores {
		back := n.AddNode(network.Node{Fixed: true})
		n.AddLink(network.Link{From: back, To: v.at[node], Law: exchange(0)})
	}
}

// setStores holds or lets go of the stores of a case; sources among the rest of the
// network then follow it as well.
func (s *Solver) setStores(c Case) {
	if len(c.Stores) == 0 {
		return
	}
	for i := range s.m.sources {
		if node := s.m.sources[i].Node; !slices.Contains(s.live.stores, node) {
			s.live.net.Free(s.live.at[node])
		}
	}
	for i, store := range c.Stores {
		at := s.live.at[store.Node]
		s.live.net.SetPressure(len(s.live.nodes)+i, float64(store.Back))
		s.live.net.SetLaw(len(s.live.links)+i, exchange(store.Gives))
		if store.Held {
			s.live.net.SetPressure(at, float64(store.Back))
		} else {
			s.live.net.Free(at)
		}
	}
}

// fillStores reads what the stores did.
func (m *Model) fillStores(r *Result, st *network.State) {
	for _, store := range r.Case.Stores {
		out := StoreState{Pressure: unit.AbsPressure(st.Pressure[store.Node]), Known: st.Determined[store.Node]}
		for _, l := range m.linksAt[store.Node] {
			if m.links[l].From == store.Node {
				out.Out += unit.MassFlow(st.Flow[l])
			} else {
				out.Out -= unit.MassFlow(st.Flow[l])
			}
		}
		out.Out += unit.MassFlow(st.Taken[store.Node])
		r.Stores = append(r.Stores, out)
	}
}
