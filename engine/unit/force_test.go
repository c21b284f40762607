package unit

import (
	"math"
	"testing"
)

// 1 lbf = 4.4482216152605 N, by definition (NIST SP 811, B.8): 500 N are 112.4 lbf.
func TestForce(t *testing.T) {
	for _, row := range []struct {
		system System
		newton float64
		want   string
	}{
		{Metric, 500, "500 N"},
		{US, 500, "110 lbf"},
		{US, 4.4482216152605, "1.0 lbf"},
		{Mixed, 1395.2, "1.4 kN"},
		{Metric, 44314, "44 kN"},
		{Metric, 996, "1.0 kN"},
		{Metric, 0, "0 N"},
		{Metric, math.Inf(1), "–"},
	} {
		if got := row.system.Force(row.newton); got != row.want {
			t.Errorf("%s of %g N: %q, want %q", row.system, row.newton, got, row.want)
		}
	}
}
