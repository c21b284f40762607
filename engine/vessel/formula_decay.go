package vessel

import (
	"errors"

	"dropleg/engine/air"
	"dropleg/engine/cite"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
)

// DecayFormula is `decay`: [Decay] asked alone, and [Instruments.Hold].
func DecayFormula() formula.Formula {
	return formula.Formula{
		Name:  "decay",
		Title: "leak of a shut section from its pressure fall",
		Law: "m = V (p1/T1 - p2/T2)/(R t); uncertainty V/(R t) sqrt(sum of (gauge/T)^2 + (p thermometer/T^2)^2 at start and end); " +
			"hold = time at which the uncertainty has shrunk to the leak to be seen",
		Range: "ideal gas, one temperature throughout the section; gauge and thermometer are what each reading is good to, 95 %",
		Cite:  []cite.Ref{{Source: "iso1217", Place: "reference conditions", How: cite.Recalled}, {Source: "jcgm100", Place: "5.1.2", How: cite.Recalled}},
		In: []formula.Symbol{
			{Key: "volume", Kind: unit.KindVolume, Words: "volume of the section"},
			{Key: "p_start", Kind: unit.KindPressure, Words: "pressure at the start"},
			{Key: "p_end", Kind: unit.KindPressure, Words: "pressure at the end", Optional: true},
			{Key: "temp_start", Kind: unit.KindTemperature, Words: "temperature at the start", Default: new(roomK)},
			{Key: "temp_end", Kind: unit.KindTemperature, Words: "temperature at the end; as at the start unless given", Optional: true},
			{Key: "time", Kind: unit.KindDuration, Words: "time between the readings", Optional: true},
			{Key: "gauge", Kind: unit.KindPressureDiff, Words: "what a gauge reading is good to, plus or minus", Optional: true},
			{Key: "thermometer", Kind: unit.KindTempDiff, Words: "what a temperature reading is good to, plus or minus", Optional: true},
			{Key: "see", Kind: unit.KindFlow, Words: "leak to be seen", Optional: true},
		},
		Out: []formula.Symbol{
			{Key: "leak_kg_s", Kind: unit.KindMassFlow, Words: "leak"},
			{Key: "leak_free_air_m3_s", Kind: unit.KindFlow, Words: "leak as free air, ISO 1217"},
			{Key: "uncertainty_free_air_m3_s", Kind: unit.KindFlow, Words: "plus or minus, 95 %"},
			{Key: "hold_s", Kind: unit.KindDuration, Words: "time to hold so that the leak to be seen stands out"},
			{Key: "tight_Pa_abs", Kind: unit.KindPressure, Words: "pressure at the end if nothing leaked"},
		},
		Eval: evalDecay,
	}
}

// evalDecay tells the leak if the test was made, and the hold if one is planned.
func evalDecay(v formula.Values) (formula.Values, error) {
	n := v.Num
	d := Decay{
		Volume: unit.Volume(n["volume"]),
		Start:  Reading{unit.AbsPressure(n["p_start"]), unit.Temperature(n["temp_start"])},
		End:    Reading{unit.AbsPressure(n["p_end"]), unit.Temperature(v.Get("temp_end", n["temp_start"]))},
		Time:   unit.Duration(n["time"]),
		Instruments: Instruments{
			Gauge: unit.PressureDiff(n["gauge"]), Thermometer: unit.TempDiff(n["thermometer"]),
		},
	}
	// One instrument without the other is taken at its word: the other is perfect.
	instruments := v.Has("gauge") || v.Has("thermometer")
	made, planned := v.Has("p_end") && v.Has("time"), v.Has("see") && instruments
	if v.Has("see") && !instruments {
		return formula.Values{}, errors.New("see: wanted gauge or thermometer beside it, what the readings are good to")
	}
	if !made && !planned {
		return formula.Values{}, errors.New("p_end and time, or see with gauge or thermometer: wanted one of these pairs")
	}
	out := formula.NewValues()
	if made {
		if err := d.tell(out, instruments); err != nil {
			return formula.Values{}, err
		}
	}
	if planned {
		leak, err := air.Basis{}.Mass(v.Flow["see"])
		if err != nil {
			return formula.Values{}, err
		}
		hold, err := d.Hold(d.Volume, d.Start, leak)
		if err != nil {
			return formula.Values{}, err
		}
		out.Put("hold_s", float64(hold))
	}
	return out, nil
}

// tell puts the leak of a test that was made.
func (d Decay) tell(out formula.Values, instruments bool) error {
	leak, err := d.Leak()
	if err != nil {
		return err
	}
	tight, err := d.Tight()
	if err != nil {
		return err
	}
	out.Put("leak_kg_s", float64(leak))
	out.Put("leak_free_air_m3_s", float64(air.FreeAir(leak)))
	out.Put("tight_Pa_abs", float64(tight))
	if instruments {
		doubt, err := d.Uncertainty()
		if err != nil {
			return err
		}
		out.Put("uncertainty_free_air_m3_s", float64(air.FreeAir(doubt)))
	}
	return nil
}

// EnergyFormula is `energy`: [StoredIn] asked alone.
func EnergyFormula() formula.Formula {
	return formula.Formula{
		Name:  "energy",
		Title: "stored energy of a pneumatic test and the distance to keep",
		Law:   "E = 2.5 p V (1 - (pa/p)^0.286), pa = 101 kPa; TNT = E/4.26692 MJ/kg; distance = greater of 20 (2 TNT)^(1/3) and 30 m (60 m from 135.5 to 271 MJ)",
		Range: "air in the open without a shield; the doubled charge is that of the editions since 2018",
		Cite:  []cite.Ref{{Source: "asme-pcc2", Place: "Appendices 501-II, 501-III", How: cite.Read}},
		In: []formula.Symbol{
			{Key: "volume", Kind: unit.KindVolume, Words: "volume under test"},
			{Key: "p", Kind: unit.KindPressure, Words: "test pressure"},
		},
		Out: []formula.Symbol{
			{Key: "stored_energy_J", Kind: unit.KindEnergy, Words: "stored energy"},
			{Key: "tnt_kg", Kind: unit.KindMass, Words: "as TNT"},
			{Key: "distance_m", Kind: unit.KindLength, Words: "distance to keep"},
			{Key: "blast_distance_m", Kind: unit.KindLength, Words: "of the blast alone"},
			{Key: "least_distance_m", Kind: unit.KindLength, Words: "least of the rule"},
		},
		Eval: func(v formula.Values) (formula.Values, error) {
			s, err := StoredIn(unit.Volume(v.Num["volume"]), unit.AbsPressure(v.Num["p"]))
			if err != nil {
				return formula.Values{}, err
			}
			return formula.Num(map[string]float64{
				"stored_energy_J": float64(s.Energy), "tnt_kg": float64(s.TNT),
				"distance_m": float64(s.Distance()), "blast_distance_m": float64(s.Blast), "least_distance_m": float64(s.Least),
			}), nil
		},
	}
}
