package job

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"dropleg/engine/geom"
	"dropleg/engine/unit"

	"pgregory.net/rapid"
)

// Random edits of a random small job and its alternative: the inverse gives the same bytes, the form
// reads back as the same edit, and the job given stays as it was.
func TestInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := randomJob(t)
		start := *j
		text := mustEncode(t, &start)
		var undo []Edit
		now := j
		for range rapid.IntRange(1, 6).Draw(t, "edits") {
			e := randomEdit(t, now)
			form := e.Form()
			read, found := ParseEdit(form)
			if found != nil {
				t.Fatalf("%s %s: %v", form.Verb, form.Fields, found)
			}
			after, inverse, err := read.Apply(now)
			if err != nil {
				continue
			}
			before := mustEncode(t, now)
			back, _, err := inverse.Apply(after)
			if err != nil {
				t.Fatalf("%s %s: undo: %v", form.Verb, form.Fields, err)
			}
			if got := mustEncode(t, back); got != before {
				t.Fatalf("%s %s: undone\n%s\nbefore\n%s", form.Verb, form.Fields, got, before)
			}
			undo = append(undo, inverse)
			now = after
		}
		slices.Reverse(undo)
		back, _, err := AllOf("", undo...).Apply(now)
		if err != nil {
			t.Fatalf("undoing all: %v", err)
		}
		if got := mustEncode(t, back); got != text || mustEncode(t, j) != text {
			t.Fatalf("undone\n%s\nbefore\n%s", got, text)
		}
	})
}

func mustEncode(t *rapid.T, j *Job) string {
	b, err := j.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// randomJob is a chain of points with runs between, some stated, some drawn. It
// is in order: no two points are at the same place.
func randomJob(t *rapid.T) *Job {
	j := &Job{Version: Version, Title: rapid.String().Draw(t, "title")}
	num := rapid.Float64Range(-100, 100)
	j.Building.Walls = []Wall{{ID: "wall.w", From: geom.Flat{0, 0}, To: geom.Flat{num.Draw(t, "wx"), 150}, Height: 4, Thickness: 0.2}}
	n := rapid.IntRange(2, 6).Draw(t, "points")
	for i := range n {
		p := Point{ID: ID(fmt.Sprintf("point.%d", i)), Part: Part{Kind: rapid.SampledFrom([]string{"", "tee", "ball-valve"}).Draw(t, "kind")}}
		if rapid.Bool().Draw(t, "on wall") {
			p.On = &OnWall{Wall: "wall.w", Along: unit.Length(20*float64(i) + rapid.Float64Range(0, 10).Draw(t, "along")), Up: 1, Off: unit.Length(num.Draw(t, "off") / 3)}
		} else {
			p.At = &geom.Point{num.Draw(t, "x") + 300*float64(i), num.Draw(t, "y") - 500, num.Draw(t, "z")}
		}
		j.Net.Points = append(j.Net.Points, p)
		if i == 0 {
			continue
		}
		r := Run{ID: ID(fmt.Sprintf("line.%d", i)), From: End{Point: ID(fmt.Sprintf("point.%d", i-1))}, To: End{Point: p.ID}, Stock: "copper-l", Size: "1/2", Role: "main"}
		if rapid.Bool().Draw(t, "stated") {
			l := unit.Length(rapid.Float64Range(0.1, 50).Draw(t, "length"))
			r.Length = &l
		} else if rapid.Bool().Draw(t, "corner") {
			r.Path = []geom.Point{{num.Draw(t, "cx"), num.Draw(t, "cy"), 2}}
		}
		j.Net.Runs = append(j.Net.Runs, r)
	}
	j.Tools = []Tool{{ID: "tool.a", Name: "a"}, {ID: "tool.b", Name: "b", With: []ID{"tool.a"}}}
	j.Outlets = []Outlet{{ID: "outlet.a", Name: "a", Point: "point.0", Tools: []ID{"tool.b"}, Hose: &Hose{ID: "hose.a", Item: "rubber-3/8", Length: 5}, Hang: []Part{{ID: "part.a", Kind: "coupler"}}}}
	j.Plans = []Plan{{ID: "plan.a", Name: "a", Edits: []EditForm{}}}
	return j
}

// randomEdit is an edit that may or may not fit, of the job or in its alternative.
func randomEdit(t *rapid.T, j *Job) Edit {
	if v, _ := Variant(j, "plan.a"); v != nil && rapid.IntRange(0, 3).Draw(t, "within") == 0 {
		return WithinOf("plan.a", randomPlain(t, v))
	}
	return randomPlain(t, j)
}

// randomPlain is an edit of the job itself.
func randomPlain(t *rapid.T, j *Job) Edit {
	ids := []ID{"tool.a", "tool.b", "outlet.a", "hose.a", "part.a", "wall.w", "point.9", "plan.a"}
	for _, p := range j.Net.Points {
		ids = append(ids, p.ID)
	}
	for _, r := range j.Net.Runs {
		ids = append(ids, r.ID)
	}
	id := rapid.SampledFrom(ids)
	place := func(name string) *geom.Point {
		x := rapid.Float64Range(-20, 20)
		return &geom.Point{x.Draw(t, name+" x"), x.Draw(t, name+" y"), x.Draw(t, name+" z")}
	}
	raw := func(text string) json.RawMessage { return json.RawMessage(text) }
	length := unit.Length(rapid.Float64Range(0.001, 40).Draw(t, "along"))
	switch rapid.IntRange(0, 9).Draw(t, "verb") {
	case 0:
		return AddOf(&Tool{ID: rapid.SampledFrom([]ID{"tool.a", "tool.c", "tool.d"}).Draw(t, "tool"), Name: "new", Burst: new(unit.Duration(1.5))})
	case 1:
		return AddOf(&Point{ID: rapid.SampledFrom([]ID{"point.1", "point.7"}).Draw(t, "point"), At: place("at")})
	case 2:
		return &Remove{ID: id.Draw(t, "id"), WithRuns: rapid.Bool().Draw(t, "with runs")}
	case 3:
		e := &Move{ID: id.Draw(t, "id"), By: place("by")}
		if rapid.Bool().Draw(t, "to") {
			e.To, e.By = e.By, nil
		}
		return e
	case 4:
		return &Connect{Run: id.Draw(t, "run"), End: rapid.SampledFrom([]string{"from", "to"}).Draw(t, "end"), Point: id.Draw(t, "point")}
	case 5:
		return &Split{Run: id.Draw(t, "run"), Along: &length}
	case 6:
		return &Split{Run: id.Draw(t, "run"), Near: place("near"), Part: &Part{Kind: "tee", Set: new(unit.GaugePressure)}}
	case 7:
		kv := rapid.SampledFrom([][2]string{
			{"length_m", "7.3"},
			{"length_m", "null"},
			{"size", `"3/4"`},
			{"part.compressor.pump_up.volume_L", "3"},
			{"part.volume_L", "271.3"},
			{"part.rated_flow.m3_s", "0.1"},
			{"flow", `{"m3_s": 1}`},
			{"name", `"x"`},
			{"at_m", "null"},
			{"on", "null"},
			{"hang[0].set_kPa_g", "601.1"},
			{"pressure_dew_point_C", "3.3"},
		}).Draw(t, "set")
		return &Change{ID: id.Draw(t, "id"), Key: kv[0], Value: raw(kv[1])}
	case 8:
		kv := rapid.SampledFrom([][2]string{{"site.hot_C", "31.7"}, {"rules.margin_kPa", "5"}, {"work.crew", "3"}, {"prices.currency", `"EUR"`}, {"building.underlay.page", "2"}, {"catalogue", "{}"}}).Draw(t, "set")
		return &Change{Key: kv[0], Value: raw(kv[1])}
	}
	return AllOf("", &Change{Key: "note", Value: raw(`"n"`)}, &Remove{ID: id.Draw(t, "id"), WithRuns: true})
}
