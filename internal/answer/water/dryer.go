package water

import (
	"fmt"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// plate is what stands on a dryer, or on its catalogue row.
type plate struct {
	dew         float64 // K, under pressure
	rated       float64 // kg/s; 0: unknown
	filling     float64 // kg of desiccant; 0: unknown or none
	regenerates bool    // blows off part of its air to dry its bed again
}

// partOf is the part that an element is; nil for lines.
func (w *shop) partOf(e *model.Element) *job.Part {
	return w.ground.ix.PartAt(e.ID, e.Outlet, e.Kind, e.Item)
}

// readDryers reads the plates of all that dries.
func (w *shop) readDryers(ask Ask) {
	for _, d := range w.m.Dryers() {
		if d.Supposed {
			w.answer.suppose(fmt.Sprintf("%s: a pressure dew point of %.0f °C", d.ID, d.DewPoint.Celsius()))
		}
		if d.Rated <= 0 {
			w.answer.suppose(string(d.ID) + ": large enough for its flow, as no rated flow is known")
		}
		if d.Regenerates {
			if ask.Purge != nil {
				w.purge = float64(*ask.Purge)
			} else {
				w.answer.suppose("beds that dry themselves blow off 15 % of their rated flow (14 to 20 %)")
			}
		}
		w.dryers[d.Element] = &plate{dew: float64(d.DewPoint), rated: float64(air.Mass(d.Rated)), regenerates: d.Regenerates, filling: w.bed(w.partOf(&w.m.Elements()[d.Element]))}
	}
}

// purges draws the air that beds in a stream blow off, behind them.
func (w *shop) purges(s *stream) {
	for i, e := range w.m.Elements() {
		d := w.dryers[i]
		flow := s.flow[i]
		if d == nil || !d.regenerates || flow == 0 {
			continue
		}
		kg := w.purge * d.rated
		if s == &w.streams.supply {
			kg *= w.streams.running
		}
		node := e.To
		if flow < 0 {
			node = e.From
		}
		s.draw(w.m, node, kg)
	}
}

// able is a dryer's flow at an inlet temperature (°C) and pressure (bar gauge).
func (d *plate) able(inlet, gauge float64) float64 {
	if d.dew < freezing {
		// A bed's capacity goes with the absolute pressure (DRYE-0044, computed).
		return d.rated * min(1, between(byInlet, inlet)) * (gauge + 1) / 8
	}
	return d.rated * max(0.1, between(byInlet, inlet)) * max(0.1, between(byPressure, gauge))
}

// dry passes air through a dryer; what it takes in kg/s.
func (d *walk) dry(e *model.Element, plate *plate, c *current) float64 {
	seen, sees := c.dry/d.running, "compressors"
	if !d.supply {
		seen, sees = c.dry*d.shop.peak, "tools"
	}
	gauge := (c.pressure - float64(d.shop.m.Atmosphere())) / 1e5
	able := plate.able(c.temp-273.15, gauge)
	target := plate.dew
	if able > 0 {
		target += between(byLoad, seen/able)
	}
	taken := c.liquid
	c.liquid = 0
	most := saturated(c.pressure, target)
	idle := c.vapour <= most
	if !idle {
		taken += (c.vapour - most) * c.dry
		c.vapour = most
	}
	if d.tell {
		one := Dryer{
			ID: e.ID, Sees: sees, Flow: air.FreeAir(unit.MassFlow(seen)), Rated: air.FreeAir(unit.MassFlow(plate.rated)),
			Able: air.FreeAir(unit.MassFlow(able)), Inlet: unit.Temperature(c.temp), Stated: unit.Temperature(plate.dew), Out: dew(*c), Untaking: idle,
		}
		if plate.regenerates {
			one.Purge = air.FreeAir(unit.MassFlow(d.shop.purge * plate.rated))
		}
		if !plate.regenerates && plate.dew < freezing {
			one.Filling = unit.Mass(plate.filling)
			if plate.filling <= 0 {
				d.shop.answer.suppose(string(e.ID) + ": a bed of a size that is not known, so that its life is not either")
			}
		}
		if able > 0 && seen > able {
			d.shop.answer.suppose(fmt.Sprintf("%s: the dew point rises with overload as published tables have it in common", e.ID))
		}
		d.out.Dryers = append(d.out.Dryers, one)
	}
	return taken
}
