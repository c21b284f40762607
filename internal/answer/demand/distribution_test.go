package demand_test

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"dropleg/engine/cite/citetest"
	"dropleg/internal/answer/demand"
)

const ref = "../../../testdata/ref/"

// row is one line of checks_demand.csv.
type row struct {
	id, quantity string
	in           map[string]float64
	want         float64
	tolerance    string
}

func rows(t *testing.T) []row {
	t.Helper()
	var out []row
	for _, line := range citetest.Rows(t, "air/checks_demand.csv") {
		if line["how"] != "computed" {
			continue // read and recalled rows speak of other things than the binomial
		}
		r := row{id: line["id"], quantity: line["quantity"], in: map[string]float64{}, tolerance: line["tolerance"]}
		for key, text := range line.Inputs() {
			if v, err := strconv.ParseFloat(text, 64); err == nil {
				r.in[key] = v
			}
		}
		var err error
		if r.want, err = strconv.ParseFloat(line["expected"], 64); err == nil && r.in["n"] > 0 {
			out = append(out, r)
		}
	}
	return out
}

// alike is n tools of one share.
func alike(n int, share float64) []demand.Part {
	parts := make([]demand.Part, n)
	for i := range parts {
		parts[i] = demand.Solo(share, 1)
	}
	return parts
}

// Rows CHEC-0001 to CHEC-0144: equal shares, where the convolution must give
// the binomial distribution.
func TestBinomialRows(t *testing.T) {
	seen := map[string]int{}
	for _, r := range rows(t) {
		chance := demand.Numbers(alike(int(r.in["n"]), r.in["use_factor"]), 0)
		k := int(r.in["k"])
		switch {
		case strings.HasPrefix(r.quantity, "number of tools to design for"):
			seen["number"]++
			if got := demand.Together(chance, r.in["limit"]); got != int(r.want) {
				t.Errorf("%s: %d tools together, want %v", r.id, got, r.want)
			}
		case r.quantity == "P(exactly k in use)":
			seen["exactly"]++
			near(t, r, chance[k])
		case r.quantity == "P(more than k in use)":
			seen["more"]++
			sum := 0.0
			for _, c := range chance[k+1:] {
				sum += c
			}
			near(t, r, sum)
		}
	}
	if seen["number"] < 100 || seen["exactly"] < 5 || seen["more"] < 5 {
		t.Errorf("rows used: %v", seen)
	}
}

// near compares at the row's own tolerance; its ten printed figures allow 1e-9.
func near(t *testing.T, r row, got float64) {
	t.Helper()
	if math.Abs(got-r.want) > 1e-9*r.want {
		t.Errorf("%s: %v, want %v (%s)", r.id, got, r.want, r.tolerance)
	}
}

// instance is a file of testdata/ref/bench/demand: exact by convolution at 1 L/min.
type instance struct {
	Tools []struct {
		Flow  float64 `json:"flow_L_min"`
		Share float64 `json:"share"`
	} `json:"tools"`
	Mean       float64            `json:"mean_L_min"`
	SD         float64            `json:"sd_L_min"`
	Percentile map[string]float64 `json:"percentile_L_min"`
	Above      float64            `json:"P_above_1000_L_min"`
}

func TestBenchInstances(t *testing.T) {
	for _, name := range []string{"fabrication", "four-tools"} {
		raw, err := os.ReadFile(filepath.FromSlash(ref + "bench/demand/" + name + ".json"))
		if err != nil {
			t.Fatal(err)
		}
		var in instance
		if err := json.Unmarshal(raw, &in); err != nil {
			t.Fatal(err)
		}
		var parts []demand.Part
		for _, tool := range in.Tools {
			parts = append(parts, demand.Solo(tool.Share, tool.Flow))
		}
		f := demand.FlowsOf(parts, 1, 0)
		if math.Abs(f.Mean()-in.Mean) > 1e-9*in.Mean || math.Abs(f.SD()-in.SD) > 1e-9*in.SD {
			t.Errorf("%s: mean %v, deviation %v; want %v, %v", name, f.Mean(), f.SD(), in.Mean, in.SD)
		}
		for text, want := range in.Percentile {
			share, _ := strconv.ParseFloat(text, 64)
			if got := f.Level(share); got != want {
				t.Errorf("%s: %s of the time under %v L/min, want %v", name, text, got, want)
			}
		}
		if got := f.Above(1000); math.Abs(got-in.Above) > 1e-12 {
			t.Errorf("%s: above 1000 L/min for %v, want %v", name, got, in.Above)
		}
	}
}
