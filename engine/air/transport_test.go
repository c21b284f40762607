package air

import (
	"math"
	"testing"
)

// The check values of the paper by temperature and density (cite
// lemmon-jacobsen2004, Table V; rows AIR-0001 to AIR-0006), the liquid among them,
// which no pressure of the offered range reaches from outside.
func TestTransportAtDensity(t *testing.T) {
	for _, c := range []struct {
		row          string
		kelvin, rho  float64 // K, mol/dm³
		viscosity    float64 // µPa·s, 0: not printed
		conductivity float64 // mW/(m·K)
	}{
		{"AIR-0001", 100, 0, 7.09559, 0},
		{"AIR-0002", 300, 0, 18.523, 0},
		{"AIR-0003", 100, 28, 107.923, 0},
		{"AIR-0004", 132.64, 10.4, 17.7623, 0},
		{"AIR-0005", 100, 0, 0, 9.35902},
		{"AIR-0006", 300, 0, 0, 26.3529},
	} {
		if got := viscosityAt(c.rho*1e3, c.kelvin); c.viscosity != 0 && math.Abs(got/c.viscosity-1) > 1e-5 {
			t.Errorf("%s: viscosity %v, want %v", c.row, got, c.viscosity)
		}
		if got := conductivityAt(c.rho*1e3, c.kelvin); c.conductivity != 0 && math.Abs(got/c.conductivity-1) > 3e-5 {
			t.Errorf("%s: conductivity %v, want %v", c.row, got, c.conductivity)
		}
	}
}
