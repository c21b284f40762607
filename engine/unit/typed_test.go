package unit

import "testing"

func TestTypedUS(t *testing.T) {
	for text, want := range map[string]bool{
		"100 psig": true, "100psia": true, `12'6"`: true, "3/4in": true, "12 ft 6": true, "20scfm60": true, "18 CFM free air": true,
		"95F": true, "95 °F": true, "80gal": true, "2 ft3/min": true,
		"7 bar": false, "100 kPa": false, "500 L/min ANR": false, "30 Nm3/h iso1217": false, "12.5": false, "22 mm": false, "20C": false, "1h30": false,
		"10 min": false, "": false,
	} {
		if got := TypedUS(text); got != want {
			t.Errorf("TypedUS(%q) = %v", text, got)
		}
	}
}

// TestTypedUSKnows: the units in which US figures are shown are known as such.
func TestTypedUSKnows(t *testing.T) {
	for _, k := range []Kind{KindLength, KindPressure, KindGauge, KindPressureDiff, KindTemperature, KindFlow, KindVolumeFlow, KindVolume, KindPower} {
		for _, x := range []float64{1, 100, 1e5} {
			if text := US.Text(k, x, Env{}); !TypedUS(text) {
				t.Errorf("%s: %q is not known as US", k.Words(), text)
			}
			if text := Metric.Text(k, x, Env{}); TypedUS(text) {
				t.Errorf("%s: %q is taken for US", k.Words(), text)
			}
		}
	}
}
