package fit_test

import (
	"testing"

	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

// TestLabour: a time is stated, stated anew, and given up; what is no work is refused.
func TestLabour(t *testing.T) {
	raw, _ := example.Read("frame-garage")
	j, _ := job.Parse(raw)
	for _, step := range []struct {
		text string
		want []job.LabourTime
	}{
		{`{"do": "labour", "for": "metre", "min": 4}`, []job.LabourTime{{For: "metre", Minutes: 4}}},
		{`{"do": "labour", "for": "solder", "min": 8}`, []job.LabourTime{{For: "metre", Minutes: 4}, {For: "solder", Minutes: 8}}},
		{`{"do": "labour", "for": "metre", "min": 0}`, []job.LabourTime{{For: "solder", Minutes: 8}, {For: "metre", Minutes: 0}}},
		{`{"do": "labour", "for": "solder"}`, []job.LabourTime{{For: "metre", Minutes: 0}}},
	} {
		after, err := does(t, j, step.text)
		if err != nil {
			t.Fatalf("%s: %v", step.text, err)
		}
		j = after
		got := j.Prices.Labour.Minutes
		for i := range max(len(got), len(step.want)) {
			if len(got) != len(step.want) || got[i] != step.want[i] {
				t.Fatalf("%s: %v, want %v", step.text, got, step.want)
			}
		}
	}
	for _, bad := range []string{`{"do": "labour", "for": "", "min": 1}`, `{"do": "labour", "for": "metres", "min": 1}`} {
		if _, err := does(t, j, bad); err == nil {
			t.Errorf("%s is taken", bad)
		}
	}
}
