package document

import (
	"math"
	"reflect"
	"strings"
	"sync"
	"testing"

	"dropleg/engine/unit"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

type shed struct {
	Mark  int                 `json:"shed"`
	Title string              `json:"title"`
	Set   *unit.GaugePressure `json:"set_kPa_g,omitempty"`
	Cold  *unit.Temperature   `json:"cold_C,omitempty"`
	Lines []line              `json:"lines"`
	Words map[string]string   `json:"words,omitempty"`
	Free  any                 `json:"free,omitempty"`
	Open  bool                `json:"open,omitempty"`
}

type line struct {
	ID    string        `json:"id"`
	Size  string        `json:"size,omitempty" enum:"1/2,3/4"`
	At    *[3]float64   `json:"at_m,omitempty"`
	Cuts  []unit.Length `json:"cuts_mm,omitempty"`
	Share unit.Ratio    `json:"share,omitempty"`
	more
}

type more struct {
	Count int     `json:"count,omitempty"`
	Price float64 `json:"price,omitempty"`
}

// The expected problems follow from RFC 8259 and the types above.
func TestDecodeProblems(t *testing.T) {
	const head = `{"shed": 1, "title": "t", "lines": [`
	rows := []struct {
		name, text string
		want       []Problem
	}{
		{"good", head + `{"id": "line.a", "cuts_mm": [12.7]}]}`, nil},
		{"unknown key", head + `{"id": "line.a", "sise": "1/2"}]}`, []Problem{{Path: "lines[0] (line.a).sise", Line: 1, Read: `the key "sise"`, Want: "one of the keys id, size, at_m, cuts_mm, share, count, price", Nearest: "size"}}},
		{"case", head + `], "Open": true}`, []Problem{{Path: "Open", Line: 1, Read: `the key "Open"`, Want: "one of the keys shed, title, set_kPa_g, cold_C, lines, words, free, open", Nearest: "open"}}},
		{"id behind", head + "{\"size\": \"1\",\n\"id\": \"line.b\"}]}", []Problem{{Path: "lines[0] (line.b).size", Line: 1, Read: `"1"`, Want: "one of 1/2, 3/4", Nearest: ""}}},
		{"twice", head + `], "title": "u"}`, []Problem{{Path: "title", Line: 1, Read: `the key "title" a second time`, Want: "each key once"}}},
		{"missing", `{"shed": 1, "lines": []}`, []Problem{{Path: "title", Line: 1, Read: "nothing", Want: "text in double quotes"}}},
		{"NaN", head + "],\n\"set_kPa_g\": NaN}", []Problem{{Path: "set_kPa_g", Line: 2, Read: "NaN", Want: "a number: gauge pressure in kPa; a figure that is unknown is left out"}}},
		{"null", head + `{"id": null}]}`, []Problem{{Path: "lines[0].id", Line: 1, Read: "null", Want: "text in double quotes; leave the key out where it is unknown"}}},
		{"null of a pointer", head + `], "set_kPa_g": null}`, nil},
		{"two at once", head + `{"id": 3, "count": 1.5}]}`, []Problem{
			{Path: "lines[0].id", Line: 1, Read: "the number 3", Want: "text in double quotes"},
			{Path: "lines[0].count", Line: 1, Read: "1.5", Want: "a whole number"},
		}},
		{"number in quotes", head + `{"id": "l", "price": "12.5"}]}`, []Problem{{Path: "lines[0] (l).price", Line: 1, Read: `the text "12.5"`, Want: "a number", Nearest: "12.5"}}},
		{"quantity in quotes", head + `{"id": "l", "cuts_mm": ["1/2 in"]}]}`, []Problem{{Path: "lines[0] (l).cuts_mm[0]", Line: 1, Read: `the text "1/2 in"`, Want: "a number: length in mm", Nearest: "12.7"}}},
		{"array of three", head + `{"id": "l", "at_m": [1, 2]}]}`, []Problem{{Path: "lines[0] (l).at_m", Line: 1, Read: "a list of 2", Want: "a list of 3 in [ ]"}}},
		{"too large", head + `{"id": "l", "price": 1e999}]}`, []Problem{{Path: "lines[0] (l).price", Line: 1, Read: "1e999", Want: "a number between -1.7e308 and 1.7e308"}}},
		{"comma behind", head + `{"id": "l"},]}`, []Problem{{Path: "lines", Line: 1, Read: "a comma behind the last entry", Want: "no comma before ]"}}},
		{"trailing", head + `]} {}`, []Problem{{Line: 1, Read: "{}", Want: "nothing behind the document's end"}}},
		{"cut off", head + "\n" + `{"id": "line.a", "size": "1/2"`, []Problem{{Path: "lines[0] (line.a)", Line: 2, Read: "the end of the text", Want: "a comma or } for the { of line 2; the document is cut off"}}},
		{"comment", head + "\n // lines\n]}", []Problem{{Path: "lines[0].id", Line: 2}}},
		{"other", `{"name": "x", "version": "1", "dependencies": {}}`, []Problem{{Line: 1, Read: `a document with the keys "name", "version", "dependencies"`, Want: "a document with the keys shed, title, set_kPa_g, cold_C, lines, words, free, open"}}},
		{"list", `[]`, []Problem{{Line: 1, Read: "a list in [ ]", Want: "an object in { } with keys shed, title, set_kPa_g, cold_C, lines, words, …"}}},
		{"mark", "\xef\xbb\xbf" + head + `]}`, []Problem{{Line: 1, Read: "a byte order mark at the very beginning", Want: "UTF-8 text without one"}}},
		{"latin 1", head + "], \"title\": \"Werkst\xe4tte\"}", []Problem{{Line: 1, Read: "the byte 0xe4", Want: "UTF-8 text"}}},
		{"empty", " \n", []Problem{{Line: 2, Read: "an empty text", Want: "a JSON document"}}},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			var s shed
			got := Decode([]byte(row.text), &s)
			if row.name == "comment" {
				if len(got) != 1 || got[0].Line != 2 || !strings.Contains(got[0].Want, "no comments") {
					t.Errorf("got %+v", got)
				}
				return
			}
			if diff := cmp.Diff(row.want, got); diff != "" {
				t.Errorf("problems (-want +got):\n%s", diff)
			}
		})
	}
}

func TestDecodeBounds(t *testing.T) {
	var s shed
	bomb := `{"shed": 1, "title": "", "lines": [], "free": ` + strings.Repeat("[", 1<<20)
	if got := Decode([]byte(bomb), &s); len(got) != 1 || !strings.Contains(got[0].Read, "100 brackets") {
		t.Errorf("nesting: %+v", got)
	}
	if got := DecodeAtMost(1<<20, make([]byte, 100<<20), &s); len(got) != 1 || got[0].Read != "100 MB" {
		t.Errorf("size: %+v", got)
	}
	many := `{"shed": 1, "title": "", "lines": [` + strings.Repeat("1,", 10000) + `1]}`
	if got := Decode([]byte(many), &s); len(got) != maxProblems+1 {
		t.Errorf("%d problems are listed", len(got))
	}
}

func TestRoundTrip(t *testing.T) {
	text := `{
  "shed": 1,
  "title": "Ä \"q\"\n",
  "set_kPa_g": 620.5,
  "cold_C": -12.3,
  "lines": [
    {"id": "line.a", "size": "1/2", "at_m": [1, 2.5, 3], "cuts_mm": [12.7, 1000]},
    {"id": "line.b", "share": 0.1, "count": 2, "price": 1e-9}
  ],
  "words": {"a": "x", "b": "y"},
  "free": {"k": [1, 2]}
}
`
	var s shed
	if p := Decode([]byte(text), &s); p != nil {
		t.Fatal(p)
	}
	// 620.5 kPa and -12.3 °C in SI, by definition of the units.
	if *s.Set != 620500 || math.Abs(float64(*s.Cold)-260.85) > 1e-12 || s.Lines[0].Cuts[0] != 0.0127 {
		t.Errorf("read %v %v %v", *s.Set, *s.Cold, s.Lines[0].Cuts)
	}
	got, err := Encode(s)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(text, string(got)); diff != "" {
		t.Error(diff)
	}
	if err := CheckTypes(reflect.TypeFor[shed]()); err != nil {
		t.Error(err)
	}
	if n := Locate([]byte(text), "lines[1] (line.b).price"); n != 8 {
		t.Errorf("located at line %d", n)
	}
}

func TestEncodeRefusesNaN(t *testing.T) {
	_, err := Encode(shed{Lines: []line{{}, {more: more{Price: math.NaN()}}}})
	if err == nil || !strings.Contains(err.Error(), "lines[1].price") {
		t.Errorf("got %v", err)
	}
}

func TestCheckTypes(t *testing.T) {
	type wrong struct {
		A unit.GaugePressure `json:"a_kPa_abs"`
		B unit.Length        `json:"b"`
		C func()             `json:"c"`
		D int                `json:"d" enum:"x"`
		E int
		F unit.Ratio `json:"f_m"`
	}
	err := CheckTypes(reflect.TypeFor[wrong]())
	if err == nil || strings.Count(err.Error(), "\n") != 5 {
		t.Errorf("got %v", err)
	}
}

// Quantities survive write, read, write with the same bytes, whatever they are.
func TestQuantityStable(t *testing.T) {
	type all struct {
		A unit.GaugePressure `json:"a_kPa_g"`
		B unit.Temperature   `json:"b_C"`
		C unit.Length        `json:"c_mm"`
		D unit.VolumeFlow    `json:"d_L_min"`
		E float64            `json:"e"`
		F unit.Power         `json:"f_kW"`
		G unit.Duration      `json:"g_h"`
	}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e9, 1e9).Draw(t, "x") * math.Pow(10, float64(rapid.IntRange(-12, 3).Draw(t, "e")))
		in := all{unit.GaugePressure(x), unit.Temperature(x), unit.Length(x), unit.VolumeFlow(x), x, unit.Power(x), unit.Duration(x)}
		first, err := Encode(in)
		if err != nil {
			t.Fatal(err)
		}
		var back all
		if p := Decode(first, &back); p != nil {
			t.Fatal(p)
		}
		second, _ := Encode(back)
		if string(first) != string(second) {
			t.Fatalf("%s then %s", first, second)
		}
		if math.Abs(x) > 0 && math.Abs(x) < 1e-280 {
			return // a scaled figure so small is written as zero
		}
		if back.E != x || math.Abs(float64(back.A)-x) > 1e-14*math.Abs(x) {
			t.Fatalf("%v came back as %v and %v", x, back.E, back.A)
		}
	})
}

func TestGetSet(t *testing.T) {
	set := unit.GaugePressure(5e5)
	before := shed{Title: "t", Set: &set, Lines: []line{{ID: "a"}, {ID: "b"}}}
	after := before
	for path, raw := range map[string]string{"set_kPa_g": "600", "lines[1].share": "0.5", "cold_C": "0"} {
		if p := Set(&after, path, []byte(raw)); p != nil {
			t.Fatal(p)
		}
		if got, present, p := Get(&after, path); string(got) != raw || !present || p != nil {
			t.Errorf("%s is %s %v %v", path, got, present, p)
		}
	}
	if *before.Set != 5e5 || before.Lines[1].Share != 0 || before.Cold != nil {
		t.Error("setting reached into the value that was copied")
	}
	if p := Set(&after, "set_kPa_g", []byte("null")); p != nil || after.Set != nil {
		t.Errorf("taking away: %v", p)
	}
	for path, raw := range map[string]string{"sett_kPa_g": "1", "lines[2].id": `"x"`, "lines[0].size": `"9"`, "title.x": "1", "title": "null", "open": "true 1"} {
		c := after
		if p := Set(&c, path, []byte(raw)); len(p) == 0 {
			t.Errorf("%s = %s is accepted", path, raw)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add([]byte(`{"shed": 1, "title": "\ud83d\ude00", "lines": [{"id": "a", "size": "1/2", "at_m": [1,2,3]}], "free": {"a": [null, true, 1e5]}}`))
	f.Add([]byte(`{"shed": NaN, "lines": [[[,`))
	f.Fuzz(func(t *testing.T, data []byte) {
		var s shed
		if Decode(data, &s) != nil {
			return
		}
		once, err := Encode(s)
		if err != nil {
			t.Fatal(err)
		}
		var back shed
		if p := Decode(once, &back); p != nil {
			t.Fatalf("%s: %v", once, p)
		}
		twice, _ := Encode(back)
		if string(once) != string(twice) {
			t.Fatalf("%s then %s", once, twice)
		}
	})
}

// BenchmarkDecode reads 2,000 things, about half a megabyte.
func BenchmarkDecode(b *testing.B) {
	s := shed{Title: "t"}
	for i := range 2000 {
		s.Lines = append(s.Lines, line{
			ID: "line." + strings.Repeat("x", i%30), Size: "3/4", At: &[3]float64{1.25, float64(i) / 7, 3},
			Cuts: []unit.Length{1.1, 2.2, 3.3, 4.4, 5.5, 6.6}, more: more{Count: i, Price: 12.5},
		})
	}
	text, err := Encode(s)
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	b.Run("decode", func(b *testing.B) {
		for b.Loop() {
			var back shed
			if p := Decode(text, &back); p != nil {
				b.Fatal(p)
			}
		}
	})
	b.Run("encode", func(b *testing.B) {
		for b.Loop() {
			if _, err := Encode(s); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Logf("%d bytes", len(text))
}

// BenchmarkSet sets one value in a small thing: what an edit does.
func BenchmarkSet(b *testing.B) {
	l := line{ID: "line.a"}
	for b.Loop() {
		if p := Set(&l, "size", []byte(`"1/2"`)); p != nil {
			b.Fatal(p)
		}
	}
}

// What is known of a type is shared: many may ask for one that none asked for
// before (run with -race).
func TestPlansAreShared(t *testing.T) {
	type inner struct {
		Size string `json:"size"`
	}
	type fresh struct {
		Inner []inner `json:"inner"`
	}
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			var v fresh
			if p := Decode([]byte(`{"inner": [{"size": "1/2"}]}`), &v); p != nil || v.Inner[0].Size != "1/2" {
				t.Errorf("%v %v", v, p)
			}
		})
	}
	wait.Wait()
}
