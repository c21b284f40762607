package vessel

import (
	"errors"
	"math"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

// Receiver is a closed volume at one temperature. While it fills and falls it
// is taken to stay at that temperature (isothermal): right for minutes. A fill
// of seconds heats the air by up to the ratio of heat capacities, so that the
// pressure sinks by up to 30 % while it cools.
type Receiver struct {
	Volume      unit.Volume      // with the lines that hang on it: see [PipeVolume]
	Temperature unit.Temperature // of the air within, not of the air drawn in
}

// check names every measure that no receiver can have.
func (r Receiver) check() error {
	return errors.Join(
		positive("volume", float64(r.Volume), "m3"),
		positive("temperature", float64(r.Temperature), "K"))
}

// capacity is kg per Pa: V/(R T).
func (r Receiver) capacity() float64 {
	return float64(r.Volume) / (air.GasConstant * float64(r.Temperature))
}

// Mass is the air within at p: p V/(R T).
func (r Receiver) Mass(p unit.AbsPressure) unit.Mass {
	return unit.Mass(float64(p) * r.capacity())
}

// Time is how long flow takes to carry the receiver between the pressures,
// filling or emptying: t = V (high - low)/(R T m). Flow above zero, high not
// beneath low; otherwise an error that names the input.
func (r Receiver) Time(high, low unit.AbsPressure, flow unit.MassFlow) (unit.Duration, error) {
	if err := errors.Join(r.check(), ordered(high, low), positive("flow", float64(flow), "kg/s")); err != nil {
		return 0, err
	}
	return unit.Duration(float64(high-low) * r.capacity() / float64(flow)), nil
}

// Flow is the mean flow that carries the receiver between the pressures in the
// time given. With a pressure that fell it is the mean leak.
func (r Receiver) Flow(high, low unit.AbsPressure, time unit.Duration) (unit.MassFlow, error) {
	if err := errors.Join(r.check(), ordered(high, low), positive("time", float64(time), "s")); err != nil {
		return 0, err
	}
	return unit.MassFlow(float64(high-low) * r.capacity() / float64(time)), nil
}

// Step is the pressure change that flow makes in the time given; negative
// flow empties. It may lead beneath vacuum: the caller looks.
func (r Receiver) Step(flow unit.MassFlow, time unit.Duration) unit.PressureDiff {
	return unit.PressureDiff(float64(flow) * float64(time) / r.capacity())
}

// VolumeFor is the receiver that gives flow for the time given while it falls
// from high to low: V = R T m t/(high - low).
func VolumeFor(high, low unit.AbsPressure, flow unit.MassFlow, time unit.Duration, t unit.Temperature) (unit.Volume, error) {
	err := errors.Join(
		ordered(high, low), positive("pressure band", float64(high-low), "Pa"),
		positive("flow", float64(flow), "kg/s"), positive("time", float64(time), "s"),
		positive("temperature", float64(t), "K"))
	if err != nil {
		return 0, err
	}
	return unit.Volume(air.GasConstant * float64(t) * float64(flow) * float64(time) / float64(high-low)), nil
}

// Cycle is how a compressor runs that is switched by receiver pressure.
type Cycle struct {
	Load   unit.Duration // running, pressure rising from low to high
	Rest   unit.Duration // stopped or unloaded, pressure falling
	Period unit.Duration
	Duty   unit.Ratio     // share of time under load: demand/supply
	Starts unit.Frequency // most at half the supply: m x(1-x) R T/(V band)
}

// Cycle gives the cycle at a steady demand and supply. Without demand the
// compressor rests for ever; with a demand at or above the supply it never
// stops. Both are cycles without starts: Period is then zero, as is the part
// that never comes to an end.
func (r Receiver) Cycle(high, low unit.AbsPressure, supply, demand unit.MassFlow) (Cycle, error) {
	err := errors.Join(r.check(), ordered(high, low), positive("pressure band", float64(high-low), "Pa"),
		positive("supply", float64(supply), "kg/s"), notNegative("flow", float64(demand), "kg/s"))
	if err != nil {
		return Cycle{}, err
	}
	// At or above the supply the pressure never reaches the upper switch point.
	if demand >= supply {
		return Cycle{Duty: 1}, nil
	}
	mass := float64(high-low) * r.capacity()
	load := unit.Duration(mass / float64(supply-demand))
	if demand == 0 {
		return Cycle{Load: load}, nil
	}
	rest := unit.Duration(mass / float64(demand))
	return Cycle{
		Load: load, Rest: rest, Period: load + rest,
		Duty:   unit.Ratio(demand / supply),
		Starts: unit.Frequency(1 / float64(load+rest)),
	}, nil
}

// PipeVolume is the volume of a line, which stores air as a receiver does:
// pi/4 d² L, d the bore.
func PipeVolume(bore, length unit.Length) unit.Volume {
	return unit.Volume(math.Pi / 4 * float64(bore*bore) * float64(length))
}
