package model

import (
	"math"

	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// lineTemperature is that of a line whose zone says nothing: the reference 20 °C.
const lineTemperature = 293.15

// Barometers of this earth, with room to spare: the highest mountain has 31 kPa,
// the deepest mine under 150.
const (
	leastBarometer = 20e3
	mostBarometer  = 200e3
)

// atmosphere is the local pressure: the barometer, else the standard
// atmosphere at the altitude, else sea level.
func (b *builder) atmosphere() unit.AbsPressure {
	s := b.j.Site
	if s.Barometer != nil {
		if p := *s.Barometer; p >= leastBarometer && p <= mostBarometer {
			return p
		}
		b.trouble("barometer-out-of-range", job.Caution, "the barometer stated is none of this earth; it is left out", "gauge pressures count from it")
	}
	if s.Altitude != nil {
		if a, err := air.AtmosphereAt(air.Geopotential(*s.Altitude)); err == nil {
			return a.Pressure
		}
	}
	return air.StandardPressure
}

// compressibility is one Z for the whole net, at 20 °C and the highest cut-in
// there is: lines work near it, and over the band of a shop (0.5 to 1.2 MPa) Z
// moves by 0.1 %. It counts only where it is off one by more than 0.1 %.
func (b *builder) compressibility() float64 {
	top := unit.GaugePressure(0)
	for i := range b.j.Net.Points {
		if c := b.j.Net.Points[i].Part.Compressor; c != nil && c.CutIn != nil {
			top = max(top, *c.CutIn)
		}
	}
	if top == 0 {
		top = anyCutIn
	}
	z, err := air.Compressibility(top.Abs(b.atm), lineTemperature)
	if err != nil || math.Abs(float64(z)-1) <= 1e-3 {
		return 1
	}
	return float64(z)
}

// gasIn is the air in lines of a zone: dry, at the zone's summer temperature,
// when the same flow loses most; "" is indoors, nothing more known.
func (b *builder) gasIn(zone job.ID) element.Gas {
	if g, ok := b.gases[zone]; ok {
		return g
	}
	t := b.j.ClimateOf(b.idx.Zone(zone)).Summer
	if !(t > 0) {
		t = lineTemperature
	}
	g := element.Gas{Temperature: float64(t), R: air.GasConstant, Z: b.z, Viscosity: float64(air.Sutherland(t))}
	b.gases[zone] = g
	return g
}

// freeAirOf reads a flow as it stood on a plate into free air, by its own
// reference, else the site's, else as free air. "site" is air as drawn in here
// on the hot day.
func (b *builder) freeAirOf(id job.ID, f *job.Flow) unit.FreeAir {
	name := unit.Reference(f.Reference)
	if name == "" {
		name = unit.Reference(b.j.Site.FlowAt)
	}
	if name == "" {
		name = air.ISO1217.Name
	}
	ref, ok := air.ReferenceNamed(name)
	if name == "site" {
		t, rh := unit.Temperature(lineTemperature), unit.Ratio(0)
		if b.j.Site.Hot != nil {
			t = *b.j.Site.Hot
		}
		if b.j.Site.Humidity != nil {
			rh = *b.j.Site.Humidity
		}
		var err error
		ref, err = air.Site(b.atm, t, rh)
		ok = err == nil
	}
	if !ok {
		b.trouble("unknown-reference", job.Caution, string(id)+" states a flow at "+string(name)+", which is no reference; taken as free air",
			"the same air has another volume at each reference", id)
		ref = air.ISO1217
	}
	return ref.FreeAir(unit.VolumeFlow(math.Max(0, f.Value)))
}

// massOf is a free-air flow in kg/s.
func massOf(f unit.FreeAir) float64 { return float64(air.Mass(f)) }
