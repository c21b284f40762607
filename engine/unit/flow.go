package unit

import (
	"math"
	"strings"
	"sync"
)

// Reference names the conditions at which a volume flow of free air counts.
// Their states and densities belong to package air.
type Reference string

// The references that people mean.
const (
	RefJob     Reference = ""        // the job's own: plain cfm, L/min, m3/h, "free air"
	RefISO1217 Reference = "iso1217" // dry, 100 kPa, 20 °C
	RefISO8778 Reference = "iso8778" // 65 % RH, 100 kPa, 20 °C; ANR
	RefNormal  Reference = "normal"  // dry, 101.325 kPa, 0 °C; Nm3/h, NL/min
	RefSCFM60  Reference = "scfm60"  // dry, 14.696 psia, 60 °F
	RefSCFM68D Reference = "scfm68d" // dry, 14.5 psia, 68 °F
	RefSCFM68H Reference = "scfm68h" // 36 % RH, 14.7 psia, 68 °F
	RefSCFM70  Reference = "scfm70"  // dry, 14.7 psia, 70 °F
	RefSite    Reference = "site"    // the air as it stands at the intake
)

// References lists all but RefJob, in a fixed order.
func References() []Reference {
	return []Reference{RefISO1217, RefISO8778, RefNormal, RefSCFM60, RefSCFM68D, RefSCFM68H, RefSCFM70, RefSite}
}

// FlowReading is a flow as it was stated.
type FlowReading struct {
	Value     float64   // m³/s at Reference, or kg/s where Mass
	Reference Reference // meaningless where Mass
	Mass      bool
	Note      string // what was taken for granted in reading; "" for nothing
}

// noteSCFM goes with a bare scfm.
const noteSCFM = "scfm has no single meaning; read as 14.7 psia, 68 °F, 36 % RH (write scfm60, scfm68d, scfm68h or scfm70 to choose)"

// flowRow is a flow unit with a reference of its own.
type flowRow struct {
	name  string
	also  string
	scale float64
	ref   Reference
	note  string
}

// markedFlowUnits carry their reference in the name; never written to.
var markedFlowUnits = []flowRow{
	{"scfm60", "scfm.60", cubicFoot / 60, RefSCFM60, ""},
	{"scfm68d", "scfm68.dry scfm68dry", cubicFoot / 60, RefSCFM68D, ""},
	{"scfm68h", "", cubicFoot / 60, RefSCFM68H, ""},
	{"scfm70", "scfm.70", cubicFoot / 60, RefSCFM70, ""},
	{"scfm", "", cubicFoot / 60, RefSCFM68H, noteSCFM},
	{"acfm", "icfm", cubicFoot / 60, RefSite, ""},
	{"Nm3/s", "", 1, RefNormal, ""},
	{"Nm3/min", "", 1.0 / 60, RefNormal, ""},
	{"Nm3/h", "Nm3/hr", 1.0 / 3600, RefNormal, ""},
	{"NL/s", "Ndm3/s", 1e-3, RefNormal, ""},
	{"NL/min", "Ndm3/min NLPM", 1e-3 / 60, RefNormal, ""},
}

// flowMarks are the words that may follow a plain unit to name its reference.
var flowMarks = []struct {
	mark string
	ref  Reference
}{
	{"free.air", RefJob},
	{"fad", RefJob},
	{"anr", RefISO8778},
	{"iso.8778", RefISO8778},
	{"iso.1217", RefISO1217},
	{"iso8778", RefISO8778},
	{"iso1217", RefISO1217},
	{"normal", RefNormal},
	{"scfm60", RefSCFM60},
	{"scfm68d", RefSCFM68D},
	{"scfm68h", RefSCFM68H},
	{"scfm70", RefSCFM70},
	{"site", RefSite},
	{"actual", RefSite},
	{"intake", RefSite},
}

// flowUnits indexes every unit of flow, volume and mass, once.
var flowUnits = sync.OnceValue(func() map[string]FlowReading {
	index := map[string]FlowReading{}
	put := func(name, also string, f FlowReading) {
		for _, word := range append(strings.Fields(also), name) {
			index[fold(word)] = f
		}
	}
	for _, u := range volumeFlowUnits {
		put(u.name, u.also, FlowReading{Value: u.scale})
	}
	for _, u := range KindMassFlow.row().units {
		put(u.name, u.also, FlowReading{Value: u.scale, Mass: true})
	}
	for _, u := range markedFlowUnits {
		put(u.name, u.also, FlowReading{Value: u.scale, Reference: u.ref, Note: u.note})
	}
	return index
})

// ParseFlow reads a flow with its reference: "18 cfm", "18 cfm free air",
// "20 scfm60", "30 Nm3/h", "500 L/min ANR", "40 m3/h iso1217", "12 L/s site",
// "0.01 kg/s". A plain volume unit counts at the job's reference, a number
// without a unit is kg/s. Bare scfm has no single meaning: it is read as the
// US trade's older custom of 14.7 psia, 68 °F and 36 % RH, and Note says so.
// What cannot be read is a *ParseError.
func ParseFlow(text string) (FlowReading, error) {
	s := clean(text)
	negative := strings.HasPrefix(s, "-")
	if negative || strings.HasPrefix(s, "+") {
		s = strings.TrimSpace(s[1:])
	}
	x, rest, ok := number(s)
	if !ok {
		return FlowReading{}, failFlow(text, "")
	}
	f := FlowReading{Value: 1, Mass: true}
	if strings.TrimSpace(rest) != "" {
		if f, ok = flowUnit(fold(rest)); !ok {
			return FlowReading{}, failFlow(text, Nearest(strings.TrimSpace(rest), flowNames()))
		}
	}
	f.Value = signed(x*f.Value, negative)
	if math.IsInf(f.Value, 0) {
		return FlowReading{}, failFlow(text, "")
	}
	return f, nil
}

// flowUnit finds a folded unit, with or without a mark behind it. A unit that
// has a reference of its own, or is a mass, takes no mark.
func flowUnit(word string) (FlowReading, bool) {
	if f, ok := flowUnits()[word]; ok {
		return f, true
	}
	for _, m := range flowMarks {
		plainUnit, marked := strings.CutSuffix(word, "."+m.mark)
		if !marked {
			continue
		}
		f, ok := flowUnits()[plainUnit]
		if !ok || f.Mass || f.Reference != RefJob {
			return FlowReading{}, false
		}
		f.Reference = m.ref
		return f, true
	}
	return FlowReading{}, false
}

// flowNames lists the first spelling of every flow unit.
func flowNames() []string {
	names := KindFlow.Units()
	for _, u := range markedFlowUnits {
		names = append(names, u.name)
	}
	return append(names, KindMassFlow.Units()...)
}

func failFlow(text, nearest string) *ParseError {
	return &ParseError{
		Read: text,
		Want: "a flow, such as 18 cfm, 500 L/min ANR, 30 Nm3/h or 0.01 kg/s; units: " + strings.Join(flowNames(), ", ") +
			"; a volume may be marked iso1217, iso8778 (ANR), normal, scfm60, scfm68d, scfm68h, scfm70 or site; without a unit: kg/s",
		Nearest: nearest,
	}
}
