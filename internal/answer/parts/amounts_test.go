package parts

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"dropleg/internal/shop/catalog"
)

// implied finds a planned line that nobody draws.
func implied(t *testing.T, a *Answer, article string) Line {
	t.Helper()
	for _, l := range a.Implied {
		if l.Article == article && l.State == Planned {
			return l
		}
	}
	t.Fatalf("no %s: %+v", article, a.Implied)
	return Line{}
}

// TestSolder: two joints of 3/4 in copper take 0.548 lb a hundred of 95-5 solder (Copper
// Tube Handbook, table 14.10, read) and of flux 2 oz a pound; two of 1 in take 0.856 lb.
func TestSolder(t *testing.T) {
	const pound = 0.45359237
	for size, perHundred := range map[string]float64{"3/4": 0.548, "1": 0.856} {
		a := line(t, "us", "copper-l", size, "elbow-90", "a", "b", 2, "")
		joints := 0
		for _, j := range a.Joints {
			if j.Kind == solderJoint {
				joints++
			}
		}
		want := float64(joints) * perHundred / 100 * pound
		got := implied(t, a, solder)
		if joints == 0 || math.Abs(float64(got.Mass)-want) > 1e-4 || got.Unknown != 0 {
			t.Errorf("%s: %d joints, %v, want %.4f kg: %s", size, joints, got.Mass, want, got.Counted)
		}
		if f := implied(t, a, flux); math.Abs(float64(f.Mass)-want/8) > 1e-4 {
			t.Errorf("%s: %v of flux, want %.4f kg", size, f.Mass, want/8)
		}
	}
}

// TestPaste: paste goes with tape, thread by thread, by arithmetic: 0.5 mm on π × gauge
// diameter × useful thread.
func TestPaste(t *testing.T) {
	a := line(t, "us", "steel-sch40", "1/2", "elbow-90", "a", "b", 2, "")
	row, ok := catalog.Builtin().Thread("npt", "1/2")
	if !ok {
		t.Fatal("no thread")
	}
	l := implied(t, a, "thread tape or paste")
	want := float64(l.Joints) * math.Pi * float64(row.GaugeDia) * float64(row.Effective) * 0.0005
	if l.Joints == 0 || math.Abs(float64(l.Paste)-want) > 1e-7 {
		t.Errorf("%d joints, %v m³, want %v", l.Joints, l.Paste, want)
	}
	if said := fmt.Sprintf("as paste about %.0f mL", math.Ceil(want*1e6)); !strings.Contains(l.Counted, said) {
		t.Errorf("%q does not say %q", l.Counted, said)
	}
}

// TestFillerNotKnown: a tube beyond the tables is told, not guessed.
func TestFillerNotKnown(t *testing.T) {
	a := line(t, "us", "copper-l", "4", "elbow-90", "a", "b", 2, "")
	if l := implied(t, a, solder); l.Mass != 0 || l.Unknown != l.Joints {
		t.Errorf("%+v", l)
	}
}
