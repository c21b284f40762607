package vessel

import (
	"errors"
	"math"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

// Reading is the state of a shut section as an instrument shows it.
type Reading struct {
	Pressure    unit.AbsPressure
	Temperature unit.Temperature
}

// Instruments says how well a reading is known: each single reading lies
// within plus or minus these of the truth, 19 times out of 20. For an
// instrument without a certificate that is its resolution, a whole division.
type Instruments struct {
	Gauge       unit.PressureDiff
	Thermometer unit.TempDiff
}

// Decay is a pressure decay test of a section of known volume.
type Decay struct {
	Volume     unit.Volume // of the section, from its geometry
	Start, End Reading
	Time       unit.Duration // between the two readings
	Instruments
}

func (r Reading) check(which string) error {
	return errors.Join(
		positive(which+" pressure", float64(r.Pressure), "Pa absolute"),
		positive(which+" temperature", float64(r.Temperature), "K"))
}

func (d Decay) check() error {
	return errors.Join(
		positive("volume", float64(d.Volume), "m3"), d.Start.check("start"), d.End.check("end"),
		positive("time", float64(d.Time), "s"), d.Instruments.check())
}

func (i Instruments) check() error {
	return errors.Join(notNegative("gauge", float64(i.Gauge), "Pa"), notNegative("thermometer", float64(i.Thermometer), "K"))
}

// Leak is the mean leak, corrected for temperature:
// m = V (p1/T1 - p2/T2)/(R t). Negative when the section seems to have gained:
// then the leak is smaller than [Decay.Uncertainty], or air came in.
func (d Decay) Leak() (unit.MassFlow, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	// p/T and not p: a section that cools by 1 K at 9 bar absolute falls by 31 mbar
	// without losing any air, more than many leaks do in an hour.
	lost := float64(d.Start.Pressure)/float64(d.Start.Temperature) - float64(d.End.Pressure)/float64(d.End.Temperature)
	return unit.MassFlow(float64(d.Volume) * lost / (air.GasConstant * float64(d.Time))), nil
}

// Uncertainty of the leak from the four readings, taken as independent, 95 %:
// V/(R t) · root of the sum of (g/T)² and (p h/T²)² at start and end, g gauge
// and h thermometer. What the thermometer does not feel (a line half in the
// sun) is not in it.
func (d Decay) Uncertainty() (unit.MassFlow, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	doubt := math.Hypot(d.doubt(d.Start), d.doubt(d.End))
	return unit.MassFlow(float64(d.Volume) * doubt / (air.GasConstant * float64(d.Time))), nil
}

// doubt of p/T in one reading, Pa/K.
func (i Instruments) doubt(r Reading) float64 {
	p, t := float64(r.Pressure), float64(r.Temperature)
	return math.Hypot(float64(i.Gauge)/t, p*float64(i.Thermometer)/(t*t))
}

// Hold is how long a test must last so that a leak stands out of the
// uncertainty of the instruments, both readings near start:
// t = V · doubt/(R m). Instruments without doubt need no time: zero.
func (i Instruments) Hold(v unit.Volume, start Reading, leak unit.MassFlow) (unit.Duration, error) {
	err := errors.Join(positive("volume", float64(v), "m3"), start.check("start"), i.check(),
		positive("leak to be seen", float64(leak), "kg/s"))
	if err != nil {
		return 0, err
	}
	// Start and end are read with the same instruments: root two of one reading.
	doubt := math.Sqrt2 * i.doubt(start)
	return unit.Duration(float64(v) * doubt / (air.GasConstant * float64(leak))), nil
}

// Tight is the end pressure of a section without leak: p1 T2/T1.
func (d Decay) Tight() (unit.AbsPressure, error) {
	if err := errors.Join(d.Start.check("start"), positive("end temperature", float64(d.End.Temperature), "K")); err != nil {
		return 0, err
	}
	return d.Start.Pressure * unit.AbsPressure(d.End.Temperature/d.Start.Temperature), nil
}

// PerKelvin is the pressure change of a shut section per kelvin: p/T.
func (r Reading) PerKelvin() (unit.PressureDiff, error) {
	if err := r.check("section"); err != nil {
		return 0, err
	}
	return unit.PressureDiff(float64(r.Pressure) / float64(r.Temperature)), nil
}
