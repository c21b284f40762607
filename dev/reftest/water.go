package reftest

import (
	"math"
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/answer/water"
)

const (
	dryerFile  = "air/dryers.csv"
	purityFile = "air/purity.csv"
)

func waterLaws() []Law {
	const topic = "Water in the lines"
	formulation := []Because{{
		When: func(Row) bool { return true }, Rel: 8e-5, Also: by1983,
		Why: "the row takes water by the 1983 formulation, we by IAPWS-IF97",
	}}
	return []Law{
		{
			Topic: topic, Name: "water class: the highest dew point in it", Code: "internal/answer/water Class", File: purityFile,
			When: func(r Row) bool { return strings.HasSuffix(r.Quantity, "pressure dew point") }, Got: highestDew,
		},
		{
			Topic: topic, Name: "water that a dryer meets", Code: "engine/air MoistAt", File: dryerFile,
			Of: []string{"water load at dryer inlet"}, Got: waterLoad, Because: formulation,
		},
		{
			Topic: topic, Name: "share taken out by cooling", Code: "engine/air Compressed", File: dryerFile,
			Of: []string{"share of intake water removed"}, Got: shareTaken, Because: formulation,
		},
	}
}

// highestDew looks in steps of a hundredth of a degree for the last dew point of the row's class.
func highestDew(r Row) (float64, error) {
	last := math.NaN()
	for step := -9000; step <= 2000; step++ {
		dew := unit.Celsius(float64(step) / 100)
		if water.Class(&dew, 0) == string(rune('0'+int(r.In["cls"]))) {
			last = float64(step) / 100
		}
	}
	return last, nil
}

// waterLoad is the humidity ratio of saturated air over that at 35 °C and 7 bar gauge.
func waterLoad(r Row) (float64, error) {
	here, err := air.MoistAt(unit.AbsPressure(r.In["p_bar_g"]*bar)+air.StandardPressure, unit.Celsius(r.In["inlet_t_C"]), 1, air.OverEither)
	if err != nil {
		return 0, err
	}
	rated, err := air.MoistAt(7*bar+air.StandardPressure, unit.Celsius(35), 1, air.OverEither)
	return float64(here.HumidityRatio() / rated.HumidityRatio()), err
}

// shareTaken is the condensate over the water taken in, of air as the quantity's rows have it.
func shareTaken(r Row) (float64, error) {
	intake, err := air.MoistAt(air.StandardPressure, unit.Celsius(25), 0.6, air.OverEither)
	if err != nil {
		return 0, err
	}
	w, err := air.Compressed(intake, 1, unit.AbsPressure(r.In["p_bar_g"]*bar)+air.StandardPressure, unit.Celsius(r.In["cooled_to_C"]))
	return 100 * float64(w.Condensate/w.TakenIn), err
}

// by1983 works a row with saturation by Hyland and Wexler (ASHRAE 2017 chapter 1, equation 6).
func by1983(r Row) ([]Figure, error) {
	es := func(celsius float64) float64 {
		t := celsius + 273.15
		return math.Exp(-5.8002206e3/t + 1.3914993 - 4.8640239e-2*t + 4.1764768e-5*t*t - 1.4452093e-8*t*t*t + 6.5459673*math.Log(t))
	}
	ratio := func(e, p float64) float64 { return e / (p - e) }
	atm := float64(air.StandardPressure)
	p := r.In["p_bar_g"]*bar + atm
	got := ratio(es(r.In["inlet_t_C"]), p) / ratio(es(35), 7*bar+atm)
	if r.Has("cooled_to_C") {
		got = 100 * (1 - ratio(es(r.In["cooled_to_C"]), p)/ratio(0.6*es(25), atm))
	}
	return []Figure{figure("by the 1983 formulation", r.Want, got, 1e-8, r.Unit)}, nil
}
