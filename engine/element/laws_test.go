package element_test

import (
	"errors"
	"testing"

	"dropleg/engine/element"
	"dropleg/engine/element/lawtest"
)

var shopAir = element.Gas{Temperature: 293.15, R: 287.055, Z: 1, Viscosity: 1.8133e-5}

// examples are figures for each listed law, common and awkward ones.
var examples = map[string][]element.Params{
	"pipe": {
		{"length_m": 12.5, "bore_m": 0.0209, "roughness_m": 1.5e-6, "k": 1.8},
		{"length_m": 0.3, "bore_m": 0.006, "roughness_m": 3e-4, "k": 9, "k_reverse": 0.5},
		{"length_m": 400, "bore_m": 0.1, "roughness_m": 0},
	},
	"minor":      {{"bore_m": 0.0127, "k": 0.9, "k_reverse": 1.8}, {"bore_m": 0.02, "k": 0.01}},
	"iso6358":    {{"C_m3_s_Pa": 3e-8, "b": 0.27}, {"C_m3_s_Pa": 1e-8, "b": 0, "m": 0.6}, {"C_m3_s_Pa": 1e-8, "b": 0.5, "m": 0.3, "cracking_Pa": 0}},
	"orifice":    {{"bore_m": 0.001, "cd": 0.61}, {"bore_m": 0.01, "cd": 1}},
	"rated":      {{"drop_Pa": 2e4, "flow_kg_s": 0.03, "pressure_Pa_abs": 8e5}, {"drop_Pa": 2e4, "flow_kg_s": 0.03, "pressure_Pa_abs": 8e5, "viscous": 0}, {"drop_Pa": 5e3, "flow_kg_s": 0.1, "pressure_Pa_abs": 8e5, "viscous": 1}},
	"regulator":  {{"set_Pa_abs": 7e5, "droop_Pa_s_kg": 2e6, "C_m3_s_Pa": 4e-8, "b": 0.3}, {"set_Pa_abs": 3e5, "C_m3_s_Pa": 4e-8, "b": 0.3}},
	"check":      {{"C_m3_s_Pa": 3e-8, "b": 0.3}, {"C_m3_s_Pa": 3e-8, "b": 0.3, "cracking_Pa": 3e4}, {"C_m3_s_Pa": 3e-8, "b": 0.8, "cracking_Pa": 8e4}},
	"check-k":    {{"bore_m": 0.02, "k": 3, "cracking_Pa": 5e3}, {"bore_m": 0.02, "k": 3}},
	"valve":      {{"bore_m": 0.0127, "k": 0.3}, {"bore_m": 0.0127, "k": 0.3, "shut": 1}},
	"tool":       {{"flow_kg_s": 0.005, "pressure_Pa_abs": 7.2e5, "atmosphere_Pa_abs": 101325}},
	"constant":   {{"flow_kg_s": 0.004}},
	"leak":       {{"fraction": 0.1, "supply_kg_s": 0.05, "pressure_Pa_abs": 8e5, "atmosphere_Pa_abs": 101325, "cd": 0.8}},
	"compressor": {{"free_air_m3_s": 0.02, "ratio": 8}, {"free_air_m3_s": 0.005, "ratio": 8, "clearance": 0.08}},
}

func TestEveryLaw(t *testing.T) {
	for _, e := range element.Laws() {
		if len(examples[e.Name]) == 0 {
			t.Errorf("law %s has no example", e.Name)
		}
		for _, p := range examples[e.Name] {
			l, err := e.Make(shopAir, p)
			if err != nil {
				t.Fatal(e.Name, err)
			}
			t.Run(e.Name, func(t *testing.T) { lawtest.Suite(t, lawtest.Case{Law: l, ZeroAtEqual: e.ZeroAtEqual}) })
		}
	}
}

func TestLawsRefuse(t *testing.T) {
	for _, e := range element.Laws() {
		if found, ok := element.Named(e.Name); !ok || found.Name != e.Name {
			t.Errorf("%s is not found by its name", e.Name)
		}
		for _, key := range e.Must {
			p := element.Params{}
			for k, v := range examples[e.Name][0] {
				p[k] = v
			}
			var wrong *element.KeyError
			delete(p, key)
			if _, err := e.Make(shopAir, p); !errors.As(err, &wrong) || wrong.Key != key {
				t.Errorf("%s without %s: %v", e.Name, key, err)
			}
			var figure *element.ParamError
			p[key] = -1
			if _, err := e.Make(shopAir, p); !errors.As(err, &figure) {
				t.Errorf("%s with %s = -1: %v", e.Name, key, err)
			}
			p[key] = examples[e.Name][0][key]
			p["colour"] = 1
			if _, err := e.Make(shopAir, p); !errors.As(err, &wrong) || wrong.Key != "colour" {
				t.Errorf("%s with a colour: %v", e.Name, err)
			}
		}
	}
}
