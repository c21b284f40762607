package fit_test

import (
	"math"
	"strings"
	"testing"

	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// takeOff counts pieces by kind, and metres of stock under "metres".
func takeOff(j *job.Job) map[string]float64 {
	out := map[string]float64{}
	for _, l := range parts.Of(j, catalog.Builtin()).Lines {
		if l.Group == parts.Stock {
			out["metres"] += float64(*l.Length)
			continue
		}
		out[l.Kind] += float64(l.Pieces)
		if strings.HasPrefix(l.Article, "bend ") {
			out["bends"] += float64(l.Pieces)
		}
	}
	return out
}

// TestTheTakeOffChangesAsTheGeometrySays: what a gesture draws is what there is to buy
// more, and no more.
func TestTheTakeOffChangesAsTheGeometrySays(t *testing.T) {
	for _, row := range []struct {
		name, gesture string
		more          map[string]float64
	}{
		{"a branch square off the main", `{"do":"line","from":{"run":"line.main","along_m":4.7},"to":{"place":{"at_m":[3.6,3.1,2.5]}}}`, map[string]float64{"metres": 3, "tee": 1}},
		{
			"round a corner, of stick", `{"do":"line","from":{"point":"point.main-end"},"via":[{"at_m":[7.9,3.1,2.5]}],"to":{"place":{"at_m":[4.9,3.1,2.5]}},"role":"main"}`,
			map[string]float64{"metres": 6, "elbow-90": 2},
		},
		{
			"the same with elbows as points", `{"do":"line","from":{"point":"point.main-end"},"via":[{"at_m":[7.9,3.1,2.5]}],"to":{"place":{"at_m":[4.9,3.1,2.5]}},"role":"main","corners":"elbow"}`,
			map[string]float64{"metres": 6, "elbow-90": 2},
		},
		{
			"of coil, bent", `{"do":"line","from":{"run":"line.main","along_m":4.7},"via":[{"at_m":[3.6,3.1,2.5]}],"to":{"place":{"at_m":[4.6,3.1,2.5]}},"stock":"pe-al-pe-metric","size":"20"}`,
			map[string]float64{"metres": 4, "tee": 1, "bends": 1},
		},
		{
			"a leg off the top", `{"do":"drop","from":{"run":"line.main","along_m":4.7},"to":{"at_m":[4,0.1,1.1]},"size":"1/2","valve":true,"outlet":{"name":"Bench"}}`,
			map[string]float64{"metres": 0.1 + 0.4 + 1.5, "tee": 1, "elbow-90": 2, "ball-valve": 1, "drop-elbow": 1},
		},
		{
			"a leg off the bottom", `{"do":"drop","from":{"run":"line.main","along_m":4.7},"to":{"at_m":[3.6,0.1,1.1]},"size":"1/2","take_off":"bottom","outlet":{"name":"Bench"}}`,
			map[string]float64{"metres": 1.4, "tee": 1, "drop-elbow": 1},
		},
		{"a stub", `{"do":"line","from":{"run":"line.main","along_m":4.7},"to":{"place":{"at_m":[3.6,0.1,2.3]}},"role":"stub"}`, map[string]float64{"metres": 0.2, "tee": 1, "cap": 1}},
		{"a valve in the line", `{"do":"plant","kind":"ball-valve","into":{"run":"line.main","along_m":4.7}}`, map[string]float64{"ball-valve": 1}},
	} {
		s := walled(t).main()
		before := takeOff(s.job)
		s.do(row.gesture)
		after := takeOff(s.job)
		for kind := range after {
			if got := after[kind] - before[kind]; kind != "joint" && math.Abs(got-row.more[kind]) > 1e-6 && kind != "" {
				t.Errorf("%s: %v more of %q, want %v", row.name, got, kind, row.more[kind])
			}
		}
		for kind, want := range row.more {
			if got := after[kind] - before[kind]; math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: %v more of %q, want %v", row.name, got, kind, want)
			}
		}
	}
}

func BenchmarkDragOnTheRing(b *testing.B) {
	j := exampleJob(b, "ring-main")
	benchGesture(b, j, `{"do":"drag","ids":["outlet.n3"],"by_m":[0.3,0,0]}`)
}

func BenchmarkLineOnTheRing(b *testing.B) {
	j := exampleJob(b, "ring-main")
	benchGesture(b, j, `{"do":"line","from":{"run":"`+string(j.Net.Runs[40].ID)+`","along_m":0.5},"to":{"place":{"at_m":[10,10,3.2]}},"corners":"sweep"}`)
}
