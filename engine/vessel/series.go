package vessel

import (
	"errors"
	"fmt"
	"math"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

// Sample is one reading of a shut section, so long after the first.
type Sample struct {
	At unit.Duration
	Reading
}

// Series is a pressure decay test of a section by any number of readings.
type Series struct {
	Volume  unit.Volume
	Samples []Sample
	Instruments
	// Drift is by how much the temperature of the air may have gone up or down from the
	// first reading to the last without the thermometer feeling it. Where nothing read
	// the temperature that is all its change.
	Drift unit.TempDiff
}

// Fit is the straight line of p/T over time that lies nearest to all readings, each
// counting by what its instruments are good to: weighted least squares.
type Fit struct {
	Leak unit.MassFlow // -V slope/R; negative where the section seems to have gained
	Half unit.MassFlow // the leak lies within Leak ± Half, 95 %
	// Scatter says that the readings lie farther from the line than the instruments
	// explain (chi squared, 95 %): Half then comes of how they scatter.
	Scatter bool

	middle  float64 // s, weighted mean of the times
	level   float64 // Pa/K, at the middle
	slope   float64 // Pa/(K s)
	doubt   float64 // Pa/K of the level, 95 %
	rate    float64 // Pa/(K s) of the slope, 95 %, without drift
	drift   float64 // Pa/(K s) of the slope by the drift
	samples int
}

// MostSamples is how many readings a series may have.
const MostSamples = 10000

const normal95 = 1.959964 // standard deviations within which 95 % of a normal lie

func (s Series) check() error {
	err := errors.Join(positive("volume", float64(s.Volume), "m3"), s.Instruments.check(), notNegative("drift", float64(s.Drift), "K"))
	if n := len(s.Samples); n < 2 || n > MostSamples {
		return errors.Join(err, fmt.Errorf("readings: %d, wanted 2 to %d", n, MostSamples))
	}
	for i, r := range s.Samples {
		which := fmt.Sprintf("reading %d", i+1)
		err = errors.Join(err, r.check(which), notNegative(which+" time", float64(r.At), "s"))
		if i > 0 && !(r.At > s.Samples[i-1].At) {
			err = errors.Join(err, fmt.Errorf("%s: at %g s, wanted after the one before, %g s", which, float64(r.At), float64(s.Samples[i-1].At)))
		}
	}
	return err
}

// Fit finds the leak from all readings. Two readings give what [Decay.Leak] and
// [Decay.Uncertainty] do. The statistics are those of a weighted straight line with known
// errors (J. R. Taylor, An Introduction to Error Analysis, 2nd ed., problem 8.9;
// recalled); where the readings scatter more than their instruments explain, the scatter
// counts, by Student's t.
func (s Series) Fit() (Fit, error) {
	if err := s.check(); err != nil {
		return Fit{}, err
	}
	n := len(s.Samples)
	y, w := make([]float64, n), make([]float64, n)
	known := s.Gauge > 0 || s.Thermometer > 0
	sum, middle, level := 0.0, 0.0, 0.0
	for i, r := range s.Samples {
		y[i], w[i] = float64(r.Pressure)/float64(r.Temperature), 1
		if known {
			sd := s.doubt(r.Reading) / normal95
			w[i] = 1 / (sd * sd)
		}
		sum, middle, level = sum+w[i], middle+w[i]*float64(r.At), level+w[i]*y[i]
	}
	f := Fit{middle: middle / sum, level: level / sum, samples: n}
	spread, lean := 0.0, 0.0
	for i, r := range s.Samples {
		t := float64(r.At) - f.middle
		spread, lean = spread+w[i]*t*t, lean+w[i]*t*(y[i]-f.level)
	}
	f.slope = lean / spread
	f.judge(s, y, w, known, sum, spread)
	first, last := s.Samples[0], s.Samples[n-1]
	p, t := float64(first.Pressure), float64(first.Temperature)
	f.drift = p * float64(s.Drift) / (t * t) / float64(last.At-first.At)
	mass := float64(s.Volume) / air.GasConstant
	f.Leak, f.Half = unit.MassFlow(-f.slope*mass), unit.MassFlow((f.rate+f.drift)*mass)
	return f, nil
}

// judge finds how well level and slope are known.
func (f *Fit) judge(s Series, y, w []float64, known bool, sum, spread float64) {
	off := 0.0
	for i, r := range s.Samples {
		d := y[i] - f.level - f.slope*(float64(r.At)-f.middle)
		off += w[i] * d * d
	}
	free := len(y) - 2
	f.doubt, f.rate = normal95/math.Sqrt(sum), normal95/math.Sqrt(spread)
	switch {
	case !known && free == 0: // two readings without doubt
		f.doubt, f.rate = 0, 0
	case !known, free > 0 && off > chi95(free):
		f.Scatter = known
		by := student95(free) * math.Sqrt(off/float64(free)) / normal95
		f.doubt, f.rate = f.doubt*by, f.rate*by
	}
}

// At is the pressure of the line at a time, at a temperature, and its half band, 95 %.
func (f Fit) At(at unit.Duration, temp unit.Temperature) (p unit.AbsPressure, half unit.PressureDiff) {
	t := float64(at) - f.middle
	band := math.Hypot(f.doubt, f.rate*t) + f.drift*math.Abs(t)
	return unit.AbsPressure((f.level + f.slope*t) * float64(temp)), unit.PressureDiff(band * float64(temp))
}

// chi95 is the 95 % point of chi squared by Wilson and Hilferty's cube, within 1 % from
// two degrees of freedom on, 3 % at one.
func chi95(free int) float64 {
	const z = 1.644854
	k := 2 / (9 * float64(free))
	return float64(free) * math.Pow(1-k+z*math.Sqrt(k), 3)
}

// student95 is the two-sided 95 % point of Student's t. The first are from the table
// (recalled); the rest by the series of Abramowitz and Stegun 26.7.5.
func student95(free int) float64 {
	table := [...]float64{12.706, 4.303, 3.182, 2.776}
	if free <= len(table) {
		return table[free-1]
	}
	const z = normal95
	v := float64(free)
	return z + (z*z*z+z)/(4*v) + (5*math.Pow(z, 5)+16*z*z*z+3*z)/(96*v*v) +
		(3*math.Pow(z, 7)+19*math.Pow(z, 5)+17*z*z*z-15*z)/(384*v*v*v)
}
