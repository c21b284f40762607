package reftest

import (
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/engine/vessel"
)

const (
	receiverFile = "air/receiver.csv"
	// room is the temperature of vessel and free air where a row states none; it
	// cancels.
	room unit.Temperature = 293.15
)

func receiverLaws() []Law {
	const topic = "Receivers"
	return []Law{
		{
			Topic: topic, Name: "pump-up time", Code: "engine/vessel Receiver.Time", File: receiverFile,
			Of: []string{"pump-up time"}, Got: pumpUp,
		},
		{
			Topic: topic, Name: "leak from a measured pressure fall", Code: "engine/vessel Receiver.Flow", File: receiverFile,
			Of: []string{"leak rate from measured", "mean leak rate"}, Got: leakFromFall,
			Caution: "the volume of the measured test, 629 ft3, was inferred from its first row, so that row holds nothing and the four others hold the law",
		},
		{
			Topic: topic, Name: "leak by the auditors' rule", Code: "engine/vessel Receiver.BleedDown", File: receiverFile,
			Of: []string{"leak rate with the 1.25", "bleed-down leak"}, Got: leakFromFall,
		},
		{
			Topic: topic, Name: "leak at the starting pressure", Code: "engine/vessel Receiver.LeakAtStart", File: receiverFile,
			Of: []string{"leak rate at the starting pressure"}, Got: leakFromFall,
		},
		{
			Topic: topic, Name: "leak share from load and unload times", Code: "engine/vessel LeakShare", File: receiverFile,
			Of: []string{"leak fraction from load/unload test", "leak flow from load/unload test"}, Got: leakShare,
		},
		{
			Topic: topic, Name: "receiver for an intermittent demand", Code: "engine/vessel VolumeFor", File: receiverFile,
			Of: []string{"receiver volume for an intermittent demand"}, Got: volumeFor,
		},
		{
			Topic: topic, Name: "starts per hour", Code: "engine/vessel Receiver.Cycle", File: receiverFile,
			Of: []string{"compressor starts per hour"}, Got: starts,
		},
		{
			Topic: topic, Name: "free air from a timed pump-up", Code: "engine/vessel Receiver.Flow", File: receiverFile,
			Of: []string{"free air delivery from pump-up test"}, Got: timedPumpUp,
		},
		{
			Topic: topic, Name: "line as storage", Code: "engine/vessel PipeVolume", File: receiverFile,
			Of: []string{"pipe volume counted as storage"},
			Got: func(r Row) (float64, error) {
				return float64(vessel.PipeVolume(unit.Length(r.In["id_mm"]/1e3), unit.Length(r.In["length_m"]))) / litre, nil
			},
		},
	}
}

// free is the state in which a row counts its free air, dry at p Pa.
func free(p float64, t unit.Temperature) (air.Reference, error) {
	return air.Site(unit.AbsPressure(p), t, 0)
}

func pumpUp(r Row) (float64, error) {
	atm, tank, intake := r.In["p_atm_bar"]*bar, room, room
	flow := r.In["free_air_L_per_min"]
	if r.Has("T_tank_K") {
		tank, intake, flow = unit.Temperature(r.In["T_tank_K"]), unit.Temperature(r.In["T_intake_K"]), r.In["intake_L_per_min"]
	}
	reference, err := free(atm, intake)
	if err != nil {
		return 0, err
	}
	v := vessel.Receiver{Volume: unit.Volume(r.In["volume_L"] * litre), Temperature: tank}
	d, err := v.Time(unit.AbsPressure(r.In["p_end_bar_g"]*bar+atm), unit.AbsPressure(r.In["p_start_bar_g"]*bar+atm),
		reference.Mass(unit.VolumeFlow(flow*litre/minute)))
	return float64(d) / minute, err
}

// leakFromFall answers by the rule that the row names, in cfm for rows in US
// units and L/min for the others.
func leakFromFall(r Row) (float64, error) {
	atm, pressureUnit, volume, flow := r.In["p_atm_bar"]*bar, bar, r.In["volume_L"]*litre, litre/minute
	start, end, minutes := r.In["p1_bar_g"], r.In["p2_bar_g"], r.In["minutes"]
	if r.Has("V_ft3") {
		atm, pressureUnit, volume, flow = 14.7*psi, psi, r.In["V_ft3"]*cubicFoot, cfm
		start, end = r.In["P1_psig"], r.In["P2_psig"]
	}
	if r.Has("p1_psig") {
		start, end, minutes = r.In["p1_psig"], r.In["p2_psig"], r.In["t_end_min"]-r.In["t_start_min"]
	}
	reference, err := free(atm, room)
	if err != nil {
		return 0, err
	}
	v := vessel.Receiver{Volume: unit.Volume(volume), Temperature: room}
	rule := v.Flow
	switch {
	case strings.HasPrefix(r.Quantity, "leak rate with"), strings.HasPrefix(r.Quantity, "bleed-down"):
		rule = v.BleedDown
	case strings.HasPrefix(r.Quantity, "leak rate at the starting"):
		rule = v.LeakAtStart
	}
	m, err := rule(unit.AbsPressure(start*pressureUnit+atm), unit.AbsPressure(end*pressureUnit+atm), unit.Duration(minutes*minute))
	return float64(reference.Volume(m)) / flow, err
}

func leakShare(r Row) (float64, error) {
	if strings.HasPrefix(r.Quantity, "leak flow") { // 35 m3/min; load 1.5 min; unload 10.5 min
		s, err := vessel.LeakShare(1.5*minute, 10.5*minute)
		return 35 * float64(s), err
	}
	s, err := vessel.LeakShare(unit.Duration(r.In["load_min"]*minute), unit.Duration(r.In["unload_min"]*minute))
	return 100 * float64(s), err
}

// timedPumpUp works the row's phrase: 8.322 m³ from 0.5 to 7.03 kgf/cm² in 4.021
// min, free air at 1.026 kgf/cm².
func timedPumpUp(Row) (float64, error) {
	const kgf = 98066.5
	reference, err := free(1.026*kgf, room)
	if err != nil {
		return 0, err
	}
	m, err := vessel.Receiver{Volume: 8.322, Temperature: room}.Flow(7.03*kgf, 0.5*kgf, 4.021*minute)
	return float64(reference.Volume(m)) * minute, err
}

func volumeFor(r Row) (float64, error) {
	atm := r.In["p_atm_bar"] * bar
	reference, err := free(atm, room)
	if err != nil {
		return 0, err
	}
	net := (r.In["demand_L_per_min"] - r.In["compressor_L_per_min"]) * litre / minute
	v, err := vessel.VolumeFor(unit.AbsPressure(r.In["p_max_bar_g"]*bar+atm), unit.AbsPressure(r.In["p_min_bar_g"]*bar+atm),
		reference.Mass(unit.VolumeFlow(net)), unit.Duration(r.In["minutes"]*minute), room)
	return float64(v) / litre, err
}

func starts(r Row) (float64, error) {
	const low = 7 * bar // any: only the band counts
	reference, err := free(r.In["p_atm_bar"]*bar, room)
	if err != nil {
		return 0, err
	}
	supply := reference.Mass(unit.VolumeFlow(r.In["FAD_L_per_min"] * litre / minute))
	v := vessel.Receiver{Volume: unit.Volume(r.In["volume_L"] * litre), Temperature: room}
	c, err := v.Cycle(unit.AbsPressure(low+r.In["dp_bar"]*bar), low, supply, supply*unit.MassFlow(r.In["demand_fraction"]))
	return float64(c.Starts) * 3600, err
}
