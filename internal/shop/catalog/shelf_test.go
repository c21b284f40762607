package catalog

import "testing"

// Every stock that is sold for air has a take-out for the usual fittings.
func TestTakeOutsComplete(t *testing.T) {
	for _, s := range Builtin().Stocks() {
		for _, z := range s.Sizes {
			for _, kind := range []string{"elbow-90", "tee", "union", "ball-valve"} {
				to, ok := Builtin().TakeOutOf(s, z, kind)
				if !ok || !(to.TakeOut > 0 && to.Insert > 0) || to.Size != z.Size || to.Source == "" {
					t.Errorf("%s %s %s: %+v, %v", s.Stock, z.Size, kind, to, ok)
				}
			}
		}
	}
}

func TestMates(t *testing.T) {
	for _, c := range []struct{ socket, plug, want string }{
		{"automotive-1/4", "automotive-1/4", "yes"},
		{"euro-5.5", "euro-7.2", "looks-like"},
		{"industrial-1/2", "industrial-1/4", "no"},
		{"high-flow-1/4", "industrial-1/4", "no"},
		{"industrial-1/4", "universal-1/4", "no"},
		{"universal-1/4", "universal-1/4", "no"},
		{"industrial-1/4", "nothing", "no"},
	} {
		if got, _ := Builtin().Mates(c.socket, c.plug); got != c.want {
			t.Errorf("%s into %s: %s, want %s", c.plug, c.socket, got, c.want)
		}
	}
}

// All C are estimates from the bore, recalled, with 30 % either way (piping.md).
func TestCouplersHaveARange(t *testing.T) {
	for _, k := range Builtin().Couplers() {
		if !nearly(float64(k.CLow), 0.7*float64(k.C), 1e-3) || !nearly(float64(k.CHigh), 1.3*float64(k.C), 1e-3) || k.How != "recalled" {
			t.Errorf("%s: C from %v to %v, %s", k.Coupler, k.CLow, k.CHigh, k.How)
		}
	}
}

// 88.6 fits the handbook's table and 92.2 is its formula, on the safe side
// (bend_radius.csv).
func TestCopperLegHasBothConstants(t *testing.T) {
	if m, _ := Builtin().Material("copper"); m.Leg.Value != 88.6 || m.Leg.High != 92.2 {
		t.Errorf("copper: leg constant %+v, want 88.6, at most 92.2", m.Leg)
	}
}
