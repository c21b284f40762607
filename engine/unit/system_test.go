package unit

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestText(t *testing.T) {
	const cfm = cubicFoot / 60
	for _, c := range []struct {
		system System
		kind   Kind
		si     float64
		want   string
	}{
		{US, KindPressure, 92*psi + standard, "92 psi"},
		{Metric, KindPressure, 630e3 + standard, "6.3 bar"},
		{Metric, KindGauge, 600e3, "6.0 bar"},
		{Metric, KindGauge, 1.234e6, "12.3 bar"},
		{Mixed, KindPressure, 630e3 + standard, "6.3 bar (91 psi)"},
		{US, KindPressure, standard, "0 psi"},
		{US, KindPressure, standard - 1e-7, "0 psi"},
		{Metric, KindGauge, -1e-7, "0.0 bar"},
		{US, KindBarometer, standard, "14.7 psia"},
		{Metric, KindBarometer, standard, "101.3 kPa"},
		{Metric, KindBarometer, 2339, "2.34 kPa"},
		{US, KindPressureDiff, 0.35 * psi, "0.35 psi"},
		{Metric, KindPressureDiff, 2300, "23 mbar"},
		{Metric, KindPressureDiff, 45000, "0.45 bar"},
		{US, KindLength, 150 * inch, "12 ft 6 in"},
		{US, KindLength, 150.51 * inch, "12 ft 6-1/2 in"},
		{US, KindLength, 24.25 * inch, "2 ft 1/4 in"},
		{US, KindLength, 11.99 * inch, "12 in"},
		{US, KindLength, 11.9999 * inch, "1 ft"},
		{US, KindLength, 143.99 * inch, "12 ft"},
		{US, KindLength, 0.824 * inch, "0.824 in"},
		{US, KindLength, -18 * inch, "-1 ft 6 in"},
		{Metric, KindLength, 3.2113, "3.21 m"},
		{Metric, KindLength, 0.0209, "20.9 mm"},
		{Metric, KindLength, 1.5e-6, "0.0015 mm"},
		{Metric, KindLength, 0.99999, "1.00 m"},
		{US, KindFlow, 18.4 * cfm, "18.4 cfm"},
		{Metric, KindFlow, 520e-3 / 60, "520 L/min"},
		{Mixed, KindFlow, 520e-3 / 60, "520 L/min"},
		{Metric, KindFlow, 12.34 / 60, "12.3 m³/min"},
		{US, KindTemperature, 294.8, "71 °F"},
		{Metric, KindTemperature, 293.15, "20 °C"},
		{Metric, KindTemperature, 273.15 - 0.01, "0 °C"},
		{Metric, KindDuration, 45, "45 s"},
		{Metric, KindDuration, 600, "10 min"},
		{Metric, KindDuration, 5400, "1 h 30 min"},
		{US, KindDuration, 3599, "1 h"},
		{Metric, KindPower, 5500, "5.5 kW"},
		{US, KindPower, 7.5 * horse, "7.5 hp"},
		{US, KindVolume, 60 * gallonUS, "60 gal"},
		{Metric, KindVolume, 0.2, "200 L"},
		{Metric, KindConductance, 1.2e-8, "1.2 dm³/(s·bar)"},
		{Metric, KindRatio, 0.5, "50 %"},
		{Metric, KindExpansion, 16.9e-6, "16.9 µm/(m·K)"},
		{Metric, KindVelocity, 6, "6.0 m/s"},
		{Metric, KindNumber, 0.0181234, "0.018123"},
		{Metric, KindInteger, 3, "3"},
		{Metric, KindYesNo, 1, "yes"},
		{Metric, KindLength, math.NaN(), "–"},
		{US, KindLength, math.Inf(1), "–"},
	} {
		if got := c.system.Text(c.kind, c.si, Env{}); got != c.want {
			t.Errorf("%s %s %v: %q, want %q", c.system, c.kind.Words(), c.si, got, c.want)
		}
	}
}

// span is a range of sizes in which a kind's printing is put to the test.
func span(k Kind) (low, high float64) {
	switch k {
	case KindPressure, KindBarometer:
		return 1000, 2e6
	case KindTemperature:
		return 200, 400
	case KindInteger:
		return 1, 1000
	case KindConductance:
		return 1e-10, 1e-6
	case KindStress:
		return 1e5, 1e11
	}
	return 1e-6, 1e6
}

// rounding is how far a printed value may stand from the value in SI: half of
// the last decimal shown, or of the step of feet and hours.
func rounding(s System, k Kind, si float64) float64 {
	switch {
	case k == KindLength && s == US && math.Abs(si) >= foot-inch/2000:
		return inch / 16
	case k == KindDuration && math.Abs(si) >= 3597 && math.Abs(si) < 360000:
		return 30
	}
	st, ok := s.styleOf(k, si)
	if !ok {
		return 0.5e-4 * math.Abs(si)
	}
	u, _ := k.unit(st.unit)
	return 0.5 * math.Pow(10, -float64(st.decimals(u.from(si, k, Env{})))) * u.scale
}

// TestRoundTrip: what is printed is read back within its own rounding, and
// prints the same again.
func TestRoundTrip(t *testing.T) {
	for _, k := range Kinds() {
		if k == KindWord || k == KindYesNo {
			continue
		}
		for _, s := range Systems() {
			t.Run(k.Words()+"/"+string(s), func(t *testing.T) {
				rapid.Check(t, func(t *rapid.T) {
					low, high := span(k)
					si := math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, "log"))
					if k == KindInteger {
						si = math.Round(si)
					}
					text := s.Text(k, si, Env{})
					back, err := Parse(text, k, Env{})
					if err != nil {
						t.Fatalf("%v prints %q: %v", si, text, err)
					}
					if off := math.Abs(back - si); off > rounding(s, k, si)*(1+1e-9)+1e-9*math.Abs(si) {
						t.Fatalf("%v prints %q, which reads %v", si, text, back)
					}
				})
			})
		}
	}
}

// TestNeverOdd: any float prints without "NaN", "Inf" or a negative nought.
func TestNeverOdd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(Kinds()).Draw(t, "kind")
		s := rapid.SampledFrom(Systems()).Draw(t, "system")
		si := rapid.Float64().Draw(t, "si")
		text := s.Text(k, si, Env{})
		number, _, _ := strings.Cut(text, " ")
		if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || (strings.HasPrefix(number, "-") && strings.Trim(number, "-0.") == "") {
			t.Fatalf("%v prints %q", si, text)
		}
	})
}

func TestParseSystem(t *testing.T) {
	for _, s := range Systems() {
		if got, err := ParseSystem(strings.ToUpper(string(s))); err != nil || got != s {
			t.Errorf("%s: %s, %v", s, got, err)
		}
	}
	if _, err := ParseSystem("metrik"); err == nil || !strings.Contains(err.Error(), `"metric"`) {
		t.Errorf("metrik: %v", err)
	}
}
