package prove

import (
	"errors"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/engine/vessel"
	"dropleg/internal/shop/job"
)

// Leakage is the leak of all that stands under pressure, measured at the plant.
type Leakage struct {
	FreeAir unit.FreeAir `json:"leak_free_air_m3_s"`
	Share   unit.Ratio   `json:"share_of_supply"`  // 0: the supply is not known
	Spread  unit.Ratio   `json:"spread,omitempty"` // half range of the share over the cycles timed; 0 for one
	Cycles  int          `json:"cycles,omitempty"`
}

// Timing errors.
var (
	ErrNoCycle  = errors.New("no cycle was timed: wanted how long the compressor ran, and how long it stood, while nothing was drawn")
	ErrNoSupply = errors.New("what the compressor delivers is not known")
	ErrRises    = errors.New("the receiver stood higher at the end than at the start: the compressor ran, or the two readings are exchanged")
	ErrNoVolume = errors.New("the volume of the receiver is not known")
)

// OnOff is the leak from how long the compressor ran and stood while nothing was drawn.
func OnOff(t *job.Test, supply unit.FreeAir) (Leakage, error) {
	n := min(len(t.Loads), len(t.Rests))
	if n == 0 {
		return Leakage{}, ErrNoCycle
	}
	var load, rest unit.Duration
	low, high := unit.Ratio(1), unit.Ratio(0)
	for i := range n {
		share, err := vessel.LeakShare(t.Loads[i], t.Rests[i])
		if err != nil {
			return Leakage{}, err
		}
		low, high = min(low, share), max(high, share)
		load, rest = load+t.Loads[i], rest+t.Rests[i]
	}
	share, err := vessel.LeakShare(load, rest)
	if err != nil {
		return Leakage{}, err
	}
	l := Leakage{FreeAir: unit.FreeAir(float64(share) * float64(supply)), Share: share, Cycles: n}
	if n > 1 {
		l.Spread = (high - low) / 2
	}
	if supply <= 0 {
		return l, ErrNoSupply
	}
	return l, nil
}

// Bleed is the leak from the fall of the receiver with the compressor off, at the
// starting pressure: choked holes, an exponential fall.
func Bleed(t *job.Test, a Ask, supply unit.FreeAir) (Leakage, error) {
	if a.Volume <= 0 {
		return Leakage{}, ErrNoVolume
	}
	if len(t.Samples) < 2 {
		return Leakage{}, errors.New("two readings are wanted, at the start and at the end")
	}
	first, last := t.Samples[0], t.Samples[len(t.Samples)-1]
	if last.Pressure > first.Pressure {
		return Leakage{}, ErrRises
	}
	r := vessel.Receiver{Volume: a.Volume, Temperature: unreadK}
	if first.Temp != nil {
		r.Temperature = *first.Temp
	}
	m, err := r.LeakAtStart(first.Pressure.Abs(a.Atmosphere), last.Pressure.Abs(a.Atmosphere), last.Time-first.Time)
	if err != nil {
		return Leakage{}, err
	}
	l := Leakage{FreeAir: air.FreeAir(m)}
	if supply > 0 {
		l.Share = unit.Ratio(l.FreeAir / supply)
	}
	return l, nil
}
