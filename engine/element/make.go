package element

import (
	"fmt"
	"slices"
)

// KeyError says which key a law lacks or does not know.
type KeyError struct {
	Law, Key string
	Missing  bool
}

func (e *KeyError) Error() string {
	if e.Missing {
		return fmt.Sprintf("law %s wants %s", e.Law, e.Key)
	}
	return fmt.Sprintf("law %s does not know %s", e.Law, e.Key)
}

// stranger is the first key, by name, that the law does not know.
func (e Entry) stranger(p Params) string {
	var odd []string
	for k := range p {
		if !slices.Contains(e.Must, k) && !slices.Contains(e.May, k) {
			odd = append(odd, k)
		}
	}
	return slices.Min(odd)
}

// made turns a constructor's pair into a Law without a typed nil.
func made[L Law](l L, err error) (Law, error) {
	if err != nil {
		return nil, err
	}
	return l, nil
}

func makePipe(g Gas, p Params) (Law, error) {
	back, has := p["k_reverse"]
	return made(NewPipe(g, PipeSpec{
		Length: p["length_m"], Bore: p["bore_m"], Roughness: p["roughness_m"], K: p["k"], KReverse: back, HasReverse: has,
	}))
}

func makeMinor(g Gas, p Params) (Law, error) {
	back, has := p["k_reverse"]
	if !has {
		back = p["k"]
	}
	return made(NewMinor(g, p["bore_m"], p["k"], back))
}

func makeISO(oneWay bool) func(Gas, Params) (Law, error) {
	return func(g Gas, p Params) (Law, error) {
		return made(NewISO6358(g, ISO6358Spec{C: p["C_m3_s_Pa"], B: p["b"], Index: p["m"], Cracking: p["cracking_Pa"], OneWay: oneWay}))
	}
}

func makeOrifice(g Gas, p Params) (Law, error) {
	return made(NewOrifice(g, p["bore_m"], p["cd"]))
}

func makeRated(_ Gas, p Params) (Law, error) {
	viscous, has := p["viscous"]
	if !has {
		viscous = 0.5
	}
	return made(NewRated(RatedSpec{Drop: p["drop_Pa"], Flow: p["flow_kg_s"], Pressure: p["pressure_Pa_abs"], Viscous: viscous}))
}

func makeRegulator(g Gas, p Params) (Law, error) {
	return made(NewRegulator(g, RegulatorSpec{
		Set: p["set_Pa_abs"], Droop: p["droop_Pa_s_kg"], C: p["C_m3_s_Pa"], B: p["b"], Index: p["m"],
	}))
}

func makeCheckK(g Gas, p Params) (Law, error) {
	return made(NewCheckK(g, p["bore_m"], p["k"], p["cracking_Pa"]))
}

// makeValve: shut is 0 for an open valve, anything else for a shut one.
func makeValve(g Gas, p Params) (Law, error) {
	return NewValve(g, p["bore_m"], p["k"], p["shut"] == 0)
}

func makeTool(_ Gas, p Params) (Law, error) {
	return made(NewTool(ToolSpec{Flow: p["flow_kg_s"], Pressure: p["pressure_Pa_abs"], Atmosphere: p["atmosphere_Pa_abs"], B: p["b"]}))
}

func makeConstant(_ Gas, p Params) (Law, error) { return made(NewConstant(p["flow_kg_s"])) }

func makeLeak(g Gas, p Params) (Law, error) {
	return made(NewLeak(g, LeakSpec{
		Fraction: p["fraction"], Supply: p["supply_kg_s"], Pressure: p["pressure_Pa_abs"],
		Atmosphere: p["atmosphere_Pa_abs"], Cd: p["cd"],
	}))
}

func makeCompressor(g Gas, p Params) (Law, error) {
	return made(NewCompressor(g, CompressorSpec{FreeAir: p["free_air_m3_s"], Ratio: p["ratio"], Clearance: p["clearance"]}))
}
