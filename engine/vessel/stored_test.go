package vessel

import (
	"testing"

	"dropleg/engine/unit"
)

// ASME PCC-2 as read in rows TEST-0007 and TEST-0009: 30 m up to 135.5 MJ,
// 200 ft (60 m) up to 271 MJ; beyond, the blast alone.
func TestLeastDistance(t *testing.T) {
	for _, c := range []struct{ volume, least float64 }{{0.2, 30}, {80, 30}, {120, 60}, {400, 0}} {
		s, err := StoredIn(unit.Volume(c.volume), 1.1e6)
		if err != nil || float64(s.Least) != c.least || s.Distance() < s.Blast || s.Distance() < s.Least {
			t.Errorf("%v m3 (%.4g MJ): least %v, want %v; distance %v; %v", c.volume, s.Energy/1e6, s.Least, c.least, s.Distance(), err)
		}
	}
}
