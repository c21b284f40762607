package catalog

import (
	"testing"

	"dropleg/engine/unit"
)

// The conflicts that piping.md names, settled as it names.
func TestSpacingConflicts(t *testing.T) {
	for _, c := range []struct {
		stock, size string
		want        float64
		from        string
	}{
		{"pe-al-pe", "3/4", 0.81, "32 in against 98 in: the closer"},
		{"pe-al-pe-metric", "25", 0.81, "32 in against 98 in: the closer"},
		{"copper-l", "1", 1.83, "6 ft against 8 ft: 6"},
		{"steel-sch40", "1", 2.13, "7 ft against 12: the smaller governs"},
		{"steel-en10255", "1", 2.4, "fire manual against EN 806-4: use these"},
	} {
		row, ok := mustSize(t, mustStock(t, c.stock), c.size).Spaced("horizontal")
		if !ok || !nearly(float64(row.Distance), c.want, 1e-9) {
			t.Errorf("%s %s: %v m, want %v (%s)", c.stock, c.size, row.Distance, c.want, c.from)
		}
	}
}

// Air-brake tube has one rating up to its last temperature (ratings.csv, SAE J844).
func TestAirBrakeTubeIsFlat(t *testing.T) {
	if p, _, _, ok := mustStock(t, "nylon-inch").Rating("3/8", unit.Celsius(93), ""); !ok || !nearly(float64(p), 1034e3, 1e-9) {
		t.Errorf("air-brake tube at 93 °C: %v, want 1034 kPa", p)
	}
}
