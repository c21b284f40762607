package water

import (
	"fmt"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// plate is what stands on a dryer, or on its catalogue row.
type plate struct {
	dew         float64 // K, under pressure
	rated       float64 // kg/s; 0: unknown
	regenerates bool    // blows off part of its air to dry its bed again
}

// partOf is the part that an element is; nil for lines. What hangs at an outlet need not
// have an id of its own: it is known by its kind and row.
func (w *shop) partOf(e *model.Element) *job.Part {
	ix := w.ground.ix
	if pt := ix.Point(e.ID); pt != nil {
		return &pt.Part
	}
	if o := ix.Outlet(e.Outlet); o != nil {
		for i := range o.Hang {
			h := &o.Hang[i]
			if h.ID != "" && h.ID == e.ID || h.ID == "" && h.Kind == e.Kind && h.Item == e.Item {
				return h
			}
		}
	}
	return nil
}

// readDryers reads the plates of all that dries. A dew point under freezing is a bed's:
// what cools would fill with ice.
func (w *shop) readDryers(ask Ask) {
	elements := w.m.Elements()
	for i := range elements {
		e := &elements[i]
		kind, _ := w.ground.shelf.Kind(e.Kind)
		part := w.partOf(e)
		if !kind.Has(catalog.Dries) || part == nil {
			continue
		}
		row, known := w.ground.shelf.Treat(part.Item)
		d := &plate{dew: 273.15 + 3, rated: float64(air.Mass(row.RatedFlow))}
		switch {
		case part.DewPoint != nil:
			d.dew = float64(*part.DewPoint)
		case known && row.DewPoint != nil:
			d.dew = 273.15 + *row.DewPoint
		case kind.Has(catalog.Collects):
			w.answer.suppose(string(e.ID) + ": a pressure dew point of 3 °C")
		default:
			d.dew = 273.15 - 40
			w.answer.suppose(string(e.ID) + ": a pressure dew point of -40 °C")
		}
		if part.Flow != nil {
			d.rated = float64(air.Mass(w.freeAir(part.Flow)))
		}
		if d.rated <= 0 {
			w.answer.suppose(string(e.ID) + ": large enough for its flow, as no rated flow is known")
		}
		clean, loaded := row.Clean, row.Loaded
		if part.Clean != nil && part.Loaded != nil {
			clean, loaded = *part.Clean, *part.Loaded
		}
		// A filling that is changed loads up; one that is blown dry does not.
		d.regenerates = d.dew < 273.15 && !kind.Has(catalog.Collects) && loaded <= clean
		if d.regenerates {
			if ask.Purge != nil {
				w.purge = float64(*ask.Purge)
			} else {
				w.answer.suppose("beds that dry themselves blow off 15 % of their rated flow (14 to 20 %)")
			}
		}
		w.dryers[i] = d
	}
}

// freeAir reads a flow off a plate by its own reference, else the site's, else as free air.
func (w *shop) freeAir(f *job.Flow) unit.FreeAir {
	for _, name := range []string{f.Reference, w.j.Site.FlowAt} {
		if ref, ok := air.ReferenceNamed(unit.Reference(name)); ok {
			return ref.FreeAir(unit.VolumeFlow(f.Value))
		}
	}
	return unit.FreeAir(f.Value)
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
	if d.dew < 273.15 {
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
		if able > 0 && seen > able {
			d.shop.answer.suppose(fmt.Sprintf("%s: the dew point rises with overload as published tables have it in common", e.ID))
		}
		d.out.Dryers = append(d.out.Dryers, one)
	}
	return taken
}
