package model

import (
	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/unit"
)

// toolLaw is the law by which a pair's tool takes air for a bias, or a constant
// flow in kg/s where the law is nil.
//
// A tool follows absolute pressure while it runs, through its rated point; a
// nozzle is an orifice; a tool marked constant takes its flow whatever the
// pressure.
func (m *Model) toolLaw(pair int, bias Bias) (element.Law, float64) {
	t := m.toolOf(m.pairs[pair].Tool)
	flow := figure{float64(t.FreeAir), float64(t.Low), float64(t.High)}.at(bias)
	rated := float64(t.Rated.Abs(m.atm))
	switch {
	case t.Constant:
		return nil, massOf(unit.FreeAir(flow))
	case t.Nozzle > 0:
		if law, err := element.NewOrifice(m.gas, float64(t.Nozzle), nozzleCd); err == nil {
			return law, 0
		}
	default:
		if law, err := element.NewTool(element.ToolSpec{Flow: massOf(unit.FreeAir(flow)), Pressure: rated, Atmosphere: float64(m.atm)}); err == nil {
			return law, 0
		}
	}
	return nil, 0 // a tool without a flow takes none
}

// nozzleFlow is what an open nozzle passes at p to the atmosphere, as free air.
func nozzleFlow(bore unit.Length, p, atm unit.AbsPressure, gas element.Gas) unit.FreeAir {
	law, err := element.NewOrifice(gas, float64(bore), nozzleCd)
	if err != nil {
		return 0
	}
	flow, _, _ := law.Flow(float64(p), float64(atm))
	return air.FreeAir(unit.MassFlow(flow))
}
