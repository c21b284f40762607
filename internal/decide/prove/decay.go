package prove

import (
	"math"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/engine/vessel"
	"dropleg/internal/shop/job"
)

// The verdicts on a test.
const (
	Holds   = "holds"   // the leak lies below the limit with all its band
	Leaks   = "leaks"   // it lies above with all its band
	Open    = "open"    // the readings do not tell yet
	Gains   = "gains"   // the section gained air, more than its band explains
	Useless = "useless" // it cannot be worked out, see Why
)

// What the instruments are taken to be good to where nobody says, and the temperature
// that nobody read (common practice, no source).
const (
	usualGauge  unit.PressureDiff = 10e3 // a division of 0.1 bar
	usualThermo unit.TempDiff     = 1
	unfeltDrift unit.TempDiff     = 5 // the air of a shop over the hours of a test
	unreadK     unit.Temperature  = 293.15
)

// Verdict is what a decay test says.
type Verdict struct {
	Verdict string        `json:"verdict"`
	Why     string        `json:"why,omitempty"`
	Leak    unit.MassFlow `json:"leak_kg_s"`
	Half    unit.MassFlow `json:"leak_half_band_kg_s"` // 95 %
	FreeAir unit.FreeAir  `json:"leak_free_air_m3_s"`
	HalfAir unit.FreeAir  `json:"leak_half_band_free_air_m3_s"`
	Limit   unit.FreeAir  `json:"limit_free_air_m3_s"` // leak that is to be seen
	Scatter bool          `json:"scatter,omitempty"`   // the readings scatter more than the instruments explain
	Unread  bool          `json:"no_temperature,omitempty"`
	// PerKelvin is what a kelvin that nobody read is in pressure, and as a leak over the
	// time of the test.
	PerKelvin    unit.PressureDiff `json:"per_kelvin_Pa,omitempty"`
	PerKelvinAir unit.FreeAir      `json:"per_kelvin_free_air_m3_s,omitempty"`
	Gauge        unit.PressureDiff `json:"gauge_Pa"`
	Thermo       unit.TempDiff     `json:"thermometer_K"`
	Lasted       unit.Duration     `json:"lasted_s"`
	// Hold is how long the test has to last in all so that a leak of the limit stands out.
	Hold unit.Duration `json:"hold_s"`
	Fit  *vessel.Fit   `json:"-"`
}

// Ask is a decay test with what bears on it.
type Ask struct {
	Volume     unit.Volume
	Atmosphere unit.AbsPressure
	Limit      unit.FreeAir
}

// Judge says what a decay test tells. It gives a verdict only where the readings carry one.
func Judge(t *job.Test, a Ask) Verdict {
	v := Verdict{Verdict: Useless, Limit: a.Limit, Gauge: usualGauge, Thermo: usualThermo}
	if t.Gauge != nil {
		v.Gauge = *t.Gauge
	}
	if t.Thermo != nil {
		v.Thermo = *t.Thermo
	}
	if a.Volume <= 0 {
		v.Why = "no-volume"
		return v
	}
	s := vessel.Series{Volume: a.Volume, Instruments: vessel.Instruments{Gauge: v.Gauge, Thermometer: v.Thermo}}
	v.read(t, a, &s)
	if len(s.Samples) > 0 {
		v.plan(s)
	}
	if len(s.Samples) < 2 {
		v.Verdict, v.Why = Open, "one-reading"
		return v
	}
	fit, err := s.Fit()
	if err != nil {
		v.Why = err.Error()
		return v
	}
	v.Fit, v.Leak, v.Half, v.Scatter = &fit, fit.Leak, fit.Half, fit.Scatter
	v.FreeAir, v.HalfAir = air.FreeAir(fit.Leak), air.FreeAir(fit.Half)
	v.decide()
	return v
}

// read puts the readings into a series. Where one temperature is missing none is used: a
// change between one read and one supposed would count as leak.
func (v *Verdict) read(t *job.Test, a Ask, s *vessel.Series) {
	for _, x := range t.Samples {
		v.Unread = v.Unread || x.Temp == nil
	}
	for _, x := range t.Samples {
		r := vessel.Reading{Pressure: x.Pressure.Abs(a.Atmosphere), Temperature: unreadK}
		if !v.Unread {
			r.Temperature = *x.Temp
		}
		s.Samples = append(s.Samples, vessel.Sample{At: x.Time, Reading: r})
		v.Lasted = x.Time - t.Samples[0].Time
	}
	if v.Unread {
		s.Thermometer, s.Drift = 0, unfeltDrift
	}
}

// plan tells what a kelvin is and how long the test has to last.
func (v *Verdict) plan(s vessel.Series) {
	first := s.Samples[0].Reading
	v.PerKelvin, _ = first.PerKelvin()
	if v.Lasted > 0 {
		mass := float64(s.Volume) * float64(v.PerKelvin) / (air.GasConstant * float64(first.Temperature))
		v.PerKelvinAir = air.FreeAir(unit.MassFlow(mass / float64(v.Lasted)))
	}
	limit := air.ISO1217.Mass(unit.VolumeFlow(v.Limit))
	if limit <= 0 {
		return
	}
	v.Hold, _ = s.Hold(s.Volume, first, limit)
	if s.Drift > 0 {
		v.Hold += unit.Duration(float64(s.Volume) * float64(v.PerKelvin) * float64(s.Drift) / (float64(first.Temperature) * air.GasConstant * float64(limit)))
	}
}

// decide compares the leak and its band with the limit.
func (v *Verdict) decide() {
	leak, half := float64(v.FreeAir), float64(v.HalfAir)
	switch {
	case leak < -half:
		v.Verdict, v.Why = Gains, "gains"
	case math.Abs(leak)+half <= float64(v.Limit):
		v.Verdict = Holds
	case leak-half > float64(v.Limit):
		v.Verdict = Leaks
	default:
		v.Verdict, v.Why = Open, "band"
		if v.Unread {
			v.Why = "no-temperature"
		}
	}
}

// Usual is what gauge and thermometer are taken to be good to where nobody says.
func Usual() (unit.PressureDiff, unit.TempDiff) { return usualGauge, usualThermo }
