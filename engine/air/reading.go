package air

import (
	"errors"
	"fmt"

	"dropleg/engine/unit"
)

// Basis is what turns a flow as it was stated into mass: the job's reference
// for flows without a mark, and the air at the site for actual flow. The zero
// Basis takes unmarked flows at ISO 1217 and refuses site flows.
type Basis struct {
	Job, Site Reference
}

// ErrNoSite says that a flow at site conditions was given without the site.
var ErrNoSite = errors.New("flow at site conditions: wanted the site's p, temp and rh beside it")

// reference finds the state that a reading's word means.
func (b Basis) reference(name unit.Reference) (Reference, error) {
	switch name {
	case unit.RefJob:
		if b.Job.Pressure == 0 {
			return ISO1217, nil
		}
		return b.Job, nil
	case unit.RefSite:
		if b.Site.Pressure == 0 {
			return Reference{}, ErrNoSite
		}
		return b.Site, nil
	}
	if r, ok := ReferenceNamed(name); ok {
		return r, nil
	}
	return Reference{}, fmt.Errorf("reference %q: wanted one of %v", name, unit.References())
}

// Mass is the flow of dry air in a reading. A mass flow counts as dry air.
func (b Basis) Mass(f unit.FlowReading) (unit.MassFlow, error) {
	if f.Mass {
		return unit.MassFlow(f.Value), nil
	}
	r, err := b.reference(f.Reference)
	if err != nil {
		return 0, err
	}
	return r.Mass(unit.VolumeFlow(f.Value)), nil
}

// FreeAir is a reading as free air at ISO 1217, the flow that jobs hold.
func (b Basis) FreeAir(f unit.FlowReading) (unit.FreeAir, error) {
	m, err := b.Mass(f)
	return FreeAir(m), err
}

// Reading states a flow at a reference: the way back from [Basis.Mass].
func (b Basis) Reading(m unit.MassFlow, at unit.Reference) (unit.FlowReading, error) {
	r, err := b.reference(at)
	if err != nil {
		return unit.FlowReading{}, err
	}
	return unit.FlowReading{Value: float64(r.Volume(m)), Reference: at}, nil
}
