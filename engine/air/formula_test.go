package air

import (
	"strings"
	"testing"

	"dropleg/engine/formula"
	"dropleg/engine/formula/formulatest"
	"dropleg/engine/unit"
)

func TestFormulas(t *testing.T) {
	tests := []struct {
		args, key string
		want, rel float64
		source    string
	}{
		{"air p=800000 temp=250", "heat_capacity_J_kgK", 1023.228999, 1e-5, "AIR-0068"},
		{"air p=0.1MPaa temp=250", "density_kg_m3", 1.394480762, 2e-5, "AIR-0047"},
		{"air p=0.1MPaa temp=250", "compressibility", 0.9990526276, 2e-5, "AIR-0048"},
		{"air p=0.1MPaa temp=250", "viscosity_Pa_s", 16.03793931e-6, 1e-5, "AIR-0049"},
		{"altitude h=1000m", "pressure_Pa_abs", 89874.5705, 1e-7, "AIR-0505"},
		{"altitude h=10000", "pressure_Pa_abs", 26436, 4e-5, "AIR-0449"},
		{"altitude h=6000 height=geometric", "temperature_K", 249.19, 4e-5, "AIR-0489"},
		{"humid temp=300 over=water", "saturation_pressure_Pa", 3536.58941, 3e-9, "HUMI-0001"},
		{"humid temp=600", "saturation_pressure_Pa", 12344314.6, 3e-9, "HUMI-0002"},
		{"humid temp=230 over=ice", "saturation_pressure_Pa", 8.94735, 1e-6, "HUMI-0003"},
		{"humid temp=5C p=101325", "humidity_ratio", 0.005425, 5e-3, "HUMI-0031"},
		{"humid temp=-60C", "water_kg_m3", 0.01099556044e-3, 5e-3, "HUMI-0058"},
		{"humid temp=0C p=1e6", "enhancement_factor", 1.0353, 1.5e-3, "HUMI-0024"},
		{"dewpoint dewpoint=-40C p=101325 p_out=801325", "dew_point_K", 273.15 - 20.1702, 2e-4, "HUMI-0270"},
		{"dewpoint dewpoint=3C p=7bar p_out=0bar over=water", "dew_point_K", 273.15 - 23.085, 4e-4, "HUMI-0303"},
		{"freeair flow=1m3/s to=normal", "flow_m3_s", 0.9195909613, 1e-8, "REFE-0014"},
		{"freeair flow=1m3/s to=iso8778", "flow_m3_s", 1.015436899, 1e-5, "REFE-0013"},
		{"freeair flow=3600Nm3/h to=scfm68h", "flow_m3_s", 1.081911838, 1e-5, "REFE-0050"},
		{"freeair flow=1m3/s to=site h=500 temp=30C rh=50%", "flow_m3_s", 1.10792409, 1e-5, "REFE-0144"},
		{"freeair flow=1m3/s", "mass_flow_kg_s", 1.188360377, 2e-4, "REFE-0001"},
		{"power flow=1m3/min p_in=1bara p_out=8bara", "power_W", 4733.44275, 1e-8, "POWE-0103"},
		{"power flow=1m3/min p_in=1bara p_out=8bara stages=2", "power_W", 4035.502247, 1e-8, "POWE-0104"},
		{"power flow=1m3/min p_in=1bara p_out=8bara exponent=1", "specific_kWh_m3", 3.465735903 / 60, 1e-8, "POWE-0102"},
		{"power flow=1m3/min p_in=1bara p_out=8bara", "discharge_temperature_K", 273.15 + 257.8757844, 1e-8, "POWE-0105"},
		{"power flow=1cfm p_in=14.7psia p_out=114.7psia stages=2", "power_W", 0.153 * 745.69987, 0.02, "POWE-0017"},
		// The same air as a mass: 1 m³/min at ISO 1217, whose state p_in and temp are.
		{"power flow=1m3/min.iso1217 p_in=1bara p_out=8bara efficiency=50%", "power_W", 2 * 4733.44275, 1e-8, "POWE-0103"},
	}
	for _, c := range tests {
		got, err := formulatest.Ask(t, Formulas(), c.args)
		if err != nil {
			t.Errorf("%s (%s): %v", c.args, c.source, err)
			continue
		}
		if x, ok := got[c.key]; !ok || !near(x, c.want, c.rel) {
			t.Errorf("%s (%s): %s = %.10g, want %.10g", c.args, c.source, c.key, x, c.want)
		}
	}
}

func TestFormulaRefusals(t *testing.T) {
	for args, want := range map[string]string{
		"air p=-1e4":                              "",
		"air p=1e5 temp=3000":                     "temperature 3000 K: wanted from 60 to 2000 K",
		"altitude h=40000":                        "height 40000 m: wanted from -2000 to 32000 m",
		"humid temp=280 over=ice":                 "temperature over ice",
		"humid temp=300 rh=1.5":                   "rh 1.5",
		"humid temp=400 p=101325":                 "beneath the whole pressure",
		"freeair flow=1acfm":                      "wanted the site's p, temp and rh",
		"freeair flow=1m3/s to=site":              "wanted the site's p, temp and rh",
		"power flow=1m3/s p_out=1e4":              "outlet pressure 10000",
		"power flow=1m3/s p_out=8e5 efficiency=0": "efficiency 0",
	} {
		fields := strings.Fields(args)
		if want == "" {
			f, _ := formulaNamed(fields[0])
			if _, problems := f.Read(fields[1:], unit.Env{}); len(problems) == 0 {
				t.Errorf("%s: was read", args)
			}
			continue
		}
		if _, err := formulatest.Ask(t, Formulas(), strings.Join(fields, " ")); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want %q in it", args, err, want)
		}
	}
}

func formulaNamed(name string) (formula.Formula, bool) {
	for _, f := range Formulas() {
		if f.Name == name {
			return f, true
		}
	}
	return formula.Formula{}, false
}

// A question without an answer leaves the key out; it does not invent one.
func TestHumidLeavesOut(t *testing.T) {
	dry, err := formulatest.Ask(t, Formulas(), "humid temp=20C rh=0")
	if _, ok := dry["dew_point_K"]; ok || err != nil {
		t.Errorf("dry air has dew point %v, %v", dry["dew_point_K"], err)
	}
	hot, err := formulatest.Ask(t, Formulas(), "humid temp=150C")
	if _, ok := hot["humidity_ratio"]; ok || err != nil {
		t.Errorf("steam has humidity ratio %v, %v", hot["humidity_ratio"], err)
	}
}
