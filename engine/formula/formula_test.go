package formula

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"dropleg/engine/cite"
	"dropleg/engine/unit"

	"github.com/google/go-cmp/cmp"
)

// sag is a made-up law that uses every kind of symbol once.
func sag() Formula {
	half := 0.5
	return Formula{
		Name:  "sag",
		Title: "a law for this test",
		Law:   "out = length·share",
		Range: "length > 0",
		Cite:  []cite.Ref{{Source: "nist-sp811", Place: "B.8", How: cite.Read}},
		In: []Symbol{
			{Key: "length", Kind: unit.KindLength, Words: "length"},
			{Key: "p", Kind: unit.KindPressure, Words: "pressure"},
			{Key: "share", Kind: unit.KindRatio, Words: "share", Default: &half},
			{Key: "flow", Kind: unit.KindFlow, Words: "flow", Optional: true},
			{Key: "over", Kind: unit.KindWord, Words: "surface", Choices: []string{"water", "ice"}, Word: "water"},
		},
		Out: []Symbol{
			{Key: "drop_mm", Kind: unit.KindLength, Words: "drop"},
			{Key: "outlet_pressure_Pa_abs", Kind: unit.KindPressure, Words: "outlet pressure"},
			{Key: "specific_kWh_m3", Kind: unit.KindSpecificEnergy, Words: "work"},
			{Key: "choked", Kind: unit.KindYesNo, Words: "choked"},
			{Key: "over", Kind: unit.KindWord, Words: "surface"},
			{Key: "late_s", Kind: unit.KindDuration, Words: "never given"},
		},
		Eval: func(v Values) (Values, error) {
			if v.Num["length"] < 0 {
				return Values{}, errors.New("length is below zero")
			}
			out := NewValues()
			out.Put("drop_mm", v.Num["length"]*v.Num["share"])
			out.Put("outlet_pressure_Pa_abs", v.Num["p"])
			out.Put("specific_kWh_m3", 3.6e6/v.Get("length", 1))
			out.PutYes("choked", v.Has("flow"))
			out.PutWord("over", v.GetWord("over", ""))
			return out, nil
		},
	}
}

func TestReadAndRun(t *testing.T) {
	v, problems := sag().Read([]string{"length=2 m", "p=6 bar", "flow=30 Nm3/h", "over=ICE"}, unit.Env{})
	if problems != nil {
		t.Fatal(problems)
	}
	if v.Flow["flow"].Reference != unit.RefNormal || v.Num["p"] != 701325 || v.Has("share") {
		t.Errorf("read %+v", v)
	}
	out, err := sag().Run(v)
	if err != nil {
		t.Fatal(err)
	}
	if v.Has("share") {
		t.Error("Run filled a default into the caller's values")
	}
	text, err := sag().JSON(out)
	if err != nil {
		t.Fatal(err)
	}
	want := `{"drop_mm": 1000,
 "outlet_pressure_Pa_abs": 701325,
 "specific_kWh_m3": 0.5,
 "choked": true,
 "over": "ice"}
`
	if string(text) != want || !json.Valid(text) {
		t.Errorf("JSON is\n%s\nwant\n%s", text, want)
	}
	told := sag().Text(out, unit.Metric, unit.Env{})
	want = `drop             1.00 m
outlet pressure  6.0 bar
work             0.5 kWh/m³
choked           yes
surface          ice

law     out = length·share
holds   length > 0
source  SP 811, guide for the use of the SI, B.8
`
	if told != want {
		t.Errorf("Text is\n%s\nwant\n%s", told, want)
	}
}

func TestReadTellsEveryProblem(t *testing.T) {
	_, problems := sag().Read([]string{"lenght=2 m", "p=6 bra", "share", "flow=1 cfn", "over=wather", "p=1 bar", "share=1", "share=2"}, unit.Env{})
	type brief struct{ Path, Read, Nearest string }
	var got []brief
	for _, p := range problems {
		if p.Want == "" {
			t.Errorf("%+v says not what is wanted", p)
		}
		got = append(got, brief{p.Path, p.Read, p.Nearest})
	}
	want := []brief{
		{"lenght", "lenght=2 m", "length"},
		{"p", "6 bra", "bar"},
		{"share", "share", "share"},
		{"flow", "1 cfn", "cfm"},
		{"over", "wather", "water"},
		{"p", "p=1 bar", ""},
		{"share", "share=2", ""},
		{"length", "", ""},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestRunRefuses(t *testing.T) {
	good := Num(map[string]float64{"length": 1, "p": 2e5})
	for _, c := range []struct {
		name string
		in   Values
		eval func(Values) (Values, error)
		want string
	}{
		{"missing", Num(map[string]float64{"length": 1}), sag().Eval, "sag: p (pressure) is missing"},
		{"at fault", Num(map[string]float64{"length": -1, "p": 1}), sag().Eval, "sag: length is below zero"},
		{"infinite", Num(map[string]float64{"length": 0, "p": 1}), sag().Eval, "sag: no finite specific_kWh_m3"},
		{"not a number", good, func(Values) (Values, error) {
			return Num(map[string]float64{"drop_mm": math.NaN()}), nil
		}, "sag: no finite drop_mm"},
		{"undeclared", good, func(Values) (Values, error) {
			return Num(map[string]float64{"b": 1, "a": 1}), nil
		}, "sag: gives a, which it does not declare"},
	} {
		f := sag()
		f.Eval = c.eval
		if _, err := f.Run(c.in); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: %v, want %s", c.name, err, c.want)
		}
	}
}

func TestHelp(t *testing.T) {
	help := strings.Join(strings.Fields(sag().Help(unit.US, unit.Env{})), " ")
	for _, want := range []string{"length length, such as 12 ft 6 in", "share share; 50 % unless given", "flow flow; may be left out", "over surface: water, ice; water unless given", "drop_mm"} {
		if !strings.Contains(help, want) {
			t.Errorf("help lacks %q:\n%s", want, help)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range []string{"length=2 m", "p=90 psig", "flow=18 cfm", "over=ice", "=", "length==", "share=50%"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, arg string) {
		v, problems := sag().Read([]string{arg}, unit.Env{})
		for _, p := range problems {
			if p.Want == "" {
				t.Fatalf("%q: %+v says not what is wanted", arg, p)
			}
		}
		for key, x := range v.Num {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%q: %s = %v", arg, key, x)
			}
		}
	})
}
