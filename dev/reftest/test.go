package reftest

import (
	"math"
	"strings"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/engine/vessel"
)

const testFile = "air/test.csv"

func testLaws() []Law {
	const topic = "Pressure test"
	return []Law{
		{
			Topic: topic, Name: "constants of the stored-energy rule", Code: "engine/vessel StoredIn", File: testFile,
			Of: []string{"stored-energy rule"}, Got: energyRule,
			Because: []Because{{
				When: ids("TEST-0006", "TEST-0008", "TEST-0009"), Rel: 0.02,
				Why: "the rule is rounded in each system of units by itself (20 m/kg^(1/3), 30 m, 60 m; 50 ft/lb^(1/3), 100 ft, 200 ft); ours are the SI figures",
			}},
		},
		{
			Topic: topic, Name: "stored energy and distance", Code: "engine/vessel StoredIn, Isentropic", File: testFile,
			When: func(r Row) bool { return r.Has("volume_L", "test_p_bar_g") }, Got: storedEnergy,
		},
		{
			Topic: topic, Name: "pressure decay corrected for temperature", Code: "engine/vessel Decay.Leak, Reading.PerKelvin", File: testFile,
			Of: []string{"temperature-corrected leak", "pressure change per kelvin"}, Got: decay,
		},
	}
}

// energyRule takes the constants back out of an answer, from 1 m³ at 1 MPa (or a
// volume with the energy that the row speaks of).
func energyRule(r Row) (float64, error) {
	const p = 1e6
	s, err := vessel.StoredIn(1, p)
	if err != nil {
		return 0, err
	}
	double, err := vessel.StoredIn(1, 2*p)
	if err != nil {
		return 0, err
	}
	// E = k p (1 - (pa/p)^n) at p and 2p: two equations, n = 0.286 known.
	n := 0.286
	a, b := float64(s.Energy)/p, float64(double.Energy)/(2*p)
	share := (b - a) / (b - a*math.Pow(2, -n)) // (pa/p)^n
	factor := a / (1 - share)
	switch q := strings.TrimPrefix(r.Quantity, "stored-energy rule: "); {
	case q == "coefficient, US units": // psi · ft³ into ft·lbf
		return factor * 144, nil
	case q == "scaled distance, US":
		const pound = 0.45359237
		return float64(s.BlastBefore2018()) / math.Cbrt(float64(s.TNT)/pound) / foot, nil
	case strings.HasPrefix(q, "minimum distance up to 1e8"):
		return float64(s.Least) / foot, nil
	case strings.HasPrefix(q, "coefficient"):
		return factor, nil
	case strings.HasPrefix(q, "TNT"):
		return float64(s.Energy) / float64(s.TNT), nil
	case strings.HasPrefix(q, "atmospheric"):
		return p * math.Pow(share, 1/n), nil
	case strings.HasPrefix(q, "scaled distance"):
		return float64(s.BlastBefore2018()) / math.Cbrt(float64(s.TNT)), nil
	case strings.HasPrefix(q, "minimum distance 1e8"):
		// 1.5e8 ft·lbf, in feet.
		large, err := vessel.StoredIn(unit.Volume(1.5e8*footPound/float64(s.Energy)), p)
		return float64(large.Least) / foot, err
	}
	return float64(s.Least), nil
}

func storedEnergy(r Row) (float64, error) {
	// The rows add the rule's own 101 kPa to the gauge pressure.
	v, p := unit.Volume(r.In["volume_L"]*litre), unit.AbsPressure(r.In["test_p_bar_g"]*bar+101000)
	if strings.HasPrefix(r.Quantity, "stored energy, exact") {
		e, err := vessel.Isentropic(v, p)
		return float64(e), err
	}
	s, err := vessel.StoredIn(v, p)
	switch {
	case r.Quantity == "TNT equivalent":
		return float64(s.TNT), err
	case strings.Contains(r.Quantity, "(2 TNT)"):
		return float64(s.Blast), err
	case strings.HasPrefix(r.Quantity, "scaled distance"):
		return float64(s.BlastBefore2018()), err
	}
	return float64(s.Energy), err
}

func decay(r Row) (float64, error) {
	if strings.HasPrefix(r.Quantity, "pressure change per kelvin") {
		reading := vessel.Reading{Pressure: unit.AbsPressure(r.In["p_bar_abs"] * bar), Temperature: temperature(r)}
		d, err := reading.PerKelvin()
		return float64(d) / bar, err
	}
	atm := r.In["p_atm_Pa"]
	m, err := vessel.Decay{
		Volume: unit.Volume(r.In["volume_L"] * litre),
		Start:  vessel.Reading{Pressure: unit.AbsPressure(r.In["p1_bar_g"]*bar + atm), Temperature: unit.Temperature(r.In["T1_K"])},
		End:    vessel.Reading{Pressure: unit.AbsPressure(r.In["p2_bar_g"]*bar + atm), Temperature: unit.Temperature(r.In["T2_K"])},
		Time:   unit.Duration(r.In["hours"] * 3600),
	}.Leak()
	return float64(air.FreeAir(m)) / litre * minute, err
}
