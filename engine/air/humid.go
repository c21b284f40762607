package air

import (
	"fmt"
	"math"

	"dropleg/engine/unit"
)

// WaterGasConstant is R of water vapour in J/(kg·K).
const WaterGasConstant = 461.523

// massRatio is the molar mass of water over that of dry air; as the ratio of
// the two gas constants, so that water balances close exactly.
const massRatio = GasConstant / WaterGasConstant

// Moist is air with its water, both as ideal gases: e = rh · es(t), with the
// enhancement factor taken as one. That leaves saturated air 0.4 % too dry at
// 0.1 MPa and 3 % at 0.8 MPa and 273 K ([EnhancementFactor]): on the dry side
// for what a dryer must take, on the wet side for what falls out.
type Moist struct {
	Pressure    unit.AbsPressure // of the whole
	Temperature unit.Temperature
	Vapour      unit.AbsPressure // partial pressure of the water vapour
}

// MoistAt is air at p and t of relative humidity rh (0 to 1) over the phase
// named. The vapour must stay beneath p; the temperature must lie in the
// range of [SaturationPressure]. Outside: an error that names the range.
func MoistAt(p unit.AbsPressure, t unit.Temperature, rh unit.Ratio, over Over) (Moist, error) {
	if err := above("pressure", float64(p), 0, pressMost, "Pa absolute"); err != nil {
		return Moist{}, err
	}
	if err := between("relative humidity", float64(rh), 0, 1, ""); err != nil {
		return Moist{}, err
	}
	es, err := SaturationPressure(t, over)
	if err != nil {
		return Moist{}, err
	}
	m := Moist{Pressure: p, Temperature: t, Vapour: es * unit.AbsPressure(rh)}
	return m, m.check()
}

// check refuses vapour that would fill the whole pressure, and what is no state.
func (m Moist) check() error {
	if !(m.Vapour >= 0 && m.Vapour < m.Pressure && m.Temperature > 0) {
		return fmt.Errorf("vapour pressure %.6g Pa at %.5g K: wanted beneath the whole pressure of %.6g Pa absolute",
			float64(m.Vapour), float64(m.Temperature), float64(m.Pressure))
	}
	return nil
}

// HumidityRatio is kg of water per kg of dry air: W = (R/Rv) e/(p - e).
func (m Moist) HumidityRatio() unit.Ratio {
	return unit.Ratio(massRatio * float64(m.Vapour/(m.Pressure-m.Vapour)))
}

// WaterContent is kg of water vapour per m³ at the state itself: e/(Rv T).
func (m Moist) WaterContent() unit.Density {
	return unit.Density(float64(m.Vapour) / (WaterGasConstant * float64(m.Temperature)))
}

// DryDensity is kg of dry air per m³ of the moist air: (p - e)/(R T).
func (m Moist) DryDensity() unit.Density { return IdealDensity(m.Pressure-m.Vapour, m.Temperature) }

// Density is kg of moist air per m³: dry air and vapour together.
func (m Moist) Density() unit.Density { return m.DryDensity() + m.WaterContent() }

// DewPoint is the temperature at which the first water falls out at the same
// pressure. Air that holds no water has none: an error says so.
func (m Moist) DewPoint(over Over) (unit.Temperature, error) { return DewPoint(m.Vapour, over) }

// At is the same air, none of its water lost, brought to p and t; the vapour
// may then stand above saturation: see [Moist.Settled].
func (m Moist) At(p unit.AbsPressure, t unit.Temperature) Moist {
	// Mole shares stay, so the vapour's pressure follows the whole.
	return Moist{Pressure: p, Temperature: t, Vapour: m.Vapour * (p / m.Pressure)}
}

// Settled lets fall what stands above saturation at the state's own pressure
// and temperature. Lost is kg of water per kg of dry air; zero if none.
func (m Moist) Settled() (air Moist, lost unit.Ratio, err error) {
	es, err := SaturationPressure(m.Temperature, OverEither)
	if err != nil {
		return Moist{}, 0, err
	}
	if err := m.check(); err != nil {
		return Moist{}, 0, err
	}
	if m.Vapour <= es {
		return m, 0, nil
	}
	dry := m
	dry.Vapour = es
	return dry, m.HumidityRatio() - dry.HumidityRatio(), nil
}

// DewPointAt moves a dew point with the pressure: the vapour keeps its share
// of the whole, e2 = es(dew) p2/p1. Compressing raises it, expanding lowers it.
func DewPointAt(dew unit.Temperature, p, to unit.AbsPressure, over Over) (unit.Temperature, error) {
	m, err := MoistAt(p, dew, 1, over)
	if err != nil {
		return 0, err
	}
	if err := above("pressure", float64(to), 0, pressMost, "Pa absolute"); err != nil {
		return 0, err
	}
	return m.At(to, dew).DewPoint(over)
}

// Water is what becomes of the water that a compressor takes in.
type Water struct {
	TakenIn    unit.MassFlow // with the intake air
	Vapour     unit.MassFlow // still vapour after cooling at pressure
	Condensate unit.MassFlow // fallen out: TakenIn - Vapour
}

// Compressed follows a flow at the intake state (m³/s as drawn in) to p and t
// after cooling: taken in e/(Rv T) Q; vapour left W_sat(p, t) times the dry
// air. The flow must not be negative, the cooled air not hotter than boiling
// at its pressure.
func Compressed(intake Moist, flow unit.VolumeFlow, p unit.AbsPressure, t unit.Temperature) (Water, error) {
	if err := between("flow", float64(flow), 0, math.MaxFloat64, "m3/s"); err != nil {
		return Water{}, err
	}
	if err := above("pressure", float64(p), 0, pressMost, "Pa absolute"); err != nil {
		return Water{}, err
	}
	if err := intake.check(); err != nil {
		return Water{}, fmt.Errorf("intake: %w", err)
	}
	cooled, lost, err := intake.At(p, t).Settled()
	if err != nil {
		return Water{}, err
	}
	dry := unit.MassFlow(float64(flow) * float64(intake.DryDensity()))
	return Water{
		TakenIn:    unit.MassFlow(float64(flow) * float64(intake.WaterContent())),
		Vapour:     dry * unit.MassFlow(cooled.HumidityRatio()),
		Condensate: dry * unit.MassFlow(lost),
	}, nil
}

// Coefficients of ln f by powers of t in °C, over water and over ice.
var (
	enhanceWater = [2][4]float64{
		{3.53624e-4, 2.93228e-5, 2.61474e-7, 8.57538e-9},
		{-1.07588e1, 6.32529e-2, -2.53591e-4, 6.33784e-7},
	}
	enhanceIce = [2][4]float64{
		{3.64449e-4, 2.93631e-5, 4.88635e-7, 4.36543e-9},
		{-1.07271e1, 7.61989e-2, -1.74771e-4, 2.46721e-6},
	}
)

// EnhancementFactor is f = (vapour pressure at saturation in air at p) / es:
// ln f = a(1 - es/p) + b(p/es - 1), ln b and a cubics in °C (cite
// greenspan1976, coefficients recalled). From -100 to 100 °C, es < p ≤ 2 MPa;
// agrees with the 1983 virial table within 5e-4. The program's own moisture
// sums take f as one and say so; this tells how far that is off.
func EnhancementFactor(p unit.AbsPressure, t unit.Temperature) (unit.Ratio, error) {
	if err := between("temperature", float64(t), 173.15, 373.15, "K"); err != nil {
		return 0, err
	}
	m, err := MoistAt(p, t, 1, OverEither)
	if err != nil {
		return 0, err
	}
	if err := above("pressure", float64(p), 0, 2e6, "Pa absolute"); err != nil {
		return 0, err
	}
	c := &enhanceWater
	if t < freezing {
		c = &enhanceIce
	}
	x, share := t.Celsius(), float64(m.Vapour/p)
	return unit.Ratio(math.Exp(cubic(c[0], x)*(1-share) + math.Exp(cubic(c[1], x))*(1/share-1))), nil
}

// cubic is a polynomial with ascending powers.
func cubic(c [4]float64, x float64) float64 { return ((c[3]*x+c[2])*x+c[1])*x + c[0] }
