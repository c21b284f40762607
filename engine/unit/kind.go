package unit

import "reflect"

// Kind says what a number is: how text is read into it and how it is printed.
// Every kind has one SI unit, in which numbers of that kind are held.
type Kind int

// The kinds. Their words, SI units and accepted units stand in the table of
// table.go and nowhere else.
const (
	KindNumber         Kind = iota // plain number, no unit
	KindWord                       // a word out of a list, no number
	KindYesNo                      // 1 yes, 0 no
	KindInteger                    // whole number
	KindLength                     // m
	KindArea                       // m²
	KindVolume                     // m³
	KindPressure                   // Pa absolute; read and printed as gauge where people mean gauge
	KindGauge                      // Pa above the local atmosphere
	KindBarometer                  // Pa absolute, also read and printed as absolute: the weather's, a vapour's
	KindPressureDiff               // Pa, a loss or a band: no gauge offset
	KindTemperature                // K
	KindTempDiff                   // K, a difference: no offset
	KindFlow                       // m³/s of free air; text may also state another reference or a mass, see ParseFlow
	KindMassFlow                   // kg/s
	KindVolumeFlow                 // m³/s at the conditions stated beside it
	KindVelocity                   // m/s
	KindDensity                    // kg/m³
	KindViscosity                  // Pa·s
	KindDuration                   // s
	KindPower                      // W
	KindEnergy                     // J, mechanical or stored
	KindElectricity                // J, printed in kWh
	KindSpecificEnergy             // J/m³, work per volume of free air
	KindMass                       // kg
	KindStress                     // Pa, also modulus; knows no gauge
	KindConductance                // m³/(s·Pa)
	KindFrequency                  // 1/s
	KindExpansion                  // 1/K
	KindHeatCapacity               // J/(kg·K), also a gas constant
	KindRatio                      // 1; read and printed also as %
	kindEnd
)

// Kinds lists every kind in the order of the constants.
func Kinds() []Kind {
	all := make([]Kind, 0, int(kindEnd))
	for k := KindNumber; k < kindEnd; k++ {
		all = append(all, k)
	}
	return all
}

// KindOf is the kind of the quantity types of this package; ok is false for
// any other type.
func KindOf(t reflect.Type) (k Kind, ok bool) {
	k, ok = kindOfType[t]
	return k, ok
}

// kindOfType maps the Go types of quantity.go to kinds; it is never written to.
var kindOfType = map[reflect.Type]Kind{
	reflect.TypeFor[Length]():        KindLength,
	reflect.TypeFor[Area]():          KindArea,
	reflect.TypeFor[Volume]():        KindVolume,
	reflect.TypeFor[AbsPressure]():   KindPressure,
	reflect.TypeFor[GaugePressure](): KindGauge,
	reflect.TypeFor[PressureDiff]():  KindPressureDiff,
	reflect.TypeFor[Temperature]():   KindTemperature,
	reflect.TypeFor[TempDiff]():      KindTempDiff,
	reflect.TypeFor[MassFlow]():      KindMassFlow,
	reflect.TypeFor[FreeAir]():       KindFlow,
	reflect.TypeFor[VolumeFlow]():    KindVolumeFlow,
	reflect.TypeFor[Velocity]():      KindVelocity,
	reflect.TypeFor[Density]():       KindDensity,
	reflect.TypeFor[Viscosity]():     KindViscosity,
	reflect.TypeFor[Duration]():      KindDuration,
	reflect.TypeFor[Power]():         KindPower,
	reflect.TypeFor[Energy]():        KindEnergy,
	reflect.TypeFor[Mass]():          KindMass,
	reflect.TypeFor[Stress]():        KindStress,
	reflect.TypeFor[Conductance]():   KindConductance,
	reflect.TypeFor[Frequency]():     KindFrequency,
	reflect.TypeFor[Expansion]():     KindExpansion,
	reflect.TypeFor[Ratio]():         KindRatio,
}

// Words names the kind for people: "length", "pressure".
func (k Kind) Words() string { return k.row().words }

// SI is the unit in which numbers of the kind are held; "" for plain numbers.
func (k Kind) SI() string { return k.row().si }

// Example is a text that the kind accepts.
func (k Kind) Example() string { return k.row().example }

// ExampleIn is the example in the units of a system.
func (k Kind) ExampleIn(s System) string {
	x, err := Parse(k.Example(), k, Env{})
	if _, styled := Metric.styleOf(k, x); s == US || err != nil || !styled {
		return k.Example()
	}
	return Metric.Text(k, x, Env{})
}

// Units lists the accepted units by their first spelling.
func (k Kind) Units() []string {
	row := k.row()
	names := make([]string, len(row.units))
	for i, u := range row.units {
		names[i] = u.name
	}
	return names
}

// row is the kind's row of the table; an unknown kind counts as a plain number.
func (k Kind) row() kindRow {
	for _, r := range kindTable {
		if r.kind == k {
			return r
		}
	}
	return kindTable[0]
}
