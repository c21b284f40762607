package air

import (
	"errors"
	"fmt"
	"math"

	"dropleg/engine/unit"
)

// Compression is one way of raising air from In to Out.
type Compression struct {
	In, Out unit.AbsPressure
	// Stages of equal pressure ratio, each but the first fed with air cooled
	// back to the intake temperature.
	Stages int
	// Exponent of the path: Kappa without cooling, 1 isothermal, between them
	// a cooled cylinder (polytropic).
	Exponent float64
}

// most stages and pressure ratio in one stage that the law accepts: wider than
// any machine of the trade.
const (
	stagesMost = 10
	ratioMost  = 1000.0
)

// check names the first input that no machine can have.
func (c Compression) check() error {
	if err := above("intake pressure", float64(c.In), 0, pressMost, "Pa absolute"); err != nil {
		return err
	}
	if !(c.Out >= c.In) || float64(c.Out) > ratioMost*float64(c.In) {
		return fmt.Errorf("outlet pressure %s Pa absolute: wanted from the intake's %.6g to %.6g Pa absolute",
			shown(float64(c.Out)), float64(c.In), ratioMost*float64(c.In))
	}
	if c.Stages < 1 || c.Stages > stagesMost {
		return fmt.Errorf("stages %d: wanted from 1 to %d", c.Stages, stagesMost)
	}
	return between("exponent", c.Exponent, 1, 2, "")
}

// StageRatio is the pressure ratio of each stage: (p2/p1)^(1/stages), the
// share that needs the least work.
func (c Compression) StageRatio() float64 {
	return math.Pow(float64(c.Out/c.In), 1/float64(c.Stages))
}

// Between is the pressure after stage i, counted from one.
func (c Compression) Between(i int) unit.AbsPressure {
	return c.In * unit.AbsPressure(math.Pow(c.StageRatio(), float64(i)))
}

// Work is the theoretical work in J per m³ drawn in at the intake state:
// s n/(n-1) p1 (r^((n-1)/n) - 1) with r the ratio of one of s stages, and
// p1 ln(p2/p1) for n = 1 (cite perfect-gas, machinery-handbook). Ideal gas.
// Outside the range: an error that names it.
func (c Compression) Work() (float64, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	log, share := math.Log(c.StageRatio()), (c.Exponent-1)/c.Exponent
	// (r^share - 1)/share, which tends to ln r as the path becomes isothermal;
	// Expm1 keeps it exact on the way there.
	grown := log
	if share > 0 {
		grown = math.Expm1(share*log) / share
	}
	return float64(c.Stages) * float64(c.In) * grown, nil
}

// Discharge is the temperature at which the last stage delivers, before any
// aftercooler: T1 r^((n-1)/n). Real machines with injected oil stay far cooler.
func (c Compression) Discharge(intake unit.Temperature) (unit.Temperature, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	if err := above("intake temperature", float64(intake), 0, tempMost, "K"); err != nil {
		return 0, err
	}
	share := (c.Exponent - 1) / c.Exponent
	return intake * unit.Temperature(math.Pow(c.StageRatio(), share)), nil
}

// ShaftPower is the power for a flow drawn in (m³/s at the intake state) at an
// overall efficiency above 0 and up to 1, taken against this path's work.
func (c Compression) ShaftPower(drawn unit.VolumeFlow, efficiency unit.Ratio) (unit.Power, error) {
	work, errW := c.Work()
	err := errors.Join(errW,
		between("flow", float64(drawn), 0, math.MaxFloat64, "m3/s"),
		above("efficiency", float64(efficiency), 0, 1, ""))
	if err != nil {
		return 0, err
	}
	return unit.Power(float64(drawn) * work / float64(efficiency)), nil
}

// VolumetricEfficiency is the share of its swept volume that a piston machine
// draws in, from the air left in the clearance: 1 - c (r^(1/n) - 1), r the
// ratio of the first stage, c the clearance as a share of the stroke. Never
// below zero, where the clearance swallows the stroke.
func (c Compression) VolumetricEfficiency(clearance unit.Ratio) (unit.Ratio, error) {
	if err := errors.Join(c.check(), between("clearance", float64(clearance), 0, 1, "")); err != nil {
		return 0, err
	}
	lost := float64(clearance) * (math.Pow(c.StageRatio(), 1/c.Exponent) - 1)
	return unit.Ratio(math.Max(0, 1-lost)), nil
}

// DeliveredAtHeight is the free air of a machine at a height against sea
// level, as a share: the pressure ratio of the atmospheres (the lesser mass in
// each stroke) times the ratio of the volumetric efficiencies at the same
// gauge pressure out. clearance as for [Compression.VolumetricEfficiency].
func DeliveredAtHeight(h unit.Length, gauge unit.GaugePressure, stages int, clearance unit.Ratio) (unit.Ratio, error) {
	place, err := AtmosphereAt(h)
	if err != nil {
		return 0, err
	}
	// The gauge pressure out is kept, so that the ratio grows as the air thins.
	at := func(p unit.AbsPressure) (unit.Ratio, error) {
		c := Compression{In: p, Out: gauge.Abs(p), Stages: stages, Exponent: Kappa}
		return c.VolumetricEfficiency(clearance)
	}
	high, err := at(place.Pressure)
	if err != nil {
		return 0, err
	}
	sea, err := at(StandardPressure)
	if err != nil {
		return 0, err
	}
	if sea == 0 {
		return 0, fmt.Errorf("clearance %.4g: leaves nothing to draw in at %.6g Pa gauge", float64(clearance), float64(gauge))
	}
	return unit.Ratio(float64(place.Pressure/StandardPressure)) * high / sea, nil
}
