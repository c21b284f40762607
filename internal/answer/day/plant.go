package day

import "errors"

// Control is how a machine is switched by the pressure of the store.
type Control string

// The controls of a job file.
const (
	StartStop  Control = "start-stop"  // the motor stops at cut-out
	LoadUnload Control = "load-unload" // the motor runs on unloaded at cut-out, for its run-on time
	Speed      Control = "speed"       // delivery follows the pressure between cut-in and cut-out
)

// Machine is a compressor as the store sees it.
type Machine struct {
	Name    string
	Flow    float64 // kg/s delivered under load
	CutIn   float64 // Pa abs
	CutOut  float64 // Pa abs
	Control Control
	Least   float64 // share of Flow at the least speed; Speed only
	RunOn   float64 // s unloaded before the motor stops; LoadUnload only
	Vessel  int     // that it feeds and that its switch feels, of Plant.Vessels
}

// Plant is one store of air and the machines that feed it.
type Plant struct {
	Volume      float64 // m³, receivers that stand open to each other
	Temperature float64 // K, of the air in store
	Machines    []Machine
	// Vessels are the stores where they do not stand open to each other, the one that most
	// air is fed to first; nil: one of Volume.
	Vessels []Vessel
}

// Vessel is a store among several.
type Vessel struct {
	Volume float64 // m³, with the lines that stand open to it
	Start  float64 // Pa abs, as the shop opens
	// What leaves it besides what the network takes, kg/s: Leak in proportion to its
	// absolute pressure, given per Pa, and Purge at any.
	Leak, Purge float64
}

// What a plant can be wrong in.
var (
	ErrVolume = errors.New("the receiver has no volume")
	ErrBand   = errors.New("cut-in is not below cut-out")
)

func (p Plant) check() error {
	if !(p.Volume > 0) || !(p.Temperature > 0) {
		return ErrVolume
	}
	for _, v := range p.Vessels {
		if !(v.Volume > 0) || !(v.Start > 0) {
			return ErrVolume
		}
	}
	for _, m := range p.Machines {
		if !(m.CutIn < m.CutOut) || !(m.CutIn > 0) || m.Flow < 0 {
			return ErrBand
		}
	}
	return nil
}

// motor is what a machine does.
type motor int

const (
	stopped motor = iota
	unloaded
	loaded
)

// gives is what a machine delivers at p, and the slope of it, within the band or
// on the edge of it that lies ahead.
func (m Machine) gives(s motor, p float64) (flow, slope float64) {
	switch {
	case s != loaded:
		return 0, 0
	case m.Control != Speed || p < m.CutIn:
		return m.Flow, 0
	}
	slope = -m.Flow * (1 - m.Least) / (m.CutOut - m.CutIn)
	return m.Flow + slope*(p-m.CutIn), slope
}
