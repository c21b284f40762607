package day

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"
)

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > share*math.Abs(want) {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

// steady is a table that always takes the same.
func steady(out float64) *Table {
	return &Table{Pressure: []float64{1e5, 2e6}, Out: []float64{out, out}, Tools: [][]float64{nil, nil}}
}

// receiver-1 and receiver-3 of the benchmark instances: the analytic cycle at a
// constant demand.
func TestReceiverInstances(t *testing.T) {
	for _, name := range []string{"receiver-1", "receiver-3"} {
		raw, err := os.ReadFile(filepath.FromSlash("../../../testdata/ref/bench/demand/" + name + ".json"))
		if err != nil {
			t.Fatal(err)
		}
		var b struct {
			V      float64 `json:"volume_m3"`
			In     float64 `json:"cut_in_Pa"`
			Out    float64 `json:"cut_out_Pa"`
			Ref    float64 `json:"reference_Pa"`
			Supply float64 `json:"supply_free_m3_s"`
			Demand float64 `json:"demand_free_m3_s"`
			On     float64 `json:"time_on_s"`
			Off    float64 `json:"time_off_s"`
			Duty   float64 `json:"duty"`
			Starts float64 `json:"starts_per_h"`
		}
		if err := json.Unmarshal(raw, &b); err != nil {
			t.Fatal(err)
		}
		const temperature = 293.15
		mass := b.Ref / (gasConstant * temperature) // kg/m³ of the free air meant
		p := Plant{Volume: b.V, Temperature: temperature, Machines: []Machine{{
			Flow: b.Supply * mass, CutIn: b.In, CutOut: b.Out, Control: StartStop,
		}}}
		const cycles = 40
		end := cycles * (b.On + b.Off)
		c, err := Run(t.Context(), p, []Switch{{Table: steady(b.Demand * mass)}}, Options{Start: b.In, End: end, Trace: true})
		if err != nil {
			t.Fatal(err)
		}
		near(t, name+" duty", c.Machines[0].Loaded/end, b.Duty, 1e-9)
		near(t, name+" starts", float64(c.Machines[0].Starts), b.Starts*end/3600, 0.03)
		near(t, name+" first fill", c.Trace[1].At, b.On, 1e-9)
		near(t, name+" first fall", c.Trace[2].At-c.Trace[1].At, b.Off, 1e-9)
		if stored := (c.End - b.In) * b.V / (gasConstant * temperature); math.Abs(c.In-c.Out-stored) > 1e-9*c.In {
			t.Errorf("%s: %.9g kg in, %.9g out, %.9g stored", name, c.In, c.Out, stored)
		}
	}
}
