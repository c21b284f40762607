package model

import "dropleg/engine/element"

// Laws are what the network is made of in one state, for who tries out what a
// job cannot state: an element that passes less than it should, a hole, a tool
// that takes more. Treat as read-only.
type Laws struct {
	Links []element.Law // by Element.Index
	Tools []element.Law // by Pair.Index; nil: takes Taken whatever the pressure
	Taken []float64     // by Pair.Index, kg/s
}

// Laws gives the laws of a bias, with what loads up loaded or clean.
func (m *Model) Laws(bias Bias, loaded bool) Laws {
	for i, v := range variants {
		if v == (variant{bias, loaded}) {
			s := m.laws(i)
			return Laws{s.links, s.tools, s.taken}
		}
	}
	return m.Laws(Likely, loaded)
}

// Gas is the air at the tools.
func (m *Model) Gas() element.Gas { return m.gas }
