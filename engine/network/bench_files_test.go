package network

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"
)

// expectation is the proven answer in a reference file.
type expectation struct {
	Pressure map[string]float64 `json:"pressure_Pa_abs"`
	Flow     map[string]float64 `json:"flow_kg_s"`
}

func readReference(t testing.TB, path string) (*Document, expectation) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	d, problems := Read(data)
	if len(problems) > 0 {
		t.Fatalf("%s: %v", path, problems)
	}
	var want expectation
	if err := json.Unmarshal(d.Expected, &want); err != nil {
		t.Fatal(err)
	}
	return d, want
}

func referenceFiles(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "ref", "bench", "network", "*.json"))
	if err != nil || len(files) == 0 {
		t.Fatal("no reference networks", err)
	}
	return files
}

// The files carry answers of an independent solver with residuals below 1e-12,
// found again by other means to 3e-14 (testdata/ref/bench/README.md).
func TestReferenceNetworks(t *testing.T) {
	const agree = 1e-11
	for _, path := range referenceFiles(t) {
		t.Run(filepath.Base(path), func(t *testing.T) {
			d, want := readReference(t, path)
			a, problems, err := d.Answer(context.Background(), nil)
			if err != nil || len(problems) > 0 || a.Refused != nil {
				t.Fatal(err, problems, a)
			}
			if len(want.Pressure) != len(a.Nodes) || len(want.Flow) != len(a.Links) {
				t.Fatal("the reference does not cover the network")
			}
			worstP, worstM := 0.0, 0.0
			for _, n := range a.Nodes {
				p := want.Pressure[n.ID]
				worstP = max(worstP, math.Abs(*n.Pressure-p)/p)
			}
			for _, l := range a.Links {
				m := want.Flow[l.ID]
				worstM = max(worstM, math.Abs(l.Flow-m)/math.Abs(m))
			}
			t.Logf("pressure %.1e, flow %.1e, %d iterations, residuals %+v", worstP, worstM, a.Iterations, a.Residuals)
			if worstP > agree || worstM > agree {
				t.Errorf("pressure off by %.2e, flow by %.2e", worstP, worstM)
			}
		})
	}
}
