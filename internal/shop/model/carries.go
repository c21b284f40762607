package model

import (
	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// Carries is what a treatment part of the catalogue passes at an inlet pressure, loaded, for
// the loss that its row rates it with when it is; 0 where the row tells too little.
func Carries(row catalog.Treat, in, atmosphere unit.AbsPressure) unit.FreeAir {
	at := unit.GaugePressure(anyRatedAt)
	if row.RatedAt > 0 {
		at = row.RatedAt
	}
	loaded := float64(row.Loaded)
	if loaded == 0 {
		loaded = loadedFactor * float64(row.Clean)
	}
	law, err := element.NewRated(element.RatedSpec{
		Drop: loaded, Flow: massOf(row.RatedFlow), Pressure: float64(at.Abs(atmosphere)), Viscous: viscous,
	})
	if err != nil || float64(in) <= loaded {
		return 0
	}
	flow, _, _ := law.Flow(float64(in), float64(in)-loaded)
	return air.FreeAir(unit.MassFlow(flow))
}
