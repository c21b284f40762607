package element

import (
	"fmt"
	"math"

	"dropleg/engine/air"
	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// What the formulas of lines take where nothing is given.
const (
	roomK     = 293.15 // 20 °C, that of ISO 1217
	smoothEps = 1.5e-6 // m, drawn tube (reference table roughness.csv)
)

// PipeFormula is `pipe`: [Pipe] asked alone, for the outlet pressure of a flow
// or for the flow between two pressures.
func PipeFormula() formula.Formula {
	return formula.Formula{
		Name:  "pipe",
		Title: "pressure lost in a line or hose",
		Law:   "p1^2 - p2^2 = (m/A)^2 R T (f L/D + k + 2 ln(p1/p2)), f by Colebrook; 64/Re up to Re 2000",
		Range: "steady isothermal flow of dry air as an ideal gas (0.2 % at 0.8 MPa), round bore, roughness up to 0.05 bores; chokes at outlet Mach 0.845",
		Cite:  []cite.Ref{{Source: "fluid-text", Place: "isothermal flow with friction", How: cite.Recalled}, {Source: "colebrook", How: cite.Computed}},
		In: []formula.Symbol{
			{Key: "bore", Kind: unit.KindLength, Words: "bore"},
			{Key: "length", Kind: unit.KindLength, Words: "length"},
			{Key: "roughness", Kind: unit.KindLength, Words: "roughness of the wall; drawn tube", Default: new(smoothEps)},
			{Key: "k", Kind: unit.KindNumber, Words: "sum of the loss coefficients of fittings", Default: new(0.0)},
			{Key: "temp", Kind: unit.KindTemperature, Words: "temperature of the air", Default: new(roomK)},
			{Key: "p", Kind: unit.KindPressure, Words: "pressure at the inlet"},
			{Key: "flow", Kind: unit.KindFlow, Words: "flow, or give p_out; iso1217 where it has no mark", Optional: true},
			{Key: "p_out", Kind: unit.KindPressure, Words: "pressure at the outlet, in place of flow", Optional: true},
		},
		Out: []formula.Symbol{
			{Key: "pressure_drop_Pa", Kind: unit.KindPressureDiff, Words: "pressure lost"},
			{Key: "outlet_pressure_Pa_abs", Kind: unit.KindPressure, Words: "pressure at the outlet"},
			{Key: "mass_flow_kg_s", Kind: unit.KindMassFlow, Words: "mass flow"},
			{Key: "free_air_m3_s", Kind: unit.KindFlow, Words: "free air (ISO 1217)"},
			{Key: "velocity_in_m_s", Kind: unit.KindVelocity, Words: "velocity at the inlet"},
			{Key: "velocity_out_m_s", Kind: unit.KindVelocity, Words: "velocity at the outlet"},
			{Key: "reynolds", Kind: unit.KindNumber, Words: "Reynolds number"},
			{Key: "darcy_friction_factor", Kind: unit.KindNumber, Words: "friction factor (Darcy)"},
			{Key: "mach_out", Kind: unit.KindNumber, Words: "Mach number at the outlet"},
			{Key: "choked", Kind: unit.KindYesNo, Words: "choked"},
		},
		Eval: evalPipe,
	}
}

// dryAir is air as the formulas of this package take it: ideal, viscosity by
// Sutherland.
func dryAir(t float64) (Gas, error) {
	if err := within("temp", t, 60, 2000); err != nil {
		return Gas{}, err
	}
	return Gas{Temperature: t, R: air.GasConstant, Z: 1, Viscosity: float64(air.Sutherland(unit.Temperature(t)))}, nil
}

func evalPipe(v formula.Values) (formula.Values, error) {
	none := formula.Values{}
	if err := either(v, "flow", "p_out"); err != nil {
		return none, err
	}
	n := v.Num
	gas, err := dryAir(n["temp"])
	if err != nil {
		return none, err
	}
	if err := positive("p", n["p"]); err != nil {
		return none, err
	}
	line, err := NewPipe(gas, PipeSpec{Length: n["length"], Bore: n["bore"], Roughness: n["roughness"], K: n["k"]})
	if err != nil {
		return none, err
	}
	m, end, choked, err := pipeState(v, line)
	if err != nil {
		return none, err
	}
	reynolds := line.re * m
	out := formula.Num(map[string]float64{
		"pressure_drop_Pa":       n["p"] - end,
		"outlet_pressure_Pa_abs": end,
		"mass_flow_kg_s":         m,
		"free_air_m3_s":          float64(air.FreeAir(unit.MassFlow(m))),
		"velocity_in_m_s":        m / (gas.Density(n["p"]) * line.Area()),
		"velocity_out_m_s":       m / (gas.Density(end) * line.Area()),
		"reynolds":               reynolds,
		"mach_out":               m / (gas.Density(end) * line.Area() * gas.SpeedOfSound()),
	})
	out.PutYes("choked", choked)
	if m > 0 {
		out.Put("darcy_friction_factor", Friction(reynolds, n["roughness"]/n["bore"]))
	}
	return out, nil
}

// pipeState is the flow, and the pressure inside the outlet end: where the line
// chokes that stays above the pressure outside.
func pipeState(v formula.Values, line *Pipe) (m, end float64, choked bool, err error) {
	p := v.Num["p"]
	if v.Has("p_out") {
		outside := v.Num["p_out"]
		if err := within("p_out", outside, 0, p); err != nil {
			return 0, 0, false, err
		}
		m, _, _ = line.Flow(p, outside)
		throat := m * math.Sqrt(line.beta)
		return m, max(outside, throat), throat > outside, nil
	}
	mass, err := air.Basis{}.Mass(v.Flow["flow"])
	if err != nil {
		return 0, 0, false, err
	}
	m = float64(mass)
	if err := within("flow", m, 0, math.MaxFloat64); err != nil {
		return 0, 0, false, err
	}
	end, ok := line.Outlet(p, m)
	if !ok {
		most, _, _ := line.Flow(p, 0)
		return 0, 0, false, fmt.Errorf("flow: %.4g kg/s is more than the line can pass at this inlet pressure, at most %.4g kg/s (%.4g m3/s of free air)",
			m, most, float64(air.FreeAir(unit.MassFlow(most))))
	}
	return m, end, false, nil
}
