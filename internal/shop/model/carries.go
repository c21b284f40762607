package model

import (
	"math"

	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// Carries is what a treatment part of a kind, by its row of the catalogue, passes at an inlet
// pressure, loaded, for the loss that it then has at its rating; 0 where the row tells too little.
func Carries(kind catalog.Kind, row catalog.Treat, in, atmosphere unit.AbsPressure) unit.FreeAir {
	at := unit.GaugePressure(anyRatedAt)
	if row.RatedAt > 0 {
		at = row.RatedAt
	}
	loaded, _ := loadedLoss(kind, row, float64(row.Clean))
	loaded = math.Max(loaded, float64(row.Clean))
	law, err := element.NewRated(element.RatedSpec{
		Drop: loaded, Flow: massOf(row.RatedFlow), Pressure: float64(at.Abs(atmosphere)), Viscous: viscous,
	})
	if err != nil || float64(in) <= loaded {
		return 0
	}
	flow, _, _ := law.Flow(float64(in), float64(in)-loaded)
	return air.FreeAir(unit.MassFlow(flow))
}
