package element

// Params are the figures of a law by key, in SI, the units in the keys.
type Params map[string]float64

// Entry is a law that can be looked up and made by name, as data files name it.
type Entry struct {
	Name string
	Must []string // keys that New needs
	May  []string // keys that it takes besides, each with a default
	New  func(Gas, Params) (Law, error)
	// ZeroAtEqual tells that nothing flows between equal pressures.
	ZeroAtEqual bool
}

// Laws lists every law.
func Laws() []Entry {
	return []Entry{
		{"pipe", []string{"length_m", "bore_m", "roughness_m"}, []string{"k", "k_reverse"}, makePipe, true},
		{"minor", []string{"bore_m", "k"}, []string{"k_reverse"}, makeMinor, true},
		{"iso6358", []string{"C_m3_s_Pa", "b"}, []string{"m", "cracking_Pa"}, makeISO(false), true},
		{"orifice", []string{"bore_m", "cd"}, nil, makeOrifice, true},
		{"rated", []string{"drop_Pa", "flow_kg_s", "pressure_Pa_abs"}, []string{"viscous"}, makeRated, true},
		{"regulator", []string{"set_Pa_abs", "C_m3_s_Pa", "b"}, []string{"m", "droop_Pa_s_kg"}, makeRegulator, true},
		{"check", []string{"C_m3_s_Pa", "b"}, []string{"m", "cracking_Pa"}, makeISO(true), true},
		{"check-k", []string{"bore_m", "k"}, []string{"cracking_Pa"}, makeCheckK, true},
		{"valve", []string{"bore_m", "k"}, []string{"shut"}, makeValve, true},
		{"tool", []string{"flow_kg_s", "pressure_Pa_abs", "atmosphere_Pa_abs"}, []string{"b"}, makeTool, true},
		{"constant", []string{"flow_kg_s"}, nil, makeConstant, false},
		{"leak", []string{"fraction", "supply_kg_s", "pressure_Pa_abs", "atmosphere_Pa_abs", "cd"}, nil, makeLeak, true},
		{"compressor", []string{"free_air_m3_s", "ratio"}, []string{"clearance"}, makeCompressor, false},
	}
}

// Named finds a law by its name.
func Named(name string) (Entry, bool) {
	for _, e := range Laws() {
		if e.Name == name {
			return e, true
		}
	}
	return Entry{}, false
}

// Make checks that the keys are those of the law and makes it.
func (e Entry) Make(g Gas, p Params) (Law, error) {
	known := 0
	for _, k := range e.Must {
		if _, ok := p[k]; !ok {
			return nil, &KeyError{Law: e.Name, Key: k, Missing: true}
		}
		known++
	}
	for _, k := range e.May {
		if _, ok := p[k]; ok {
			known++
		}
	}
	if known == len(p) {
		return e.New(g, p)
	}
	return nil, &KeyError{Law: e.Name, Key: e.stranger(p)}
}
