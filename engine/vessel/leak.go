package vessel

import (
	"errors"
	"fmt"
	"math"

	"dropleg/engine/unit"
)

// bleedDownFactor of the bleed-down rule raises the mean leak to that at
// the starting pressure, for a fall to about half of the gauge pressure
// (cite doe-sourcebook, recalled).
const bleedDownFactor = 1.25

// BleedDown is the leak at the starting pressure by the auditors' rule: the
// mean leak times 1.25. High by up to a quarter where the pressure fell little;
// [Receiver.LeakAtStart] is the exact law.
func (r Receiver) BleedDown(start, end unit.AbsPressure, time unit.Duration) (unit.MassFlow, error) {
	mean, err := r.Flow(start, end, time)
	return mean * bleedDownFactor, err
}

// LeakAtStart is the leak at the starting pressure of holes that stay choked,
// so that flow follows absolute pressure and the pressure falls exponentially:
// m1 = V p1 ln(p1/p2)/(R T t). The end must lie above vacuum; holes are choked
// while the end stays above about 0.9 bar gauge.
func (r Receiver) LeakAtStart(start, end unit.AbsPressure, time unit.Duration) (unit.MassFlow, error) {
	err := errors.Join(r.check(), ordered(start, end), positive("end pressure", float64(end), "Pa absolute"),
		positive("time", float64(time), "s"))
	if err != nil {
		return 0, err
	}
	return unit.MassFlow(float64(start) * r.capacity() * math.Log(float64(start/end)) / float64(time)), nil
}

// LeakShare is the share of a compressor's supply that leaks, from its loaded
// and unloaded times while nothing is drawn: load/(load + unload).
func LeakShare(load, unload unit.Duration) (unit.Ratio, error) {
	if err := errors.Join(notNegative("loaded time", float64(load), "s"), notNegative("unloaded time", float64(unload), "s")); err != nil {
		return 0, err
	}
	// Neither loaded nor unloaded is no observation, not a leak of nothing.
	if load+unload == 0 {
		return 0, fmt.Errorf("loaded and unloaded time: both zero, wanted one of them above zero")
	}
	return unit.Ratio(load / (load + unload)), nil
}
