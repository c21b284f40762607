package model

import (
	"dropleg/engine/element"
	"dropleg/engine/unit"
)

// Law is what an element does to the air at cut-in, with loaded filters and at likely
// figures, and the Z R T of the air in it, J/kg.
func (m *Model) Law(index int) (law element.Law, rt float64) {
	return m.links[index].likely, m.links[index].rt
}

// Takes is what a pair's tool takes while it has a pressure at its inlet, at likely figures.
func (m *Model) Takes(pair int, at unit.AbsPressure) unit.MassFlow {
	law, taken := m.toolLaw(pair, Likely)
	if law == nil {
		return unit.MassFlow(taken)
	}
	flow, _, _ := law.Flow(float64(at), float64(m.atm))
	return unit.MassFlow(flow)
}
