package air

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/unit"
)

func near(a, b, rel float64) bool { return math.Abs(a-b) <= rel*math.Max(math.Abs(a), math.Abs(b)) }

func TestSaturationRisesAndInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		over := Over(rapid.IntRange(0, 2).Draw(t, "over"))
		low, high := over.limits()
		a := rapid.Float64Range(low, high-1e-3).Draw(t, "T")
		b := math.Min(high, a+rapid.Float64Range(1e-3, 5).Draw(t, "step"))
		pa, errA := SaturationPressure(unit.Temperature(a), over)
		pb, errB := SaturationPressure(unit.Temperature(b), over)
		if errA != nil || errB != nil || pb <= pa {
			t.Fatalf("over %v: es(%v) = %v %v, es(%v) = %v %v: wanted rising", over, a, pa, errA, b, pb, errB)
		}
		back, err := DewPoint(pa, over)
		// At 0 °C two laws meet, 2e-8 apart over water and 1e-4 over either.
		slack := 1e-8
		if math.Abs(a-freezing) < 0.01 {
			slack = 2e-3
		}
		if err != nil || math.Abs(float64(back)-a) > slack {
			t.Fatalf("over %v: dew point of es(%v) is %v, %v", over, a, back, err)
		}
	})
}

func TestDewPointNeverAboveAir(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		temp := unit.Temperature(rapid.Float64Range(200, 370).Draw(t, "T"))
		rh := unit.Ratio(rapid.Float64Range(1e-3, 1).Draw(t, "rh"))
		p := unit.AbsPressure(rapid.Float64Range(1e5, 1.6e6).Draw(t, "p"))
		to := unit.AbsPressure(rapid.Float64Range(1e5, 1.6e6).Draw(t, "p_out"))
		m, err := MoistAt(p, temp, rh, OverEither)
		if err != nil {
			t.Fatal(err)
		}
		dew, err := m.DewPoint(OverEither)
		if err != nil || float64(dew) > float64(temp)+1e-7 {
			t.Fatalf("dew point %v of air at %v, %v", dew, temp, err)
		}
		there, err := DewPointAt(dew, p, to, OverEither)
		if err != nil {
			t.Fatal(err)
		}
		if (to > p) != (there > dew) && math.Abs(float64(to/p)-1) > 1e-3 {
			t.Fatalf("dew point %v at %v became %v at %v: wanted to rise with pressure", dew, p, there, to)
		}
		back, err := DewPointAt(there, to, p, OverEither)
		if err != nil || math.Abs(float64(back-dew)) > 5e-3 {
			t.Fatalf("dew point %v came back as %v, %v", dew, back, err)
		}
	})
}

func TestWaterIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		intake, err := MoistAt(101325, unit.Temperature(rapid.Float64Range(260, 320).Draw(t, "T")),
			unit.Ratio(rapid.Float64Range(0, 1).Draw(t, "rh")), OverEither)
		if err != nil {
			t.Fatal(err)
		}
		w, err := Compressed(intake, 0.01, unit.AbsPressure(rapid.Float64Range(1e5, 1.6e6).Draw(t, "p")),
			unit.Temperature(rapid.Float64Range(250, 350).Draw(t, "cooled")))
		if err != nil {
			t.Fatal(err)
		}
		if w.Condensate < 0 || w.Vapour < 0 || !near(float64(w.TakenIn), float64(w.Vapour+w.Condensate), 1e-12) {
			t.Fatalf("taken in %v, vapour %v, fallen out %v", w.TakenIn, w.Vapour, w.Condensate)
		}
	})
}

func TestReferencesRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		site, err := Site(unit.AbsPressure(rapid.Float64Range(5e4, 1.1e5).Draw(t, "p")),
			unit.Temperature(rapid.Float64Range(250, 320).Draw(t, "T")), unit.Ratio(rapid.Float64Range(0, 1).Draw(t, "rh")))
		if err != nil {
			t.Fatal(err)
		}
		basis := Basis{Site: site}
		all := unit.References()
		from := unit.FlowReading{
			Value:     rapid.Float64Range(1e-6, 10).Draw(t, "flow"),
			Reference: rapid.SampledFrom(all).Draw(t, "from"),
		}
		m, err := basis.Mass(from)
		if err != nil {
			t.Fatal(err)
		}
		via, err := basis.Reading(m, rapid.SampledFrom(all).Draw(t, "via"))
		if err != nil {
			t.Fatal(err)
		}
		m2, err := basis.Mass(via)
		if err != nil {
			t.Fatal(err)
		}
		back, err := basis.Reading(m2, from.Reference)
		if err != nil || !near(back.Value, from.Value, 1e-13) {
			t.Fatalf("%v came back as %v, %v", from, back, err)
		}
		if free, err := basis.FreeAir(from); err != nil || !near(float64(Mass(free)), float64(m), 1e-13) {
			t.Fatalf("free air %v is not the mass %v, %v", free, m, err)
		}
	})
}

func TestDensityRisesWithPressure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		temp := unit.Temperature(rapid.Float64Range(100, 2000).Draw(t, "T"))
		most := pressMost
		if temp < tempJ {
			most = dewCeiling * dewPressure(float64(temp))
		}
		p := rapid.Float64Range(1e-3, most*0.99).Draw(t, "p")
		a, errA := DryAt(unit.AbsPressure(p), temp)
		b, errB := DryAt(unit.AbsPressure(p*1.01), temp)
		if errA != nil || errB != nil || b.Density <= a.Density {
			t.Fatalf("densities %v %v, %v %v", a.Density, b.Density, errA, errB)
		}
		if back := molarPressure(float64(a.Density)/molarMass, float64(temp)); !near(back, p, 1e-11) {
			t.Fatalf("pressure %v came back as %v", p, back)
		}
	})
}

func TestAtmosphereFallsWithoutSteps(t *testing.T) {
	last, err := AtmosphereAt(altitudeLeast)
	if err != nil {
		t.Fatal(err)
	}
	for h := altitudeLeast + 10; h <= altitudeMost; h += 10 {
		a, err := AtmosphereAt(unit.Length(h))
		if err != nil {
			t.Fatal(err)
		}
		// Hydrostatic: dp = -rho g dh, the mean density of both ends.
		fall := standardG * 10 * float64(a.Density+last.Density) / 2
		if !near(float64(last.Pressure-a.Pressure), fall, 1e-5) {
			t.Fatalf("at %v m the pressure fell by %v, the weight of the air is %v", h, last.Pressure-a.Pressure, fall)
		}
		last = a
	}
}

func TestLessWorkWithMoreStages(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Compression{
			In: 1e5, Out: unit.AbsPressure(rapid.Float64Range(1.01e5, 2e6).Draw(t, "out")),
			Stages: rapid.IntRange(1, 9).Draw(t, "stages"), Exponent: rapid.Float64Range(1, 1.4).Draw(t, "n"),
		}
		more, iso := c, c
		more.Stages++
		iso.Exponent = 1
		w, err := c.Work()
		wMore, errMore := more.Work()
		wIso, errIso := iso.Work()
		if err != nil || errMore != nil || errIso != nil {
			t.Fatal(err, errMore, errIso)
		}
		if wMore > w*(1+1e-12) || wIso > wMore*(1+1e-12) {
			t.Fatalf("work %v, with a stage more %v, isothermal %v", w, wMore, wIso)
		}
	})
}

// Every refusal names the range; nothing comes out beside it.
func TestOutsideTheRange(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	bad := map[string]func() error{
		"hot":       func() error { _, err := Density(1e5, 2001); return err },
		"cold":      func() error { _, err := Density(1e5, 59); return err },
		"liquid":    func() error { _, err := Density(1e6, 100); return err },
		"vacuum":    func() error { _, err := Density(0, 300); return err },
		"nan":       func() error { _, err := DryAt(unit.AbsPressure(nan), 300); return err },
		"nan temp":  func() error { _, err := Viscosity(1e5, unit.Temperature(nan)); return err },
		"inf":       func() error { _, err := Compressibility(unit.AbsPressure(inf), 300); return err },
		"warm ice":  func() error { _, err := SaturationPressure(280, OverIce); return err },
		"critical":  func() error { _, err := SaturationPressure(648, OverWater); return err },
		"no vapour": func() error { _, err := DewPoint(0, OverEither); return err },
		"rh":        func() error { _, err := MoistAt(1e5, 300, 1.1, OverWater); return err },
		"boiling":   func() error { _, err := MoistAt(1e5, 400, 1, OverWater); return err },
		"deep":      func() error { _, err := AtmosphereAt(-2001); return err },
		"high":      func() error { _, err := AtmosphereAt(32001); return err },
		"site":      func() error { _, err := Site(0, 300, 0); return err },
		"expansion": func() error { _, err := Compression{In: 2e5, Out: 1e5, Stages: 1, Exponent: 1.4}.Work(); return err },
		"stages":    func() error { _, err := Compression{In: 1e5, Out: 2e5, Exponent: 1.4}.Work(); return err },
		"no intake": func() error { _, err := Compressed(Moist{}, 1, 8e5, 300); return err },
		"enhanced":  func() error { _, err := EnhancementFactor(3e6, 300); return err },
	}
	for name, f := range bad {
		if err := f(); err == nil || !strings.Contains(err.Error(), "wanted") && !strings.Contains(err.Error(), "only beneath") {
			t.Errorf("%s: %v does not name a range", name, err)
		}
	}
	if x := Sutherland(0); math.IsNaN(float64(x)) || x <= 0 {
		t.Errorf("Sutherland at 0 K is %v", x)
	}
}

func BenchmarkDryAt(b *testing.B) {
	for b.Loop() {
		if _, err := DryAt(8e5, 293.15); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDewPoint(b *testing.B) {
	for b.Loop() {
		if _, err := DewPoint(700, OverEither); err != nil {
			b.Fatal(err)
		}
	}
}
