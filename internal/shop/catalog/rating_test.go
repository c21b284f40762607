package catalog

import (
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/engine/unit"

	"pgregory.net/rapid"
)

func TestRating(t *testing.T) {
	for _, c := range []struct {
		stock, size, joining string
		tempC                float64
		kPa                  float64 // 0: refused
		says                 string
		from                 string
	}{
		{"pe-al-pe", "3/4", "", 23, 1380, "long-term", "ratings.csv, CSA B137.9"},
		{"pe-al-pe", "3/4", "", 5, 1380, "long-term", "level below the first point"},
		{"pe-al-pe", "3/4", "", 71, 862.5, "long-term", "checks.csv 115"},
		{"pe-al-pe-metric", "25", "press", 71, 862.5, "long-term", "checks.csv 115"},
		{"pe-al-pe", "3/4", "", 90, 0, "ends at 82", "checks.csv 117"},
		{"pvc", "1/2", "", 20, 0, "not fit", "checks.csv 118"},
		{"pvc", "no such size", "", 20, 0, "not fit", "checks.csv 118: any size"},
		{"cpvc", "1/2", "", 20, 0, "not fit", "ratings.csv, ASTM F442"},
		{"abs", "1/2", "", 20, 0, "not fit", "ratings.csv, ASTM D2282"},
		{"pex", "1/2", "", 20, 0, "not fit", "ratings.csv, CSA B137.5"},
		{"copper-m", "3/4", "braze", 37.7778, 2806, "annealed", "checks.csv 119: 407 psi"},
		{"copper-l", "3/4", "solder", 65.5556, 2758, "soldered", "checks.csv 120: 400 psi, the joint governs 495"},
		{"copper-m", "3/4", "solder", 37.7778, 3447, "soldered", "ratings.csv: the joint governs the drawn tube"},
		{"copper-l", "3/4", "braze", 80, 0, "ends at 65.6", "ratings.csv: no row beyond 150 F"},
		{"steel-sch40", "1/2", "", 20, 1475, "pipe wall", "piping.md: 214 psi, not the wall formula"},
		{"steel-sch40", "1/2", "", 150, 1266.424, "fitting", "ratings.csv, B16.3: 1276 − 242·1.1/27.8"},
		{"steel-sch40", "3", "", 20, 0, "no rating", "no row above 2 in"},
		{"steel-en10255", "1", "", 20, 1034, "fitting", "piping.md: 1034 kPa, not 25 bar"},
		{"copper-l", "3/4", "thread", 20, 0, "not joined", ""},
		{"hdpe-sdr11", "32", "", 45, 0, "ends at 40", "ratings.csv, EN 1555"},
	} {
		p, basis, ref, ok := mustStock(t, c.stock).Rating(c.size, unit.Celsius(c.tempC), c.joining)
		if ok != (c.kPa > 0) || ok && !nearly(float64(p), 1e3*c.kPa, 1e-4) || !strings.Contains(basis, c.says) {
			t.Errorf("%s %s %s at %g °C: %v Pa, %q, %v; want %g kPa, %q (%s)", c.stock, c.size, c.joining, c.tempC, p, basis, ok, c.kPa, c.says, c.from)
		}
		if _, known := cite.Lookup(ref.Source); !known {
			t.Errorf("%s %s: source %q is in no bibliography", c.stock, c.size, ref.Source)
		}
	}
}

// Stocks that are not fit say why and name the authority; those that are fit
// have a rating in some size at room temperature.
func TestFitness(t *testing.T) {
	unfit := map[string]cite.ID{"pvc": "osha-pvc1990", "cpvc": "astm-f442", "abs": "astm-d2282", "pex": "csa-b137.5"}
	for _, s := range Builtin().Stocks() {
		first, not := unfit[s.Stock]
		if not != (s.FitForAir == "no") {
			t.Errorf("%s: fit for air %q", s.Stock, s.FitForAir)
		}
		if not && (len(s.Authority) == 0 || s.Authority[0].Source != first || s.Authority[0].How != cite.Read) {
			t.Errorf("%s: authority %v, want %s, read (ratings.csv)", s.Stock, s.Authority, first)
		}
		if s.FitForAir != "yes" {
			continue
		}
		for _, joining := range s.Joining {
			if _, why, _, ok := s.Rating(s.Sizes[0].Size, unit.Celsius(20), joining); !ok {
				t.Errorf("%s %s by %s: no rating at 20 °C: %s", s.Stock, s.Sizes[0].Size, joining, why)
			}
		}
	}
}

// A line never gains strength with heat.
func TestRatingFalls(t *testing.T) {
	stocks := Builtin().Stocks()
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(stocks).Draw(t, "stock")
		z := rapid.SampledFrom(s.Sizes).Draw(t, "size")
		joining := rapid.SampledFrom(s.Joining).Draw(t, "joining")
		cool := rapid.Float64Range(-40, 250).Draw(t, "cool")
		warm := cool + rapid.Float64Range(0, 100).Draw(t, "warmer")
		a, _, _, okA := s.Rating(z.Size, unit.Celsius(cool), joining)
		b, _, _, okB := s.Rating(z.Size, unit.Celsius(warm), joining)
		if okB && (!okA || b > a) {
			t.Fatalf("%s %s: %v at %g °C, %v at %g °C", s.Stock, z.Size, a, cool, b, warm)
		}
		if okA && !(a > 0) {
			t.Fatalf("%s %s: rating %v", s.Stock, z.Size, a)
		}
	})
}
