package calc

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// promised is the table of the command line's manual: keys may be added, none removed.
var promised = map[string]struct{ takes, gives []string }{
	"friction": {[]string{"re", "rr"}, []string{"darcy_friction_factor"}},
	"pipe": {
		[]string{"bore", "length", "roughness", "k", "temp", "p", "flow", "p_out"},
		[]string{"pressure_drop_Pa", "outlet_pressure_Pa_abs", "mass_flow_kg_s", "velocity_in_m_s", "velocity_out_m_s", "reynolds", "darcy_friction_factor", "mach_out"},
	},
	"coupler":  {[]string{"C", "b", "m", "p", "p_out", "temp"}, []string{"mass_flow_kg_s", "free_air_m3_s", "choked"}},
	"leak":     {[]string{"bore", "cd", "p", "temp"}, []string{"mass_flow_kg_s", "free_air_m3_s", "choked"}},
	"air":      {[]string{"p", "temp"}, []string{"density_kg_m3", "viscosity_Pa_s", "compressibility"}},
	"altitude": {[]string{"h"}, []string{"pressure_Pa_abs", "temperature_K"}},
	"humid":    {[]string{"temp", "over", "rh", "p"}, []string{"saturation_pressure_Pa", "dew_point_K", "water_kg_m3", "humidity_ratio"}},
	"dewpoint": {[]string{"dewpoint", "p", "p_out"}, []string{"dew_point_K"}},
	"freeair":  {[]string{"flow", "to", "p", "temp", "rh"}, []string{"flow_m3_s", "mass_flow_kg_s"}},
	"receiver": {[]string{"volume", "p_high", "p_low", "flow", "supply"}, []string{"time_s", "volume_m3", "cycle_s", "duty", "starts_per_h"}},
	"growth":   {[]string{"material", "alpha", "length", "dt", "od", "stress", "E"}, []string{"growth_m", "leg_m"}},
	"offset":   {[]string{"material", "growth", "other_growth", "od", "leg_constant", "stress", "leg", "wall"}, []string{"leg_m", "loop_leg_m", "loop_radius_m", "stress_Pa", "push_N"}},
	"held":     {[]string{"material", "alpha", "E", "dt", "od", "wall", "span"}, []string{"stress_Pa", "push_N", "bows_at_N"}},
	"corner":   {[]string{"material", "alpha", "E", "leg", "other_leg", "dt", "od", "wall"}, []string{"stress_Pa", "push_N", "other_push_N", "moment_Nm"}},
	"decay": {
		[]string{"volume", "p_start", "p_end", "temp_start", "temp_end", "time", "gauge", "thermometer", "see"},
		[]string{"leak_kg_s", "leak_free_air_m3_s", "uncertainty_free_air_m3_s", "hold_s"},
	},
	"energy": {[]string{"volume", "p"}, []string{"stored_energy_J", "tnt_kg", "distance_m"}},
	"power":  {[]string{"flow", "p_in", "p_out", "stages", "efficiency"}, []string{"power_W", "specific_kWh_m3"}},
	"thread": {[]string{"size", "kind"}, nil},
	"line":   {[]string{"stock", "size", "temp"}, []string{"outside_m", "bore_m", "wall_m", "rating_Pa_g"}},
}

func TestPromised(t *testing.T) {
	has := func(symbols []formula.Symbol, key string) bool {
		for _, s := range symbols {
			if s.Key == key {
				return true
			}
		}
		return false
	}
	for name, p := range promised {
		f, ok := Find(name)
		if !ok {
			t.Errorf("there is no %s", name)
			continue
		}
		for _, key := range p.takes {
			if !has(f.In, key) {
				t.Errorf("%s takes no %s", name, key)
			}
		}
		for _, key := range p.gives {
			if !has(f.Out, key) {
				t.Errorf("%s gives no %s", name, key)
			}
		}
	}
	if len(Names()) != len(promised) {
		t.Errorf("%v: the manual promises %d formulas", Names(), len(promised))
	}
}

// TestWhole: every formula tells itself wholly, and no name or key stands twice.
func TestWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range All() {
		if seen[f.Name] || f.Title == "" || f.Law == "" || f.Eval == nil || len(f.Cite) == 0 {
			t.Errorf("%s: twice, or without title, law, source or evaluation", f.Name)
		}
		seen[f.Name] = true
		for _, ref := range f.Cite {
			if _, ok := cite.Lookup(ref.Source); !ok {
				t.Errorf("%s: the source %s is not in the bibliography", f.Name, ref.Source)
			}
		}
		for _, side := range [][]formula.Symbol{f.In, f.Out} {
			keys := map[string]bool{}
			for _, s := range side {
				if keys[s.Key] || s.Words == "" {
					t.Errorf("%s: %s stands twice or has no words", f.Name, s.Key)
				}
				keys[s.Key] = true
			}
		}
	}
	if got := Nearest("resiver"); got != "receiver" {
		t.Errorf("nearest to resiver: %q", got)
	}
}

// TestAnyInput: whatever numbers come in, a formula answers with finite ones or with
// an error; it does not panic.
func TestAnyInput(t *testing.T) {
	any := rapid.OneOf(
		rapid.Float64Range(-10, 10), rapid.Float64Range(0, 1), rapid.Float64Range(0, 1e6), rapid.Float64Range(200, 400),
		rapid.SampledFrom([]float64{0, -1, 1e-300, 1e300, math.MaxFloat64, 293.15, 101325}),
	)
	for _, f := range All() {
		t.Run(f.Name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				in := formula.NewValues()
				for _, s := range f.In {
					if rapid.Float64Range(0, 1).Draw(t, "given") < 0.2 && (s.Optional || s.Default != nil || s.Word != "") {
						continue
					}
					switch {
					case s.Kind == unit.KindWord && len(s.Choices) > 0:
						in.PutWord(s.Key, rapid.SampledFrom(s.Choices).Draw(t, s.Key))
					case s.Kind == unit.KindWord:
						in.PutWord(s.Key, rapid.SampledFrom([]string{"copper-l", "1/2", "pvc", "22", "x"}).Draw(t, s.Key))
					case s.Kind == unit.KindFlow:
						in.PutFlow(s.Key, unit.FlowReading{Value: any.Draw(t, s.Key), Mass: rapid.Bool().Draw(t, "mass")})
					default:
						in.Put(s.Key, any.Draw(t, s.Key))
					}
				}
				out, err := f.Run(in)
				if err != nil {
					return
				}
				for key, x := range out.Num {
					if math.IsNaN(x) || math.IsInf(x, 0) {
						t.Fatalf("%s is %v", key, x)
					}
				}
			})
		})
	}
}
