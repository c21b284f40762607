package vessel

import (
	"fmt"
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// roomK is the temperature taken where none is given: 20 °C, that of ISO 1217,
// at which a cubic metre of free air is a cubic metre at 100 kPa in the vessel.
const roomK = 293.15

// Formulas lists the formulas of this package, in the order in which they are told.
func Formulas() []formula.Formula {
	return []formula.Formula{ReceiverFormula(), DecayFormula(), EnergyFormula()}
}

// ReceiverFormula is `receiver`: [Receiver.Time] and its inverses, and
// [Receiver.Cycle] where a supply is given.
func ReceiverFormula() formula.Formula {
	return formula.Formula{
		Name:  "receiver",
		Title: "a receiver filling, falling or cycling",
		Law: "time = V (p_high - p_low)/(R T m), solved for the one that is left out; " +
			"with a supply above the flow: cycle = time + V (p_high - p_low)/(R T (m_supply - m)), duty = m/m_supply; " +
			"with a supply beneath it the receiver gives the difference",
		Range: "ideal gas at one temperature; pressures above vacuum. Fills of seconds run hot and end up to 30 % short",
		Cite:  []cite.Ref{{Source: "navfac-mo209", Place: "Tables 5-3, 5-4", How: cite.Read}, {Source: "doe-sourcebook", How: cite.Recalled}},
		In: []formula.Symbol{
			{Key: "volume", Kind: unit.KindVolume, Words: "volume of the receiver", Optional: true},
			{Key: "p_high", Kind: unit.KindPressure, Words: "higher pressure", Optional: true},
			{Key: "p_low", Kind: unit.KindPressure, Words: "lower pressure", Optional: true},
			{Key: "flow", Kind: unit.KindFlow, Words: "flow in or out, free air; the demand where a supply is given", Optional: true},
			{Key: "time", Kind: unit.KindDuration, Words: "time between the pressures", Optional: true},
			{Key: "supply", Kind: unit.KindFlow, Words: "what the compressor delivers", Optional: true},
			{Key: "temp", Kind: unit.KindTemperature, Words: "temperature in the receiver", Default: new(roomK)},
			// Two conventions are in use for free air in a receiver sum: 100 kPa (ISO
			// 1217) and the standard atmosphere. The default is the job's; this is the way
			// to the other.
			{Key: "p_atm", Kind: unit.KindBarometer, Words: "pressure at which unmarked flows count as free air", Default: new(float64(air.ISO1217.Pressure))},
			{Key: "temp_in", Kind: unit.KindTemperature, Words: "temperature at which unmarked flows count as free air", Default: new(roomK)},
		},
		Out: []formula.Symbol{
			{Key: "time_s", Kind: unit.KindDuration, Words: "time from the higher pressure to the lower"},
			{Key: "volume_m3", Kind: unit.KindVolume, Words: "volume of the receiver"},
			{Key: "p_high_Pa_abs", Kind: unit.KindPressure, Words: "higher pressure"},
			{Key: "p_low_Pa_abs", Kind: unit.KindPressure, Words: "lower pressure"},
			{Key: "flow_m3_s", Kind: unit.KindVolumeFlow, Words: "flow of free air"},
			{Key: "mass_flow_kg_s", Kind: unit.KindMassFlow, Words: "flow"},
			{Key: "cycle_s", Kind: unit.KindDuration, Words: "from start to start of the compressor"},
			{Key: "load_s", Kind: unit.KindDuration, Words: "of it under load"},
			{Key: "duty", Kind: unit.KindRatio, Words: "share of time under load"},
			{Key: "starts_per_h", Kind: unit.KindFrequency, Words: "starts"},
		},
		Eval: evalReceiver,
	}
}

// question is a receiver with all but one of its measures given.
type question struct {
	r         Receiver
	high, low unit.AbsPressure
	time      unit.Duration
	demand    unit.MassFlow // flow
	supply    unit.MassFlow
	intake    air.Reference // the state of free air
	missing   string
	cycles    bool // a supply switched by pressure stands against the flow
}

// evalReceiver solves for what is missing, then tells the cycle.
func evalReceiver(v formula.Values) (formula.Values, error) {
	q, err := ask(v)
	if err != nil {
		return formula.Values{}, err
	}
	if err := q.solve(); err != nil {
		return formula.Values{}, err
	}
	out := formula.Num(map[string]float64{
		"time_s": float64(q.time), "volume_m3": float64(q.r.Volume),
		"p_high_Pa_abs": float64(q.high), "p_low_Pa_abs": float64(q.low),
		"flow_m3_s": float64(q.intake.Volume(q.demand)), "mass_flow_kg_s": float64(q.demand),
	})
	if !q.cycles {
		return out, nil
	}
	c, err := q.r.Cycle(q.high, q.low, q.supply, q.demand)
	if err != nil {
		return formula.Values{}, err
	}
	out.Put("duty", float64(c.Duty))
	if c.Period > 0 {
		out.Put("cycle_s", float64(c.Period))
		out.Put("load_s", float64(c.Load))
	}
	out.Put("starts_per_h", float64(c.Starts))
	return out, nil
}

// ask reads the question and finds the one input that is left out. A supply
// with neither flow nor time is a compressor filling a receiver from which
// nobody draws: it counts as the flow.
func ask(v formula.Values) (question, error) {
	flow, supply := v.Flow["flow"], v.Flow["supply"]
	filling := v.Has("supply") && !v.Has("flow") && !v.Has("time")
	if filling {
		flow, supply = supply, unit.FlowReading{}
	}
	var missing []string
	for _, key := range []string{"volume", "p_high", "p_low", "flow", "time"} {
		if !v.Has(key) && !(filling && key == "flow") {
			missing = append(missing, key)
		}
	}
	if len(missing) != 1 {
		return question{}, fmt.Errorf("missing %s: wanted exactly one of volume, p_high, p_low, flow and time left out",
			strings.Join(append(missing, "nothing")[:max(1, len(missing))], ", "))
	}
	n := v.Num
	q := question{
		r:    Receiver{Volume: unit.Volume(n["volume"]), Temperature: unit.Temperature(n["temp"])},
		high: unit.AbsPressure(n["p_high"]), low: unit.AbsPressure(n["p_low"]),
		time: unit.Duration(n["time"]), missing: missing[0],
		cycles: v.Has("supply") && !filling,
	}
	var err error
	if q.intake, err = air.Site(unit.AbsPressure(n["p_atm"]), unit.Temperature(n["temp_in"]), 0); err != nil {
		return question{}, err
	}
	basis := air.Basis{Job: q.intake, Site: q.intake}
	if q.demand, err = basis.Mass(flow); err != nil {
		return question{}, err
	}
	// A supply that was not given is a reading of nothing, and so no mass.
	q.supply, err = basis.Mass(supply)
	return q, err
}

// solve finds the missing one. The receiver gives what the supply does not; a
// supply that keeps up is at rest while the pressure falls.
func (q *question) solve() (err error) {
	// What the supply covers of the demand does not come out of the receiver. With
	// the flow unknown and a time known the supply runs all along.
	covered := q.supply
	if q.missing != "flow" && q.supply >= q.demand {
		covered = 0
	}
	net := q.demand - covered
	if q.missing != "flow" {
		if err := positive("flow", float64(net), "kg/s"); err != nil {
			return err
		}
	}
	switch q.missing {
	case "time":
		q.time, err = q.r.Time(q.high, q.low, net)
	case "volume":
		q.r.Volume, err = VolumeFor(q.high, q.low, net, q.time, q.r.Temperature)
	case "flow":
		net, err = q.r.Flow(q.high, q.low, q.time)
		q.demand = net + covered
	// A pressure too is found by the mass that flows: no other law is needed.
	case "p_high":
		if err = q.r.check(); err == nil {
			q.high = q.low + unit.AbsPressure(q.r.Step(net, q.time))
			err = ordered(q.high, q.low)
		}
	case "p_low":
		if err = q.r.check(); err == nil {
			q.low = q.high - unit.AbsPressure(q.r.Step(net, q.time))
			err = ordered(q.high, q.low)
		}
	}
	return err
}
