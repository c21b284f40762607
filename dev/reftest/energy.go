package reftest

import (
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/energy"
)

// bhp is the horsepower of the rows' own sum, kW.
const bhp = 0.746

func energyLaws() []Law {
	const topic = "Energy and money"
	return []Law{
		{
			Topic: topic, Name: "a year's electricity, priced", Code: "internal/answer/energy Year, Load", File: powerFile,
			Of: []string{"yearly energy cost", "cost of air, fully loaded part", "cost of air, unloaded part"}, Got: yearCost,
		},
		{
			Topic: topic, Name: "load and unload with ample storage", Code: "internal/answer/energy Load", File: powerFile,
			Of: []string{"load/unload average power"}, Got: loadShare,
		},
		{
			Topic: topic, Name: "what leaks cost in a year", Code: "internal/answer/energy Year", File: orificeFile,
			Of: []string{"annual cost of leaks"}, Got: leakCost,
		},
	}
}

// yearCost prices a motor's year, in the row's currency.
func yearCost(r Row) (float64, error) {
	kWh := func(shaft, motor, load, hours float64) float64 {
		return float64(energy.Year(unit.Power(shaft*1e3), motor, load, unit.Duration(hours*3600))) / 3.6e6
	}
	if r.Has("shaft_kW") {
		return kWh(r.In["shaft_kW"], r.In["motor_eff"], 1, r.In["hours"]) * r.In["price_per_kWh"], nil
	}
	load := energy.Load(r.In["time"]*r.In["load"], 0, 0)
	if strings.Contains(r.Quantity, "unloaded") {
		load = energy.Load(0, r.In["time"], r.In["load"])
	}
	return kWh(r.In["bhp"]*bhp, r.In["motor_eff"], load, r.In["h"]) * r.In["usd_per_kWh"], nil
}

func loadShare(r Row) (float64, error) {
	x := r.In["capacity_fraction"]
	return 100 * energy.Load(x, 1-x, r.In["unloaded_fraction"]), nil
}

// leakCost takes the rows' flow of one leak and their power for it as electricity.
func leakCost(r Row) (float64, error) {
	kW := r.In["count"] * r.In["leak_cfm_each"] * r.In["sharp_factor"] * r.In["kW_per_cfm"]
	return float64(energy.Year(unit.Power(kW*1e3), 1, 1, unit.Duration(r.In["hours"]*3600))) / 3.6e6 * r.In["usd_per_kWh"], nil
}
