package element

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

func run(t *testing.T, f formula.Formula, args ...string) (formula.Values, error) {
	in, problems := f.Read(args, unit.Env{})
	if len(problems) > 0 {
		t.Fatalf("%s %v: %+v", f.Name, args, problems)
	}
	return f.Run(in)
}

// What is asked for one way comes back the other: the flow that p_out gives has that
// p_out, and no input within the ranges gives a number that is none.
func TestPipeFormulaBothWays(t *testing.T) {
	f := PipeFormula()
	rapid.Check(t, func(t *rapid.T) {
		in := map[string]float64{
			"bore":      rapid.Float64Range(4e-3, 0.1).Draw(t, "bore"),
			"length":    rapid.Float64Range(0.1, 300).Draw(t, "length"),
			"roughness": rapid.Float64Range(0, 2e-4).Draw(t, "roughness"),
			"k":         rapid.Float64Range(0, 20).Draw(t, "k"),
			"temp":      rapid.Float64Range(230, 350).Draw(t, "temp"),
			"p":         rapid.Float64Range(2e5, 1.6e6).Draw(t, "p"),
		}
		in["p_out"] = in["p"] * rapid.Float64Range(0.3, 0.999).Draw(t, "ratio")
		out, err := f.Run(formula.Num(in))
		if err != nil {
			t.Fatal(err)
		}
		if out.Yes("choked") {
			return // beyond that, p_out does not act
		}
		delete(in, "p_out")
		again := formula.NewValues()
		again.Num = in
		again.PutFlow("flow", unit.FlowReading{Value: out.Num["mass_flow_kg_s"], Mass: true})
		back, err := f.Run(again)
		if err != nil {
			t.Fatal(err)
		}
		for _, key := range []string{"outlet_pressure_Pa_abs", "darcy_friction_factor", "mach_out"} {
			if a, b := out.Num[key], back.Num[key]; math.Abs(a-b) > 1e-6*math.Abs(a) {
				t.Fatalf("%s: %v by p_out, %v by flow", key, a, b)
			}
		}
	})
}

func TestFormulaRefusals(t *testing.T) {
	for _, row := range []struct {
		f    formula.Formula
		args string
		want string
	}{
		{PipeFormula(), "bore=12mm length=10 p=7bar", "flow or p_out is missing"},
		{PipeFormula(), "bore=12mm length=10 p=7bar flow=1kg/s p_out=6bar", "wanted one of them"},
		{PipeFormula(), "bore=12mm length=10 p=7bar flow=1kg/s", "more than the line can pass"},
		{PipeFormula(), "bore=0 length=10 p=7bar flow=0.001", "bore is 0"},
		{PipeFormula(), "bore=12mm length=-1 p=7bar flow=0.001", "length is -1"},
		{PipeFormula(), "bore=12mm length=10 p=7bar p_out=8bar", "p_out is"},
		{PipeFormula(), "bore=12mm length=10 p=7bar flow=-0.001", "flow is -0.001"},
		{CouplerFormula(), "C=1e-8 b=1.2 p=7bar", "b is 1.2"},
		{CouplerFormula(), "C=1e-8 b=0.2 p=7bar m=0", "m is 0"},
		{LeakFormula(), "bore=1mm p=7bar cd=2", "cd is 2"},
		{LeakFormula(), "bore=1mm p=7bar temp=1", "temp is 1"},
		{FrictionFormula(), "re=0", "re is 0"},
		{FrictionFormula(), "re=1e5 rr=0.2", "rr is 0.2"},
	} {
		if _, err := run(t, row.f, strings.Fields(row.args)...); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("%s %s: %v, want %q", row.f.Name, row.args, err, row.want)
		}
	}
}

// A choked line holds a pressure in its end above that outside, at Mach 1/√1.4 there.
func TestPipeFormulaChoked(t *testing.T) {
	out, err := run(t, PipeFormula(), "bore=4mm", "length=0.2", "p=7bar", "p_out=0bar")
	if err != nil {
		t.Fatal(err)
	}
	if mach := out.Num["mach_out"]; !out.Yes("choked") || math.Abs(mach-1/math.Sqrt(heatRatio)) > 1e-9 {
		t.Errorf("choked %v at Mach %v", out.Yes("choked"), mach)
	}
}
