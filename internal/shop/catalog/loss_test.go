package catalog

import (
	"math"
	"testing"

	"dropleg/engine/unit"

	"pgregory.net/rapid"
)

func boreOf(t *testing.T, size string) unit.Length {
	t.Helper()
	return mustSize(t, mustStock(t, "steel-sch40"), size).Bore
}

// fT falls as the bore grows, for any bore, and stays a friction factor.
func TestFTFalls(t *testing.T) {
	c := Builtin()
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(0, 0.2).Draw(t, "bore")
		b := a + rapid.Float64Range(0, 0.1).Draw(t, "more")
		fa, _ := c.FT(unit.Length(a))
		fb, _ := c.FT(unit.Length(b))
		if !(fa >= fb && fb > 0.005 && fa < 0.2) {
			t.Fatalf("fT(%v) = %v, fT(%v) = %v", a, fa, b, fb)
		}
	})
	for _, odd := range []float64{math.NaN(), math.Inf(1), -1, 0} {
		if ft, _ := c.FT(unit.Length(odd)); !(ft > 0 && ft < 0.2) {
			t.Errorf("fT(%v) = %v", odd, ft)
		}
	}
}

// Above the society table the fT method takes over.
func TestThreadedBeyondItsTable(t *testing.T) {
	elbow, _ := Builtin().Kind("elbow-90")
	loss, ok := Builtin().Loss(elbow.Law, "thread", boreOf(t, "3"))
	if !ok || !nearly(loss.Through, 30*0.018, 1e-9) || loss.Ref.Source != "fof-fT" {
		t.Errorf("3 in threaded elbow: %+v, want 0.54 by fT", loss)
	}
	k, _ := Builtin().Kind("coupler")
	if _, ok := Builtin().Loss(k.Law, "", 0.01); ok {
		t.Error("a coupler has C and b, no K")
	}
}
