package solid

import (
	"math"
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/formula/formulatest"
	"dropleg/engine/unit"

	"pgregory.net/rapid"
)

const psi = 6894.757293168361

// piping.md notes that E = 17e6 psi and S = 6000 psi give 92.2.
func TestLegConstant(t *testing.T) {
	c, err := LegConstant(17e6*psi, 6000*psi)
	if err != nil || math.Abs(c-92.2) > 0.05 {
		t.Errorf("constant %v, %v", c, err)
	}
}

// Restrained copper: E alpha dT by hand, 117 GPa · 16.9e-6 · 40 K = 79.1 MPa;
// 22.2 mm tube of 1.14 mm wall has 75.4 mm², so 5.97 kN.
func TestRestrained(t *testing.T) {
	stress, force, err := Restrained(Material{Alpha: 16.9e-6, Modulus: 117e9}, 0.0222, 0.00114, 40)
	if err != nil || math.Abs(float64(stress)-79.1e6) > 0.05e6 || math.Abs(force-5966) > 10 {
		t.Errorf("stress %v, force %v, %v", stress, force, err)
	}
	if _, _, err := Restrained(Material{Alpha: 1e-5, Modulus: 1e9}, 0.02, 0.011, 40); err == nil {
		t.Error("a wall thicker than the radius was taken")
	}
}

// bend_radius.csv, loop_formula: L = sqrt(1.5 E D dL/S).
func TestLoopLeg(t *testing.T) {
	c, err := LegConstant(17e6*psi, 6000*psi)
	if err != nil {
		t.Fatal(err)
	}
	leg, err := Leg(c, 0.022, 0.02)
	if want := math.Sqrt(1.5 * 17e6 * 0.022 * 0.02 / 6000); err != nil || math.Abs(float64(LoopLeg(leg))/want-1) > 1e-12 {
		t.Errorf("loop leg %v, want %v, %v", LoopLeg(leg), want, err)
	}
}

// grown lists the formula with the materials that the tests name.
func grown() []formula.Formula {
	return Formulas([]Material{{Name: "copper", Alpha: 16.9e-6, Modulus: 117e9}, {Name: "hose", Alpha: 1e-4}})
}

func TestFormula(t *testing.T) {
	for _, c := range []struct {
		args, key string
		want, rel float64
		source    string
	}{
		{"alpha=17e-6 length=10m dt=40K", "growth_m", 6.8e-3, 1e-9, "checks 2"},
		{"alpha=16.92e-6 length=100ft dt=100F", "growth_m", 1.128 * 0.0254, 1e-9, "checks 1"},
		{"material=copper length=10m dt=40K", "growth_m", 6.76e-3, 1e-9, "expansion copper"},
		// 92.195 sqrt(0.625 · 0.5) in by hand.
		{"alpha=1e-5 length=1270m dt=1K od=0.625in stress=6000psi E=17Mpsi", "leg_m", 92.1954446 * 0.55901699 * 0.0254, 1e-7, "leg formula"},
		{"alpha=1e-5 length=1270m dt=1K od=0.625in leg_constant=88.6", "leg_m", 50 * 0.0254, 0.02, "checks 11"},
		{"alpha=1e-5 length=1270m dt=-1K od=0.625in leg_constant=88.6", "loop_radius_m", 8 * 0.0254, 0.1, "checks 12"},
	} {
		got, err := formulatest.Ask(t, grown(), "growth "+c.args)
		if x, ok := got[c.key]; err != nil || !ok || math.Abs(x/c.want-1) > c.rel {
			t.Errorf("%s (%s): %s = %v, want %v, %v", c.args, c.source, c.key, x, c.want, err)
		}
	}
	for args, want := range map[string]string{
		"length=1m dt=1K": "material or alpha: wanted one of them",
		"material=copper length=1m dt=1K od=0 stress=1e6":   "od 0 m: wanted above zero",
		"material=copper length=1m dt=1K od=1in stress=0":   "stress 0 Pa: wanted above zero",
		"alpha=1e-5 length=1m dt=1K od=1in stress=1e6 E=0":  "E 0 Pa: wanted above zero",
		"alpha=1e-5 length=1m dt=1K od=1in leg_constant=-1": "leg constant -1",
		"alpha=1e-5 length=-1m dt=1K":                       "length -1 m: wanted zero or more",
	} {
		if _, err := formulatest.Ask(t, grown(), "growth "+args); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want %q in it", args, err, want)
		}
	}
	if got, err := formulatest.Ask(t, grown(), "growth material=hose length=1m dt=1K od=1in stress=1e6"); err != nil || len(got) != 1 {
		t.Errorf("a material of unknown modulus gave %v, %v", got, err)
	}
}

func TestLegTakesItsGrowthUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := unit.Stress(rapid.Float64Range(1e8, 2e11).Draw(t, "E"))
		s := unit.Stress(rapid.Float64Range(1e6, 2e8).Draw(t, "S"))
		od := unit.Length(rapid.Float64Range(4e-3, 0.2).Draw(t, "od"))
		growth := unit.Length(rapid.Float64Range(-0.1, 0.1).Draw(t, "growth"))
		c, err := LegConstant(e, s)
		if err != nil {
			t.Fatal(err)
		}
		leg, err := Leg(c, od, growth)
		if err != nil {
			t.Fatal(err)
		}
		if growth == 0 {
			return
		}
		// The end of a guided cantilever: S = 3 E OD d/L².
		back := 3 * float64(e) * float64(od) * math.Abs(float64(growth)) / float64(leg*leg)
		if math.Abs(back/float64(s)-1) > 1e-9 {
			t.Fatalf("stress %v, allowed %v", back, s)
		}
	})
}

func TestSourcesExist(t *testing.T) {
	for _, f := range Formulas(nil) {
		for _, r := range f.Cite {
			if _, ok := cite.Lookup(r.Source); !ok {
				t.Errorf("%s: source %q is not in the bibliography", f.Name, r.Source)
			}
		}
	}
}
