package catalog

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
)

// Filler is what filling one joint of copper tube takes, by the tube's outside diameter.
type Filler struct {
	Outside unit.Length
	Solder  unit.Mass // 95-5; with what is lost
	Braze   unit.Mass // rod; the cup filled by two thirds, and nothing lost
	Ref     cite.Ref
}

// FluxPerSolder is the flux that goes with solder, by mass: 2 oz to the pound.
const FluxPerSolder = 1.0 / 8

// FluxRef is where FluxPerSolder stands.
func FluxRef() cite.Ref {
	return cite.Ref{Source: "copper-handbook", Place: "table 14.10, flux requirements", How: cite.Read}
}

// Fillers lists what joints take, by rising diameter: pounds for 100 joints in the tables,
// of solder at a clearance of 0.010 in, which has an allowance of 100 % for what is lost in
// it; of rod without one, and two to three times as much may go.
func Fillers() []Filler {
	const (
		inch  = 0.0254
		pound = 0.45359237 / 100 // of 100 joints, for one
	)
	read := cite.Ref{Source: "copper-handbook", Place: "tables 14.10 and 14.11", How: cite.Read}
	var out []Filler
	for _, r := range [][3]float64{
		{0.375, 0.097, 0.04},
		{0.500, 0.159, 0.06},
		{0.625, 0.261, 0.10},
		{0.750, 0.389, 0.15},
		{0.875, 0.548, 0.21},
		{1.125, 0.856, 0.32},
		{1.375, 1.115, 0.42},
		{1.625, 1.480, 0.56},
		{2.125, 2.380, 0.90},
		{2.625, 3.225, 1.22},
		{3.125, 4.335, 1.64},
	} {
		out = append(out, Filler{unit.Length(r[0] * inch), unit.Mass(r[1] * pound), unit.Mass(r[2] * pound), read})
	}
	return out
}

// FillerOf is what a joint takes on a tube of an outside diameter, between two rows by a
// straight line; a smaller tube takes what the smallest does. ok is false for none, and for
// tubes beyond the tables.
func FillerOf(outside unit.Length) (f Filler, ok bool) {
	rows := Fillers()
	if !(outside > 0) || outside > rows[len(rows)-1].Outside {
		return Filler{}, false
	}
	if outside <= rows[0].Outside {
		return rows[0], true
	}
	i := 1
	for rows[i].Outside < outside {
		i++
	}
	a, b := rows[i-1], rows[i]
	share := float64((outside - a.Outside) / (b.Outside - a.Outside))
	between := func(x, y unit.Mass) unit.Mass { return x + unit.Mass(share)*(y-x) }
	return Filler{outside, between(a.Solder, b.Solder), between(a.Braze, b.Braze), b.Ref}, true
}
