package unit

import "strings"

// suffixRow is a unit as it ends a key of a document: si = value·scale + offset.
type suffixRow struct {
	suffix string
	scale  float64
	offset float64
	kinds  []Kind
}

// flowKinds are held in m³/s both.
var flowKinds = []Kind{KindFlow, KindVolumeFlow}

// suffixTable is the one table of units in the names of keys: SI and the
// metric units next to it, and no others; it is never written to. A pressure
// states its frame (_kPa_abs, _kPa_g) and fits only kinds of that frame.
var suffixTable = []suffixRow{
	{"_m", 1, 0, []Kind{KindLength}},
	{"_mm", 1e-3, 0, []Kind{KindLength}},
	{"_um", 1e-6, 0, []Kind{KindLength}},
	{"_m2", 1, 0, []Kind{KindArea}},
	{"_mm2", 1e-6, 0, []Kind{KindArea}},
	{"_m3", 1, 0, []Kind{KindVolume}},
	{"_L", 1e-3, 0, []Kind{KindVolume}},
	{"_Pa_abs", 1, 0, []Kind{KindPressure, KindBarometer}},
	{"_kPa_abs", 1e3, 0, []Kind{KindPressure, KindBarometer}},
	{"_bar_abs", bar, 0, []Kind{KindPressure, KindBarometer}},
	{"_Pa_g", 1, 0, []Kind{KindGauge}},
	{"_kPa_g", 1e3, 0, []Kind{KindGauge}},
	{"_bar_g", bar, 0, []Kind{KindGauge}},
	{"_Pa", 1, 0, []Kind{KindPressureDiff, KindStress, KindBarometer}},
	{"_kPa", 1e3, 0, []Kind{KindPressureDiff, KindStress, KindBarometer}},
	{"_MPa", 1e6, 0, []Kind{KindPressureDiff, KindStress}},
	{"_GPa", 1e9, 0, []Kind{KindStress}},
	{"_K", 1, 0, []Kind{KindTemperature, KindTempDiff}},
	{"_C", 1, 273.15, []Kind{KindTemperature}},
	{"_m3_s", 1, 0, flowKinds},
	{"_m3_min", 1.0 / 60, 0, flowKinds},
	{"_m3_h", 1.0 / 3600, 0, flowKinds},
	{"_L_s", 1e-3, 0, flowKinds},
	{"_L_min", 1e-3 / 60, 0, flowKinds},
	{"_kg_s", 1, 0, []Kind{KindMassFlow}},
	{"_g_s", 1e-3, 0, []Kind{KindMassFlow}},
	{"_kg_h", 1.0 / 3600, 0, []Kind{KindMassFlow}},
	{"_m_s", 1, 0, []Kind{KindVelocity}},
	{"_kg_m3", 1, 0, []Kind{KindDensity}},
	{"_g_m3", 1e-3, 0, []Kind{KindDensity}},
	{"_Pa_s", 1, 0, []Kind{KindViscosity}},
	{"_uPa_s", 1e-6, 0, []Kind{KindViscosity}},
	{"_s", 1, 0, []Kind{KindDuration}},
	{"_min", 60, 0, []Kind{KindDuration}},
	{"_h", 3600, 0, []Kind{KindDuration}},
	{"_d", 86400, 0, []Kind{KindDuration}},
	{"_W", 1, 0, []Kind{KindPower}},
	{"_kW", 1e3, 0, []Kind{KindPower}},
	{"_J", 1, 0, []Kind{KindEnergy, KindElectricity}},
	{"_kJ", 1e3, 0, []Kind{KindEnergy, KindElectricity}},
	{"_kWh", 3.6e6, 0, []Kind{KindEnergy, KindElectricity}},
	{"_J_m3", 1, 0, []Kind{KindSpecificEnergy}},
	{"_kWh_m3", 3.6e6, 0, []Kind{KindSpecificEnergy}},
	{"_kg", 1, 0, []Kind{KindMass}},
	{"_g", 1e-3, 0, []Kind{KindMass}},
	{"_m3_s_Pa", 1, 0, []Kind{KindConductance}},
	{"_L_s_bar", 1e-8, 0, []Kind{KindConductance}},
	{"_dm3_s_bar", 1e-8, 0, []Kind{KindConductance}},
	{"_1_s", 1, 0, []Kind{KindFrequency}},
	{"_1_h", 1.0 / 3600, 0, []Kind{KindFrequency}},
	{"_per_h", 1.0 / 3600, 0, []Kind{KindFrequency}},
	{"_per_day", 1.0 / 86400, 0, []Kind{KindFrequency}},
	{"_1_K", 1, 0, []Kind{KindExpansion}},
	{"_um_mK", 1e-6, 0, []Kind{KindExpansion}},
	{"_J_kgK", 1, 0, []Kind{KindHeatCapacity}},
	{"_pct", 0.01, 0, []Kind{KindRatio}},
}

// FileUnit gives the unit that the suffix of a document's key states for a
// kind: si = value·scale + offset. ok is false where the suffix is unknown or
// does not fit the kind, such as an absolute suffix for a gauge pressure.
func FileUnit(kind Kind, suffix string) (scale, offset float64, ok bool) {
	for _, row := range suffixTable {
		if row.suffix == suffix && indexOfKind(row.kinds, kind) >= 0 {
			return row.scale, row.offset, true
		}
	}
	return 0, 0, false
}

// FileSuffixes lists the suffixes that fit a kind, the SI one first.
func FileSuffixes(kind Kind) []string {
	var fit []string
	for _, row := range suffixTable {
		if indexOfKind(row.kinds, kind) >= 0 {
			fit = append(fit, row.suffix)
		}
	}
	return fit
}

// SuffixOf finds the longest unit suffix that ends a key and leaves a name
// before it: "_m3_s" of "flow_m3_s", not "_s". ok is false where there is none.
func SuffixOf(key string) (suffix string, ok bool) {
	for _, row := range suffixTable {
		if len(row.suffix) > len(suffix) && len(key) > len(row.suffix) && strings.HasSuffix(key, row.suffix) {
			suffix, ok = row.suffix, true
		}
	}
	return suffix, ok
}

func indexOfKind(kinds []Kind, k Kind) int {
	for i, have := range kinds {
		if have == k {
			return i
		}
	}
	return -1
}
