package start_test

import (
	"context"
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"dropleg/engine/document"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/decide/plan"
	"dropleg/internal/decide/start"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// anyAnswers draws answers, mostly of the kind that people give, some not.
func anyAnswers(t *rapid.T) start.Answers {
	metres := func(low, high int, label string) unit.Length {
		return unit.Length(rapid.IntRange(low*100, high*100).Draw(t, label)) / 100
	}
	shelf := catalog.Builtin()
	var names []string
	odd := rapid.IntRange(0, 3).Draw(t, "odd") == 3
	least, walls := 4, []string{"south", "east", "north", "west"}
	if odd {
		least, walls = 1, append(walls, "north-east", "nowhere")
	}
	wall := rapid.SampledFrom(walls)
	a := start.Answers{
		Units: rapid.SampledFrom([]string{"", "us", "metric", "mixed"}).Draw(t, "units"),
		Room: start.Room{
			Width: metres(least, 25, "width"), Depth: metres(least, 25, "depth"), Height: metres(least/4, 7, "height") + 1.3,
			MadeOf: rapid.SampledFrom([]string{"", "brick", "sheet"}).Draw(t, "made of"),
		},
		Budget: "little",
	}
	if rapid.IntRange(0, 3).Draw(t, "outline") == 3 {
		w, d := float64(a.Room.Width), float64(a.Room.Depth)
		x, y := w*rapid.Float64Range(0.2, 0.8).Draw(t, "x"), d*rapid.Float64Range(0.2, 0.8).Draw(t, "y")
		a.Room.Outline = rapid.SampledFrom([][]geom.Flat{
			{{0, 0}, {w, 0}, {w, y}, {x, y}, {x, d}, {0, d}},
			{{0, 0}, {w, 0}, {x, d}, {0, y}},
			{{0, 0}, {w, d}, {w, 0}, {0, d}},
		}[:2+least%2]).Draw(t, "shape")
	}
	for range rapid.IntRange(0, 2).Draw(t, "doors") {
		a.Room.Doors = append(a.Room.Doors, start.Door{Wall: wall.Draw(t, "door"), Kind: rapid.SampledFrom([]string{"", "gate"}).Draw(t, "kind")})
	}
	if rapid.Bool().Draw(t, "machine") {
		a.Compressor.Machine = rapid.SampledFrom(shelf.IDs(catalog.Machines)).Draw(t, "class")
	}
	if rapid.IntRange(0, 3).Draw(t, "plate") == 3 {
		in := unit.GaugePressure(rapid.IntRange(2, 13).Draw(t, "cut-in")) * 1e5
		out := in + unit.GaugePressure(rapid.IntRange(1-least%2*2, 3).Draw(t, "band"))*1e5
		a.Compressor.CutIn, a.Compressor.CutOut = &in, &out
		a.Compressor.FreeAir = &job.Flow{Value: rapid.Float64Range(0.001, 0.1).Draw(t, "free air")}
	}
	if rapid.IntRange(0, 3).Draw(t, "stands") == 3 {
		a.Compressor.Place = &start.Spot{Wall: wall.Draw(t, "compressor"), Along: metres(0, 4*least, "compressor along")}
	}
	if rapid.Bool().Draw(t, "spread") {
		a.Spread = rapid.IntRange(0, 15).Draw(t, "places")
	} else {
		for i := range rapid.IntRange(0, 6).Draw(t, "places") {
			names = append(names, string(rune('a'+i)))
			a.Places = append(a.Places, start.Place{Name: names[i], Spot: start.Spot{Wall: wall.Draw(t, "wall"), Along: metres(0, least, "along")}})
		}
	}
	for range rapid.IntRange(0, 5).Draw(t, "tools") {
		tool := start.Tool{Item: rapid.SampledFrom(shelf.IDs(catalog.Tools)).Draw(t, "tool"), Count: rapid.IntRange(0, 4).Draw(t, "count")}
		if len(names) > 0 && rapid.Bool().Draw(t, "placed") {
			tool.At = []string{rapid.SampledFrom(names).Draw(t, "at")}
		}
		a.Tools = append(a.Tools, tool)
	}
	return a
}

// Whatever is answered, there is a plan that is valid and can be solved, or a
// refusal in words.
func TestAnyAnswersGiveAPlanOrAReason(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAnswers(t)
		make := rapid.SampledFrom([]func(context.Context, start.Answers, *catalog.Catalog, plan.Progress) (*start.Plan, error){start.Of, start.Existing}).Draw(t, "make")
		p, err := make(context.Background(), a, catalog.Builtin(), nil)
		if err != nil {
			var r *job.Refusal
			if !errors.As(err, &r) {
				t.Fatalf("no reason in words: %v", err)
			}
			for _, f := range r.Findings {
				if f.Title == "" || f.Path == "" {
					t.Fatalf("a reason without words or place: %+v", f)
				}
			}
			return
		}
		hold(t, p)
	})
}

// Answers live through their JSON.
func TestAnswersAreReadAsWritten(t *testing.T) {
	raw := `{"units":"us","room":{"width_m":6,"depth_m":5,"height_m":3,"made_of":"brick","doors":[{"wall":"south","along_m":1,"kind":"gate"}]},
		"compressor":{"machine":"piston-4","cut_in_kPa_g":700,"volume_L":200},
		"tools":[{"item":"blow-gun","count":2,"at":["Bench"]}],"places":[{"name":"Bench","wall":"north","along_m":2}],"budget":"500"}`
	a, found := start.Parse([]byte(raw))
	if found != nil {
		t.Fatal(found)
	}
	if a.Places[0].Wall != "north" || *a.Compressor.CutIn != 7e5 || *a.Compressor.Volume != 0.2 || *a.Room.Doors[0].Along != 1 {
		t.Errorf("%+v", a)
	}
	if _, found := start.Parse([]byte(`{"room":{"height":3},"tols":[]}`)); len(found) < 2 {
		t.Errorf("not all at once: %v", found)
	}
	if _, err := json.Marshal(start.Offer(catalog.Builtin(), unit.Metric)); err != nil {
		t.Error(err)
	}
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(`{"room":{"width_m":6,"depth_m":5,"height_m":3}}`))
	f.Add([]byte(`{"room":{"outline_m":[[0,0],[9,0],[9,9]],"height_m":3},"places":[{"name":"x","wall":"north","along_m":1}]}`))
	f.Fuzz(func(t *testing.T, raw []byte) {
		if _, found := start.Parse(raw); found != nil {
			for _, p := range found {
				if p.Path == "" || p.Title == "" {
					t.Errorf("a finding without place or words: %+v", p)
				}
			}
		}
	})
}

func TestAnswersCanBeWritten(t *testing.T) {
	if err := document.CheckTypes(reflect.TypeFor[start.Answers]()); err != nil {
		t.Error(err)
	}
}
