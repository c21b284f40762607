package screen

import "testing"

// TestNoPowers: no figure of a calibration is told by a power of ten.
func TestNoPowers(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{timesOff(0.944), "0.94"},
		{timesOff(12.3), "12"},
		{timesOff(1284.3), "1284"},
		{timesOff(99.7), "100"},
		{timesOff(2e-7), "0"},
		{leakShare(0.1428), "14.3 %"},
		{leakShare(3e-9), "0 %"},
		{leakShare(2e-6), "0.0002 %"},
	} {
		if c.got != c.want {
			t.Errorf("told as %q, want %q", c.got, c.want)
		}
	}
}
