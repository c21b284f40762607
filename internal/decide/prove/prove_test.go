package prove

import (
	"context"
	"math"
	"strings"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/example"
	"dropleg/internal/shop/job"
)

func planOf(t *testing.T, name string, change func(*job.Job)) *Answer {
	t.Helper()
	text, ok := example.Read(name)
	if !ok {
		t.Fatal(name)
	}
	j, found := job.Parse(text)
	if j == nil {
		t.Fatal(found)
	}
	if change != nil {
		change(j)
	}
	a, err := Of(context.Background(), study.Of(j, catalog.Builtin()))
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// Test pressure, stages, distance of every section of every example: by the rows
// TEST-0057 (1.1), TEST-0059 (first look at 170 kPa or half), TEST-0007 (30 m at least),
// TEST-0064 (relief 1.1 over or 345 kPa).
func TestPlans(t *testing.T) {
	tested := 0
	for _, x := range example.All() {
		a := planOf(t, x.Name, nil)
		seen := map[string]bool{}
		for i := range a.Sections {
			s := &a.Sections[i]
			for _, k := range s.Joints {
				if seen[k] {
					t.Errorf("%s: joint %s stands in two sections", x.Name, k)
				}
				seen[k] = true
			}
			if s.Test == nil {
				if s.Refused == "" {
					t.Errorf("%s %s: neither a test nor a reason", x.Name, s.ID)
				}
				continue
			}
			tested++
			if r := float64(s.Test.Pressure / s.Design); math.Abs(r-1.1) > 1e-9 {
				t.Errorf("%s %s: %v of the design pressure", x.Name, s.ID, r)
			}
			st := s.Test.Stages
			if st[0].Pressure > 170e3 || st[len(st)-1].Pressure != s.Test.Pressure || s.Test.Distance < 30 {
				t.Errorf("%s %s: %+v", x.Name, s.ID, s.Test)
			}
			for n := 1; n < len(st); n++ {
				if st[n].Pressure <= st[n-1].Pressure {
					t.Errorf("%s %s: stages fall: %+v", x.Name, s.ID, st)
				}
			}
			if s.Test.Relief > s.Test.Pressure+345e3+1 || !s.Test.Fits && s.Leak == nil {
				t.Errorf("%s %s: %+v", x.Name, s.ID, s)
			}
			if s.Leak != nil && s.Leak.Pressure > s.Design {
				t.Errorf("%s %s: leak test above working pressure", x.Name, s.ID)
			}
		}
		// Every joint of the take-off is in one section or on plant between two.
		if len(seen) > len(a.Joints) {
			t.Errorf("%s: %d joints in sections, %d in all", x.Name, len(seen), len(a.Joints))
		}
	}
	if tested == 0 {
		t.Error("no section of any example is tested")
	}
}

// Rows TEST-0055 (150 %) and TEST-0060 (1.25).
func TestRuleNamed(t *testing.T) {
	for rule, factor := range map[string]float64{"navy": 1.5, "b31.9": 1.25, "": 1.1} {
		a := planOf(t, "boat-shop", func(j *job.Job) { j.Rules.TestRule, j.Rules.TestFactor = rule, nil })
		if a.Rule.Factor != factor || a.Rule.Hold < 600 {
			t.Errorf("%q: %+v", rule, a.Rule)
		}
	}
	a := planOf(t, "boat-shop", func(j *job.Job) { j.Rules.TestFactor = new(unit.Ratio(1.3)) })
	if a.Rule.Factor != 1.3 || a.Rule.From != "job" {
		t.Errorf("%+v", a.Rule)
	}
}

// A valve stamped for less than the test: refused, with what bears least.
func TestOverRating(t *testing.T) {
	stamp := unit.GaugePressure(700e3)
	a := planOf(t, "boat-shop", func(j *job.Job) {
		for i := range j.Net.Points {
			j.Net.Points[i].Part.Rating = &stamp
		}
	})
	for i := range a.Sections {
		s := &a.Sections[i]
		if s.Design > 700e3 && len(s.Ends)+len(s.Points) > 0 && (s.Refused != "over-rating" || s.Lowest.Pressure > stamp || s.Test != nil) {
			t.Errorf("%s: %q, lowest %+v", s.ID, s.Refused, s.Lowest)
		}
		if s.Leak != nil && s.Leak.Pressure > stamp {
			t.Errorf("%s: leak test at %v", s.ID, s.Leak.Pressure)
		}
	}
}

func samples(temp func(i int) *unit.Temperature, bar ...float64) *job.Test {
	t := &job.Test{Way: "decay", Gauge: new(unit.PressureDiff(1e3)), Thermo: new(unit.TempDiff(0.2))}
	for i, p := range bar {
		t.Samples = append(t.Samples, job.Sample{Time: unit.Duration(3600 * i), Pressure: unit.GaugePressure(p * 1e5), Temp: temp(i)})
	}
	return t
}

func TestJudge(t *testing.T) {
	ask := Ask{Volume: 0.1, Atmosphere: 101325, Limit: 0.05 / 60e3}
	steady := func(int) *unit.Temperature { return new(unit.Temperature(293.15)) }
	none := func(int) *unit.Temperature { return nil }
	cooling := func(i int) *unit.Temperature { return new(unit.Temperature(293.15 - 1.25*float64(i))) }
	// Row TEST-0067: 0.1667 L/min from 8.0 to 7.9 bar in an hour.
	v := Judge(samples(steady, 8, 7.9), ask)
	if got := float64(v.FreeAir) * 60e3; math.Abs(got-0.1666666667) > 1e-7 || v.Verdict != Leaks {
		t.Errorf("%v L/min, %s", got, v.Verdict)
	}
	// Row TEST-0068, to 7.86 bar while it cools by 5 K in four hours: no leak, though it fell.
	v = Judge(samples(cooling, 8, 7.9615, 7.923, 7.8845, 7.8463), ask)
	if v.Verdict != Holds {
		t.Errorf("cooled: %+v", v)
	}
	// The same without temperatures tells nothing.
	v = Judge(samples(none, 8, 7.9615, 7.923, 7.8845, 7.8463), ask)
	if v.Verdict != Open || v.Why != "no-temperature" || v.Hold <= v.Lasted {
		t.Errorf("unread: %+v", v)
	}
	// Row TEST-0071: 0.0307 bar a kelvin at 9.01 bar absolute.
	if got := float64(v.PerKelvin); math.Abs(got-3074.62) > 0.5 {
		t.Errorf("a kelvin is %v Pa", got)
	}
	if v = Judge(samples(steady, 8, 8.4), ask); v.Verdict != Gains {
		t.Errorf("rose: %+v", v)
	}
	if v = Judge(samples(steady, 8), ask); v.Verdict != Open || v.Why != "one-reading" {
		t.Errorf("one: %+v", v)
	}
	if v = Judge(samples(steady, 8, 7.99), Ask{Atmosphere: 101325}); v.Verdict != Useless {
		t.Errorf("no volume: %+v", v)
	}
}

// Row RECE-0008: loaded 8 min, unloaded 48 min is 14.29 %; the same twice has no spread.
func TestOnOff(t *testing.T) {
	l, err := OnOff(&job.Test{Loads: []unit.Duration{480, 480}, Rests: []unit.Duration{2880, 2880}}, 0.01)
	if err != nil || math.Abs(float64(l.Share)-0.142857) > 1e-6 || l.Cycles != 2 || l.Spread != 0 {
		t.Errorf("%+v, %v", l, err)
	}
	if _, err := OnOff(&job.Test{Loads: []unit.Duration{90}}, 0.01); err == nil {
		t.Error("no whole cycle was taken")
	}
}

func TestDoubt(t *testing.T) {
	for _, c := range []struct {
		number float64
		taken  unit.GaugePressure
		want   string
	}{
		{8.2, 8.2 * 6894.757, "read 8.2: bar or psi?"},
		{8.2, 820e3, ""},
		{120, 120e5, "read 120: psi or bar?"},
		{820, 820, "read 820: kPa or Pa?"},
	} {
		if got := Doubt(c.number, c.taken, 880e3); got != c.want {
			t.Errorf("%v: %q", c.number, got)
		}
	}
}

func TestTells(t *testing.T) {
	a := planOf(t, "boat-shop", nil)
	if len(a.Checked)+len(a.Unchecked) != 5 || !strings.Contains(a.Unchecked[len(a.Unchecked)-1], "no record") {
		t.Errorf("%q, %q", a.Checked, a.Unchecked)
	}
}
