package water

import (
	"math"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

const massRatio = air.GasConstant / air.WaterGasConstant

// rounding is a share of a flow that is no flow.
const rounding = 1e-6

// current is air on its way: dry air and liquid in kg/s, vapour in kg per kg of dry air.
type current struct {
	dry, vapour, liquid float64
	temp, pressure      float64
	known               bool
	claim               Claim
}

// saturated is the most vapour that air holds, kg per kg dry; +Inf where it boils first.
func saturated(p, t float64) float64 {
	es, err := air.SaturationPressure(unit.Temperature(t), air.OverEither)
	if err != nil || float64(es) >= p {
		return math.Inf(1)
	}
	return float64(air.Moist{Pressure: unit.AbsPressure(p), Temperature: unit.Temperature(t), Vapour: es}.HumidityRatio())
}

// dew is the pressure dew point; nil where there is no water at all.
func dew(c current) *unit.Temperature {
	e := c.pressure * c.vapour / (massRatio + c.vapour)
	t, err := air.DewPoint(unit.AbsPressure(e), air.OverEither)
	if err != nil || !c.known {
		return nil
	}
	return &t
}

// settle lets fall what the air cannot hold at its state; kg/s.
func (c *current) settle() float64 {
	over := c.vapour - saturated(c.pressure, c.temp)
	if over <= 0 {
		return 0
	}
	c.vapour -= over
	return over * c.dry
}

// mix adds another current.
func (c *current) mix(o current) {
	sum := c.dry + o.dry
	if sum <= 0 {
		return
	}
	// A share that only the solver's rounding sends round by a shut valve spoils nothing.
	switch {
	case c.dry <= rounding*sum:
		c.claim = o.claim
	case o.dry > rounding*sum:
		c.claim.join(o.claim)
	}
	c.vapour = (c.vapour*c.dry + o.vapour*o.dry) / sum
	c.temp = (c.temp*c.dry + o.temp*o.dry) / sum
	c.liquid += o.liquid
	c.dry, c.known = sum, true
}
