package model

import (
	"dropleg/engine/cite"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// Bears is the greatest pressure that an element may stand under.
type Bears struct {
	Pressure unit.GaugePressure
	Known    bool             // false: its table ends below Temp, or speaks of none
	Temp     unit.Temperature // that of its zone in summer; 0 where the rating does not depend on it
	Basis    string
	Ref      cite.Ref
}

// BearsOf is what an element bears by its stamp or its catalogue row, at the summer
// temperature about it. ok is false where nothing speaks of it at all.
func BearsOf(ix *job.Index, shelf *catalog.Catalog, e *Element) (b Bears, ok bool) {
	switch {
	case e.Thing == ThingLine:
		return lineBears(ix, shelf, e)
	case e.Thing == ThingHose:
		row, ok := shelf.Hose(e.Item)
		if !ok || row.Rating <= 0 {
			return b, false
		}
		return hoseBears(ix, e, row), true
	}
	if row, ok := shelf.Coupler(e.Item); ok {
		return Bears{Pressure: row.Rating, Known: true, Ref: row.Ref}, row.Rating > 0
	}
	return partBears(ix, shelf, e)
}

// lineBears is what a line bears at its zone's summer temperature.
func lineBears(ix *job.Index, shelf *catalog.Catalog, e *Element) (b Bears, ok bool) {
	run := ix.Run(e.ID)
	if run == nil {
		return b, false
	}
	stock, ok := shelf.Stock(run.Stock)
	if !ok || stock.FitForAir == "no" {
		return b, false // said by a check
	}
	b.Temp = ix.Job().ClimateOf(ix.ZoneOf(run)).Summer
	b.Pressure, b.Basis, b.Ref, b.Known = stock.Rating(run.Size, b.Temp, "")
	if !b.Known {
		// No table at all is a gap of the catalogue, not of the design.
		if _, _, _, atAll := stock.Rating(run.Size, unit.Celsius(20), ""); !atAll {
			return b, false
		}
	}
	return b, true
}

// hoseBears is what a hose bears; above the temperature of its class that is not known.
func hoseBears(ix *job.Index, e *Element, row catalog.Hose) Bears {
	b := Bears{Pressure: row.Rating, Known: true, Basis: row.Words, Ref: row.Ref}
	at, placed := geom.Point{}, false
	if o := ix.OutletOfHose(e.ID); o != nil {
		at, placed = ix.Where(ix.Point(o.Point))
	}
	if placed {
		b.Temp = ix.Job().ClimateOf(ix.ZoneAt(at)).Summer
		b.Known = row.MaxTemp <= 0 || b.Temp.Celsius() <= row.MaxTemp
	}
	return b
}

// partBears is what a stamped part or a class of treatment bears.
func partBears(ix *job.Index, shelf *catalog.Catalog, e *Element) (b Bears, ok bool) {
	p := ix.PartAt(e.ID, e.Outlet, e.Kind, e.Item)
	if p == nil {
		return b, false
	}
	return StampOf(shelf, p)
}

// StampOf is what a part bears as stamped, else as parts of its row are.
func StampOf(shelf *catalog.Catalog, p *job.Part) (b Bears, ok bool) {
	switch row, ok := shelf.Treat(p.Item); {
	case p.Rating != nil:
		ref := cite.Ref{Source: "common-practice", Place: "as stamped on the part", How: cite.Common}
		return Bears{Pressure: *p.Rating, Known: true, Basis: "as stamped", Ref: ref}, true
	case ok && row.Rating > 0:
		return Bears{Pressure: row.Rating, Known: true, Basis: row.Words, Ref: row.Ref}, true
	}
	return b, false
}
