package air

import (
	"fmt"

	"dropleg/engine/unit"
)

// Reference is a state in which a flow of air is quoted. The same mass of dry
// air has another volume in each; the moisture of a humid reference takes
// room, so conversion goes by the dry air in a cubic metre.
type Reference struct {
	Name        unit.Reference // the word of commands and files
	Title       string         // one line for people
	Pressure    unit.AbsPressure
	Temperature unit.Temperature
	Humidity    unit.Ratio // relative, over water
	// vapour is rh · es at the temperature, found once when the reference is made.
	// A literal outside this package has none and counts as dry: use [Site].
	vapour unit.AbsPressure
}

// Exact inch-pound units of the American references.
const (
	psi = 6894.757293168361 // Pa
	f60 = (60 + 459.67) * 5 / 9
	f68 = (68 + 459.67) * 5 / 9
	f70 = (70 + 459.67) * 5 / 9
)

// vapour20C is es(20 °C) by IAPWS-IF97, which the two humid references need; a
// test holds it to [SaturationPressure].
const vapour20C = 2339.21476678

// The references by name. ISO1217 is the state of [unit.FreeAir].
var (
	ISO1217 = Reference{Name: unit.RefISO1217, Title: "ISO 1217: dry, 20 °C, 100 kPa", Pressure: 100000, Temperature: 293.15}
	ISO8778 = Reference{Name: unit.RefISO8778, Title: "ISO 8778: 65 % RH, 20 °C, 100 kPa", Pressure: 100000, Temperature: 293.15, Humidity: 0.65, vapour: 0.65 * vapour20C}
	Normal  = Reference{Name: unit.RefNormal, Title: "normal: dry, 0 °C, 101.325 kPa", Pressure: 101325, Temperature: 273.15}
	SCFM60  = Reference{Name: unit.RefSCFM60, Title: "scfm: dry, 60 °F, 14.696 psia", Pressure: 14.696 * psi, Temperature: f60}
	SCFM68D = Reference{Name: unit.RefSCFM68D, Title: "scfm: dry, 68 °F, 14.5 psia", Pressure: 14.5 * psi, Temperature: f68}
	SCFM68H = Reference{Name: unit.RefSCFM68H, Title: "scfm: 36 % RH, 68 °F, 14.7 psia", Pressure: 14.7 * psi, Temperature: f68, Humidity: 0.36, vapour: 0.36 * vapour20C}
	SCFM70  = Reference{Name: unit.RefSCFM70, Title: "scfm: dry, 70 °F, 14.7 psia", Pressure: 14.7 * psi, Temperature: f70}
)

// References lists the references that have a name.
func References() []Reference {
	return []Reference{ISO1217, ISO8778, Normal, SCFM60, SCFM68D, SCFM68H, SCFM70}
}

// ReferenceNamed finds a reference by its word.
func ReferenceNamed(name unit.Reference) (Reference, bool) {
	for _, r := range References() {
		if r.Name == name {
			return r, true
		}
	}
	return Reference{}, false
}

// Site is the reference of air as it lies at a place: actual volume. Pressure
// above zero, temperature and humidity as for [MoistAt] over water.
func Site(p unit.AbsPressure, t unit.Temperature, rh unit.Ratio) (Reference, error) {
	m, err := MoistAt(p, t, rh, OverWater)
	if err != nil {
		return Reference{}, fmt.Errorf("site: %w", err)
	}
	return Reference{Name: unit.RefSite, Title: "as drawn in at the site", Pressure: p, Temperature: t, Humidity: rh, vapour: m.Vapour}, nil
}

// Moist is the air of the reference.
func (r Reference) Moist() Moist {
	return Moist{Pressure: r.Pressure, Temperature: r.Temperature, Vapour: r.vapour}
}

// DryDensity is kg of dry air in one m³ of the reference: (p - rh es)/(R T).
func (r Reference) DryDensity() unit.Density { return r.Moist().DryDensity() }

// Density is kg of moist air in one m³ of the reference.
func (r Reference) Density() unit.Density { return r.Moist().Density() }

// Mass is the dry air in a flow quoted at the reference.
func (r Reference) Mass(flow unit.VolumeFlow) unit.MassFlow {
	return unit.MassFlow(float64(flow) * float64(r.DryDensity()))
}

// Volume is a flow of dry air as it is quoted at the reference.
func (r Reference) Volume(flow unit.MassFlow) unit.VolumeFlow {
	return unit.VolumeFlow(float64(flow) / float64(r.DryDensity()))
}

// FreeAir turns a flow quoted at the reference into free air.
func (r Reference) FreeAir(flow unit.VolumeFlow) unit.FreeAir { return FreeAir(r.Mass(flow)) }

// FreeAir is a mass flow of dry air as m³/s at ISO 1217 conditions.
func FreeAir(flow unit.MassFlow) unit.FreeAir { return unit.FreeAir(ISO1217.Volume(flow)) }

// Mass is the mass flow of free air.
func Mass(flow unit.FreeAir) unit.MassFlow { return ISO1217.Mass(unit.VolumeFlow(flow)) }

// WholeGasRatio is the volume at r over that at from if humidity is left out
// of account: (p_from/p_r)(T_r/T_from). Most printed conversions do so; it is
// up to 1.6 % off the ratio that keeps the dry air.
func (r Reference) WholeGasRatio(from Reference) unit.Ratio {
	return unit.Ratio(float64(from.Pressure/r.Pressure) * float64(r.Temperature/from.Temperature))
}
