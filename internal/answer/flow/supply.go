package flow

import (
	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/shop/model"
)

// supply weighs what the compressors deliver against what the tools of a set
// take at cut-in and the leak allowance. The receivers ride a shortfall while
// they fall from cut-out to cut-in: V Δp / (R T) of air, isothermal at 20 °C;
// line volume is left out, which is on the safe side.
func (w *work) supply(s State) Supply {
	out := Supply{}
	for _, c := range w.m.Compressors() {
		out.Delivered += c.FreeAir
	}
	for _, t := range s.Tools {
		out.Taken += t.Flow
	}
	out.Leak = unit.FreeAir(float64(out.Delivered) * float64(w.j.RuleLeak().Value))
	out.Short = max(0, out.Taken+out.Leak-out.Delivered)
	if out.Short > 0 {
		t := unit.Duration(stored(w.m) / float64(air.Mass(out.Short)))
		out.Rides = &t
	}
	return out
}

// stored is the air, kg, that the receivers give from cut-out to cut-in:
// those whose pressure the compressors' band moves.
func stored(m *model.Model) float64 {
	kg := 0.0
	for _, r := range m.Receivers() {
		if r.Source < 0 {
			continue
		}
		s := m.Sources()[r.Source]
		kg += float64(r.Volume) * float64(s.CutOut-s.CutIn) / (air.GasConstant * float64(air.ISO1217.Temperature))
	}
	return kg
}
