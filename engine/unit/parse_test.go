package unit

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"
)

// parseRow is a form that people type. The figures of the rows follow from the
// exact definitions of nist-sp811 by the arithmetic written in the row.
type parseRow struct {
	text string
	kind Kind
	want float64
}

func checkParse(t *testing.T, rows []parseRow) {
	t.Helper()
	for _, c := range rows {
		got, err := Parse(c.text, c.kind, Env{})
		if err != nil || math.Abs(got-c.want) > 1e-12*math.Abs(c.want) {
			t.Errorf("Parse(%q, %s) = %v, %v; want %v", c.text, c.kind.Words(), got, err, c.want)
		}
	}
}

func TestParseLength(t *testing.T) {
	checkParse(t, []parseRow{
		{"3/4in", KindLength, 0.01905},
		{"3/4 in", KindLength, 0.01905},
		{`1-1/2"`, KindLength, 0.0381},
		{"1 1/2 in", KindLength, 0.0381},
		{"1½ in", KindLength, 0.0381},
		{"1/64in", KindLength, 0.0254 / 64},
		{"12 ft 6 in", KindLength, 150 * 0.0254},
		{`12'6"`, KindLength, 150 * 0.0254},
		{"12’6”", KindLength, 150 * 0.0254},
		{"12 ft 6", KindLength, 150 * 0.0254},
		{`12' 6-1/2"`, KindLength, 150.5 * 0.0254},
		{`12'-6"`, KindLength, 150 * 0.0254},
		{"6 ft 3/4 in", KindLength, 72.75 * 0.0254},
		{"-1 ft 6 in", KindLength, -18 * 0.0254},
		{"12,5 m", KindLength, 12.5},
		{"0,125 m", KindLength, 0.125},
		{"1,000 mm", KindLength, 1},
		{"1.234,5 mm", KindLength, 1.2345},
		{"1,234.5 mm", KindLength, 1.2345},
		{"12 000 mm", KindLength, 12},
		{"1e-8", KindLength, 1e-8},
		{"5. m", KindLength, 5},
		{".5 m", KindLength, 0.5},
		{"45 um", KindLength, 45e-6},
		{"45 µm", KindLength, 45e-6},
		{"10 ft.", KindLength, 3.048},
	})
}

func TestParsePressure(t *testing.T) {
	const atm = 101325
	checkParse(t, []parseRow{
		{"90 psig", KindPressure, 90*psi + atm},
		{"90 psi", KindPressure, 90*psi + atm},
		{"90 PSI", KindPressure, 90*psi + atm},
		{"100psia", KindPressure, 100 * psi},
		{"6.2 bar", KindPressure, 620e3 + atm},
		{"6.2 bara", KindPressure, 620e3},
		{"6.2 bar(a)", KindPressure, 620e3},
		{"6.2 bar abs", KindPressure, 620e3},
		{"6.2 barg", KindGauge, 620e3},
		{"700 kPa", KindPressure, 700e3 + atm},
		{"700 kPaa", KindPressure, 700e3},
		{"0.7 MPa", KindPressure, 700e3 + atm},
		{"0.7 mpaa", KindPressure, 700e3},
		{"500000 Pa", KindPressure, 500000},
		{"500000", KindPressure, 500000},
		{"1000 Pa g", KindPressure, 1000 + atm},
		{"500000", KindGauge, 500000 - atm},
		{"100 psia", KindGauge, 100*psi - atm},
		{"1013.25 mbar", KindPressure, atm},
		{"29.92 inHg", KindBarometer, 29.92 * 3386.389},
		{"95 kPa", KindBarometer, 95e3},
		{"6.3 bar (91 psi)", KindGauge, 630e3},
		{"3 psi", KindPressureDiff, 3 * psi},
		{"0.5 psig", KindPressureDiff, 0.5 * psi},
		{"0.2 bar", KindPressureDiff, 20e3},
		{"41 MPa", KindStress, 41e6},
		{"6 ksi", KindStress, 6000 * psi},
	})
}

func TestParseOthers(t *testing.T) {
	checkParse(t, []parseRow{
		{"2 m^2", KindArea, 2},
		{"50 mm²", KindArea, 50e-6},
		{"20C", KindTemperature, 293.15},
		{"20 °C", KindTemperature, 293.15},
		{"-40 F", KindTemperature, 233.15},
		{"68 F", KindTemperature, 293.15},
		{"68 deg F", KindTemperature, 293.15},
		{"293.15", KindTemperature, 293.15},
		{"10 F", KindTempDiff, 10 / 1.8},
		{"10 °C", KindTempDiff, 10},
		{"10 min", KindDuration, 600},
		{"1h30", KindDuration, 5400},
		{"1 h 30 min", KindDuration, 5400},
		{"1 h 30 min 20 s", KindDuration, 5420},
		{"1 d 12 h", KindDuration, 129600},
		{"5.5 kW", KindPower, 5500},
		{"7.5 hp", KindPower, 7.5 * 550 * 0.3048 * 0.45359237 * 9.80665},
		{"50 %", KindRatio, 0.5},
		{"0.5", KindRatio, 0.5},
		{"65 %RH", KindRatio, 0.65},
		{"10 min/h", KindRatio, 1.0 / 6},
		{"15 minutes an hour", KindRatio, 0.25},
		{"20 s a minute", KindRatio, 1.0 / 3},
		{"1.2 dm3/(s.bar)", KindConductance, 1.2e-8},
		{"1.2 L/(s·bar)", KindConductance, 1.2e-8},
		{"1.2 L/s/bar", KindConductance, 1.2e-8},
		{"60 gal", KindVolume, 60 * 231 * 0.0254 * 0.0254 * 0.0254},
		{"200 litres", KindVolume, 0.2},
		{"8 cu ft", KindVolume, 8 * 0.3048 * 0.3048 * 0.3048},
		{"2 lb 4 oz", KindMass, 2.25 * 0.45359237},
		{"1.5 kWh", KindElectricity, 5.4e6},
		{"100 ft-lb", KindEnergy, 100 * 0.3048 * 0.45359237 * 9.80665},
		{"1 MJ", KindEnergy, 1e6},
		{"12 per hour", KindFrequency, 12.0 / 3600},
		{"12/h", KindFrequency, 12.0 / 3600},
		{"1.69e-5 1/K", KindExpansion, 1.69e-5},
		{"9.4 µin/(in·°F)", KindExpansion, 9.4e-6 * 1.8},
		{"18 kW/100 cfm", KindSpecificEnergy, 18e3 / (100 * 0.3048 * 0.3048 * 0.3048 / 60)},
		{"18 cfm", KindFlow, 18 * 0.3048 * 0.3048 * 0.3048 / 60},
		{"500 L/min iso1217", KindFlow, 0.5 / 60},
		{"18 acfm", KindVolumeFlow, 18 * 0.3048 * 0.3048 * 0.3048 / 60},
		{"0.01 kg/s", KindMassFlow, 0.01},
		{"3", KindInteger, 3},
		{"1/4", KindNumber, 0.25},
		{"yes", KindYesNo, 1},
		{"no", KindYesNo, 0},
	})
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		text    string
		kind    Kind
		nearest string
	}{
		{"", KindLength, ""},
		{"in", KindLength, ""},
		{"5 m m", KindLength, "mm"},
		{"5 m 3", KindLength, ""},
		{"5 mm garbage", KindLength, ""},
		{"5 inc", KindLength, "in"},
		{"12 ft 14 in", KindLength, ""},
		{"12 ft 6 ft", KindLength, ""},
		{"6 in 2 ft", KindLength, ""},
		{"1h90", KindDuration, ""},
		{"1/0 in", KindLength, ""},
		{"1 3/2 in", KindLength, ""},
		{"--5 m", KindLength, ""},
		{"1,23,4 m", KindLength, ""},
		{"1.2.3 m", KindLength, ""},
		{"1e999 m", KindLength, ""},
		{"NaN", KindLength, ""},
		{"Inf m", KindLength, ""},
		{"0x10 m", KindLength, ""},
		{"1_000 m", KindLength, ""},
		{"9 m (29 ft)", KindLength, ""},
		{"90 pssi", KindPressure, "psi"},
		{"90 psi psi", KindPressure, ""},
		{"90 ft", KindPressure, ""},
		{"-20 psig", KindPressure, ""},
		{"6.3 bar (50 psi)", KindGauge, ""},
		{"-500 F", KindTemperature, ""},
		{"-1 K", KindTemperature, ""},
		{"2.5", KindInteger, ""},
		{"3 m", KindInteger, ""},
		{"3 m", KindNumber, ""},
		{"18 scfm60", KindFlow, ""},
		{"0.01", KindFlow, ""},
		{"steel", KindWord, ""},
		{"yess", KindYesNo, "yes"},
		{"5 m)", KindLength, "m"},
	} {
		got, err := Parse(c.text, c.kind, Env{})
		var parse *ParseError
		if !errors.As(err, &parse) {
			t.Errorf("Parse(%q, %s) = %v, %v; want a ParseError", c.text, c.kind.Words(), got, err)
			continue
		}
		if parse.Read != c.text || parse.Want == "" || (c.nearest != "" && parse.Nearest != c.nearest) {
			t.Errorf("Parse(%q, %s): %+v; want nearest %q", c.text, c.kind.Words(), parse, c.nearest)
		}
	}
}

func TestAtmosphere(t *testing.T) {
	high := Env{Atmosphere: 84000}
	for _, c := range []struct {
		text string
		kind Kind
		want float64
	}{
		{"6 bar", KindPressure, 684000},
		{"6 bara", KindPressure, 600000},
		{"6 bara", KindGauge, 516000},
		{"6 bar", KindGauge, 600000},
		{"1 bar", KindPressureDiff, 100000},
	} {
		if got, err := Parse(c.text, c.kind, high); err != nil || math.Abs(got-c.want) > 1e-6 {
			t.Errorf("Parse(%q, %s) at 84 kPa = %v, %v; want %v", c.text, c.kind.Words(), got, err, c.want)
		}
	}
}

func TestParseFlow(t *testing.T) {
	const cfm = 0.3048 * 0.3048 * 0.3048 / 60
	for _, c := range []struct {
		text string
		want FlowReading
	}{
		{"18 cfm", FlowReading{Value: 18 * cfm}},
		{"18 cfm free air", FlowReading{Value: 18 * cfm}},
		{"18 CFM (free air)", FlowReading{Value: 18 * cfm}},
		{"510 L/min", FlowReading{Value: 0.51 / 60}},
		{"510 l/min ANR", FlowReading{Value: 0.51 / 60, Reference: RefISO8778}},
		{"510 L/min (ANR)", FlowReading{Value: 0.51 / 60, Reference: RefISO8778}},
		{"30 m3/h iso1217", FlowReading{Value: 30.0 / 3600, Reference: RefISO1217}},
		{"30 m3/h ISO 1217", FlowReading{Value: 30.0 / 3600, Reference: RefISO1217}},
		{"30 Nm3/h", FlowReading{Value: 30.0 / 3600, Reference: RefNormal}},
		{"30 Nm³/h", FlowReading{Value: 30.0 / 3600, Reference: RefNormal}},
		{"30 NL/min", FlowReading{Value: 0.03 / 60, Reference: RefNormal}},
		{"20scfm60", FlowReading{Value: 20 * cfm, Reference: RefSCFM60}},
		{"20 scfm68d", FlowReading{Value: 20 * cfm, Reference: RefSCFM68D}},
		{"20 scfm68h", FlowReading{Value: 20 * cfm, Reference: RefSCFM68H}},
		{"20 scfm70", FlowReading{Value: 20 * cfm, Reference: RefSCFM70}},
		{"20 scfm", FlowReading{Value: 20 * cfm, Reference: RefSCFM68H, Note: noteSCFM}},
		{"20 L/s site", FlowReading{Value: 0.02, Reference: RefSite}},
		{"20 acfm", FlowReading{Value: 20 * cfm, Reference: RefSite}},
		{"0.01 kg/s", FlowReading{Value: 0.01, Mass: true}},
		{"0.01", FlowReading{Value: 0.01, Mass: true}},
		{"1.2 m3/min", FlowReading{Value: 0.02}},
	} {
		got, err := ParseFlow(c.text)
		if err != nil || math.Abs(got.Value-c.want.Value) > 1e-12*c.want.Value {
			t.Errorf("ParseFlow(%q) = %+v, %v; want %+v", c.text, got, err, c.want)
			continue
		}
		got.Value = c.want.Value
		if got != c.want {
			t.Errorf("ParseFlow(%q) = %+v; want %+v", c.text, got, c.want)
		}
	}
	for _, text := range []string{"", "cfm", "18 cfm cfm", "18 Nm3/h ANR", "0.1 kg/s normal", "18 scfm65", "18 psi", "1e400 cfm"} {
		var parse *ParseError
		if got, err := ParseFlow(text); !errors.As(err, &parse) {
			t.Errorf("ParseFlow(%q) = %+v, %v; want a ParseError", text, got, err)
		}
	}
}

// TestEverySpelling: each unit of the table parses by each of its spellings,
// glued to the number, apart from it and in capitals, and no spelling is in
// use twice within a kind.
func TestEverySpelling(t *testing.T) {
	for _, k := range Kinds() {
		seen := map[string]string{}
		for _, u := range k.row().units {
			for _, word := range append(strings.Fields(u.also), u.name) {
				if other, twice := seen[fold(word)]; twice && other != u.name {
					t.Errorf("%s: %q means both %s and %s", k.Words(), word, other, u.name)
				}
				seen[fold(word)] = u.name
				typed := strings.ReplaceAll(word, "sq.", "sq ")
				texts := []string{"250 " + typed, "250 " + strings.ToUpper(typed)}
				if !isDigit(typed[0]) { // 250 glued to 1/h would be 2501/h
					texts = append(texts, "250"+typed)
				}
				for _, text := range texts {
					want := u.si(250, k, Env{})
					if got, err := Parse(text, k, Env{}); err != nil || got != want {
						t.Errorf("Parse(%q, %s) = %v, %v; want %v", text, k.Words(), got, err, want)
					}
				}
			}
		}
	}
}

// TestExactConversions: the rows "unit conversion …" of the reference table,
// which are computed from nist-sp811 to seven to ten figures.
func TestExactConversions(t *testing.T) {
	f, err := os.Open("../../testdata/ref/air/reference_flow.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	kinds := []Kind{KindVolumeFlow, KindPressureDiff, KindVolume, KindPower, KindEnergy}
	count := 0
	for _, row := range rows {
		from, found := strings.CutPrefix(row[1], "unit conversion ")
		if !found {
			continue
		}
		count++
		from = strings.TrimSuffix(strings.TrimSuffix(from, " (550 ft.lbf/s)"), " (32 F)")
		want, err := strconv.ParseFloat(row[3], 64)
		if err != nil {
			t.Fatalf("%s: %v", row[0], err)
		}
		done := false
		for _, k := range kinds {
			a, errA := Parse(from, k, Env{})
			b, errB := Parse("1 "+row[4], k, Env{})
			if errA != nil || errB != nil {
				continue
			}
			done = true
			if got := a / b; math.Abs(got-want) > 1e-6*want {
				t.Errorf("%s: %s = %v %s, want %v", row[0], from, got, row[4], want)
			}
		}
		if !done {
			t.Errorf("%s: no kind reads both %q and %q", row[0], from, row[4])
		}
	}
	if count != 13 {
		t.Errorf("%d conversion rows, want REFE-0164 to REFE-0176", count)
	}
}

func TestKindOf(t *testing.T) {
	for _, c := range []struct {
		value any
		want  Kind
		ok    bool
	}{
		{Length(0), KindLength, true},
		{FreeAir(0), KindFlow, true},
		{AbsPressure(0), KindPressure, true},
		{GaugePressure(0), KindGauge, true},
		{Ratio(0), KindRatio, true},
		{1.0, 0, false},
		{"", 0, false},
	} {
		if k, ok := KindOf(reflect.TypeOf(c.value)); k != c.want || ok != c.ok {
			t.Errorf("KindOf(%T) = %v, %v; want %v, %v", c.value, k, ok, c.want, c.ok)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, text := range []string{"3/4in", `12'6"`, "1h30", "6.3 bar (91 psi)", "1 1/2 in", "12 000,5 m", "-40 °F", "1e-8", "½", "1,000", "()", "5(", "1/", "1-1/2-"} {
		f.Add(text, uint8(KindLength))
		f.Add(text, uint8(KindPressure))
		f.Add(text, uint8(KindDuration))
	}
	f.Fuzz(func(t *testing.T, text string, kind uint8) {
		k := Kind(int(kind) % int(kindEnd))
		x, err := Parse(text, k, Env{})
		var parse *ParseError
		if err != nil && (!errors.As(err, &parse) || parse.Read != text || parse.Want == "") {
			t.Fatalf("Parse(%q, %s): %v is no full ParseError", text, k.Words(), err)
		}
		if math.IsNaN(x) || math.IsInf(x, 0) || (err != nil && x != 0) {
			t.Fatalf("Parse(%q, %s) = %v, %v", text, k.Words(), x, err)
		}
	})
}

func FuzzParseFlow(f *testing.F) {
	for _, text := range []string{"18 cfm", "18 cfm free air", "30 Nm3/h", "L/min ANR", "0.01", "1 scfm60 scfm60"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		r, err := ParseFlow(text)
		var parse *ParseError
		if err != nil && (!errors.As(err, &parse) || r != (FlowReading{})) {
			t.Fatalf("ParseFlow(%q) = %+v, %v", text, r, err)
		}
		if math.IsNaN(r.Value) || math.IsInf(r.Value, 0) {
			t.Fatalf("ParseFlow(%q) = %+v", text, r)
		}
	})
}

// Who works in metres is told of metres, and in each system the example is one that is read, to its two figures.
func TestWantedInASystem(t *testing.T) {
	_, err := Parse("long", KindLength, Env{})
	var bad *ParseError
	if !errors.As(err, &bad) {
		t.Fatal(err)
	}
	for system, want := range map[System]string{Metric: "such as 3.81 m", Mixed: "such as 3.81 m", US: "such as 12 ft 6 in"} {
		if got := bad.In(system).Want; !strings.Contains(got, want) || !strings.Contains(got, "units: m, ") {
			t.Errorf("%s: %q, want %q in it", system, got, want)
		}
	}
	for _, k := range Kinds() {
		for _, s := range Systems() {
			x, err := Parse(k.Example(), k, Env{})
			y, again := Parse(k.ExampleIn(s), k, Env{})
			if (err == nil) != (again == nil) || math.Abs(x-y) > 0.02*math.Abs(x) {
				t.Errorf("%s in %s: %q is read as %g, %v; want %g", k.Words(), s, k.ExampleIn(s), y, again, x)
			}
		}
	}
}
