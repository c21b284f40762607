package unit

import "testing"

func TestSuffixOf(t *testing.T) {
	for _, c := range []struct {
		key, want string
		ok        bool
	}{
		{"length_m", "_m", true},
		{"flow_m3_s", "_m3_s", true},
		{"C_m3_s_Pa", "_m3_s_Pa", true},
		{"specific_kWh_m3", "_kWh_m3", true},
		{"pressure_kPa_g", "_kPa_g", true},
		{"pressure_Pa_abs", "_Pa_abs", true},
		{"viscosity_Pa_s", "_Pa_s", true},
		{"gas_constant_J_kgK", "_J_kgK", true},
		{"starts_per_h", "_per_h", true},
		{"uncertainty_free_air_m3_s", "_m3_s", true},
		{"velocity_in_m_s", "_m_s", true},
		{"darcy_friction_factor", "", false},
		{"choked", "", false},
		{"_m", "", false},
	} {
		if got, ok := SuffixOf(c.key); got != c.want || ok != c.ok {
			t.Errorf("SuffixOf(%q) = %q, %v; want %q, %v", c.key, got, ok, c.want, c.ok)
		}
	}
}

func TestFileUnit(t *testing.T) {
	for _, c := range []struct {
		kind          Kind
		suffix        string
		scale, offset float64
		ok            bool
	}{
		{KindLength, "_mm", 1e-3, 0, true},
		{KindTemperature, "_C", 1, 273.15, true},
		{KindTempDiff, "_C", 0, 0, false},
		{KindGauge, "_kPa_g", 1e3, 0, true},
		{KindGauge, "_kPa_abs", 0, 0, false},
		{KindPressure, "_kPa_g", 0, 0, false},
		{KindPressure, "_kPa_abs", 1e3, 0, true},
		{KindFlow, "_L_min", 1e-3 / 60, 0, true},
		{KindConductance, "_L_s_bar", 1e-8, 0, true},
		{KindLength, "_in", 0, 0, false},
	} {
		scale, offset, ok := FileUnit(c.kind, c.suffix)
		if scale != c.scale || offset != c.offset || ok != c.ok {
			t.Errorf("FileUnit(%s, %q) = %v, %v, %v", c.kind.Words(), c.suffix, scale, offset, ok)
		}
	}
}

// TestFileUnitsAgree: each suffix stands once, and every dimensional kind has
// one of scale 1 in front.
func TestFileUnitsAgree(t *testing.T) {
	seen := map[string]bool{}
	for _, row := range suffixTable {
		if seen[row.suffix] {
			t.Errorf("%s stands twice", row.suffix)
		}
		seen[row.suffix] = true
	}
	for _, k := range Kinds() {
		if k.SI() == "" {
			continue
		}
		fit := FileSuffixes(k)
		if len(fit) == 0 {
			t.Errorf("%s has no suffix", k.Words())
			continue
		}
		if scale, offset, _ := FileUnit(k, fit[0]); scale != 1 || offset != 0 {
			t.Errorf("%s: first suffix %s is not SI", k.Words(), fit[0])
		}
	}
}
