package reftest

import (
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/unit"
)

const powerFile = "air/power.csv"

// path is one way of compressing that a row names.
type path struct {
	begins   string
	stages   int
	exponent float64
	factor   float64
}

func paths() []path {
	return []path{
		{"isothermal power per cfm free air", 1, 1, 1},
		{"two-stage adiabatic theoretical power per cfm", 2, air.Kappa, 1},
		{"two-stage power plus 15 % friction per cfm", 2, air.Kappa, 1.15},
		{"single-stage adiabatic mean effective pressure", 1, air.Kappa, 1},
		{"isothermal work per ft3 of free air", 1, 1, 1},
		{"adiabatic work per ft3 of free air", 1, air.Kappa, 1},
		{"actual (polytropic) work per ft3 of free air", 1, 1.25, 1},
		{"specific isothermal power", 1, 1, 1},
		{"specific adiabatic power, single stage", 1, air.Kappa, 1},
		{"specific adiabatic power, two stage", 2, air.Kappa, 1},
	}
}

func powerLaws() []Law {
	const topic, code = "Compression", "engine/air Compression"
	var work []string
	for _, p := range paths() {
		work = append(work, p.begins)
	}
	return []Law{
		{Topic: topic, Name: "work and power", Code: code + ".Work", File: powerFile, Of: work, Got: workOf},
		{
			Topic: topic, Name: "stages and discharge temperature", Code: code + ".StageRatio, Between, Discharge", File: powerFile,
			Of: []string{"correct stage pressure ratio", "intercooler gauge pressure", "adiabatic discharge temperature"}, Got: stages,
		},
		{
			Topic: topic, Name: "change of power with pressure and intake temperature", Code: code + ".Work, Site", File: powerFile,
			Of: []string{"exact adiabatic power change", "power change for intake temperature"}, Got: powerChange,
		},
		{
			Topic: topic, Name: "reciprocating compressor at altitude", Code: "engine/air DeliveredAtHeight", File: powerFile,
			Of: []string{"compressor volumetric efficiency relative to sea level"}, Got: atHeight,
			Caution: "the clearance of 10 % was inferred from these rows",
			Because: []Because{{
				When: of("compressor volumetric efficiency"), Abs: 2,
				Why: "the rows state no clearance: one of 10 % inferred from them serves all; it holds the shape of the law, not its last digit",
			}},
		},
	}
}

// compression reads both kinds of rows: psig over 14.7 psia, or bar.
func compression(r Row, stages int, exponent float64) air.Compression {
	in, gauge := unit.AbsPressure(14.7*psi), unit.GaugePressure(r.In["p_psig"]*psi)
	if r.Has("p_bar_g") {
		in, gauge = bar, unit.GaugePressure(r.In["p_bar_g"]*bar)
	}
	if r.Has("p_atm_bar") {
		in = unit.AbsPressure(r.In["p_atm_bar"] * bar)
	}
	return air.Compression{In: in, Out: gauge.Abs(in), Stages: stages, Exponent: exponent}
}

func workOf(r Row) (float64, error) {
	perUnit := map[string]float64{
		"hp/cfm": horse / cfm, "psi": psi, "ft.lbf/ft3": footPound / cubicFoot, "kW per m3/min": 60e3,
	}
	for _, p := range paths() {
		if strings.HasPrefix(r.Quantity, p.begins) {
			w, err := compression(r, p.stages, p.exponent).Work()
			return p.factor * w / perUnit[r.Unit], err
		}
	}
	return 0, unused("no such path")
}

func stages(r Row) (float64, error) {
	c := compression(r, 2, air.Kappa)
	switch {
	case strings.HasPrefix(r.Quantity, "correct stage"):
		return c.StageRatio(), nil
	case strings.HasPrefix(r.Quantity, "intercooler"):
		return float64(c.Between(1)-c.In) / psi, nil
	}
	d, err := compression(r, 1, r.In["k"]).Discharge(unit.Temperature(r.In["T1_K"]))
	return d.Celsius(), err
}

func powerChange(r Row) (float64, error) {
	if strings.HasPrefix(r.Quantity, "exact adiabatic") {
		one := compression(r, 1, air.Kappa)
		two := one
		two.Out += 2 * psi
		a, err := one.Work()
		if err != nil {
			return 0, err
		}
		b, err := two.Work()
		return 100 * (b/a - 1), err
	}
	// At equal mass the volume drawn in, and so the power, follow T1.
	warm, err := free(bar, unit.Celsius(r.In["t_C"]))
	if err != nil {
		return 0, err
	}
	cool, err := free(bar, unit.Celsius(r.In["ref_t_C"]))
	return 100 * (float64(warm.Volume(1))/float64(cool.Volume(1)) - 1), err
}

func atHeight(r Row) (float64, error) {
	const clearance = 0.10
	stages := 1
	switch {
	case strings.HasSuffix(r.Quantity, "rotary"):
		return 0, unused("a rotary machine has no clearance volume; its small loss at height is not modelled")
	case strings.HasSuffix(r.Quantity, "two-stage reciprocating"):
		stages = 2
	}
	h := unit.Length(r.In["altitude_ft"] * foot)
	d, err := air.DeliveredAtHeight(h, 100*psi, stages, clearance)
	if err != nil {
		return 0, err
	}
	a, err := air.AtmosphereAt(h)
	return 100 * float64(d) / float64(a.Pressure/air.StandardPressure), err
}
