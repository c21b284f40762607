package scene_test

import (
	"encoding/json"
	"reflect"
	"slices"
	"testing"

	"dropleg/internal/show/scene"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

// alike takes lists that are empty and lists that are not there for the same: a
// drawing shows no difference.
var alike = cmp.Options{cmpopts.EquateEmpty(), cmpopts.IgnoreUnexported(scene.Patch{})}

func drawPoints(t *rapid.T) []scene.Point {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) scene.Point {
		return scene.Point{float64(rapid.IntRange(0, 3).Draw(t, "x")), float64(rapid.IntRange(0, 3).Draw(t, "y"))}
	}), 0, 3).Draw(t, "points")
}

func drawStroke(t *rapid.T) scene.Stroke {
	s := scene.Solid(float64(rapid.IntRange(0, 2).Draw(t, "width")), rapid.SampledFrom([]string{"ink", "line"}).Draw(t, "colour"))
	s.Dash = rapid.SliceOfN(rapid.Float64Range(0, 2), 0, 2).Draw(t, "dash")
	return s
}

// drawItem makes items of few ids, so that they come again, in and out of order; the
// last ids look like keys of groups.
func drawItem(t *rapid.T) scene.Item {
	it := scene.Item{
		ID:    rapid.SampledFrom([]string{"", "", "line.a", "line.b", "outlet.a", "line.a#2", "#1"}).Draw(t, "id"),
		Title: rapid.SampledFrom([]string{"", "words"}).Draw(t, "title"),
	}
	stroke := drawStroke(t)
	switch rapid.IntRange(0, 4).Draw(t, "shape") {
	case 0:
		it.Line = &scene.Line{Points: drawPoints(t), Stroke: stroke}
	case 1:
		it.Area = &scene.Area{Points: drawPoints(t), Fill: "floor"}
		if rapid.Bool().Draw(t, "stroked") {
			it.Area.Stroke = &stroke
		}
	case 2:
		it.Arc = &scene.Arc{Radius: rapid.Float64Range(0, 2).Draw(t, "radius"), Stroke: stroke}
	case 3:
		it.Text = &scene.Text{Text: rapid.SampledFrom([]string{"A", "B"}).Draw(t, "text"), Bold: rapid.Bool().Draw(t, "bold")}
	case 4:
		it.Mark = &scene.Mark{Turn: float64(rapid.IntRange(0, 3).Draw(t, "turn")), Parts: []scene.Path{{D: "M0 0", Stroke: &stroke}}}
	}
	return it
}

func drawScene(t *rapid.T) scene.Scene {
	s := scene.Scene{Title: rapid.SampledFrom([]string{"a", "b"}).Draw(t, "scene"), Max: scene.Point{1, 2}}
	for _, id := range rapid.SampledFrom([][]string{{"lines", "parts"}, {"lines", "parts"}, {"lines", "parts"}, {"parts"}, {"lines", "lines"}, {}}).Draw(t, "layers") {
		s.Layers = append(s.Layers, scene.Layer{ID: id, Title: id, Items: rapid.SliceOfN(rapid.Custom(drawItem), 0, 8).Draw(t, "items")})
	}
	return s
}

// changed is a scene with some of its items taken out, put in, changed or moved.
func changed(t *rapid.T, s scene.Scene) scene.Scene {
	s.Layers = slices.Clone(s.Layers)
	for i := range s.Layers {
		items := slices.Clone(s.Layers[i].Items)
		for range rapid.IntRange(0, 3).Draw(t, "changes") {
			at := rapid.IntRange(0, len(items)).Draw(t, "at")
			switch {
			case at == len(items) || rapid.Bool().Draw(t, "insert"):
				items = slices.Insert(items, at, drawItem(t))
			case rapid.Bool().Draw(t, "delete"):
				items = slices.Delete(items, at, at+1)
			default:
				items[0], items[at] = items[at], items[0]
			}
		}
		s.Layers[i].Items = items
	}
	return s
}

func TestPatchMakesTheNewScene(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawScene(t)
		b := drawScene(t)
		if rapid.Bool().Draw(t, "near") {
			b = changed(t, a)
		}
		p := scene.Diff(a, b)
		if d := cmp.Diff(b, scene.Apply(a, p), alike); d != "" {
			t.Fatalf("-want +got:\n%s", d)
		}
		if p.None() != cmp.Equal(a, b, alike) && !p.Whole() {
			t.Fatalf("none %v of\n%v\n%v", p.None(), a, b)
		}
		// Over the wire the same is left of it.
		raw, err := json.Marshal(p)
		if err != nil {
			t.Fatal(err)
		}
		var back scene.Patch
		if err := json.Unmarshal(raw, &back); err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(p, back, alike); d != "" {
			t.Fatalf("over the wire (-sent +got):\n%s", d)
		}
		if p.Whole() {
			a = scene.Scene{}
		}
		twice := len(b.Layers) == 2 && b.Layers[0].ID == b.Layers[1].ID // nobody tells those apart
		if d := cmp.Diff(b, scene.Apply(a, back), alike); d != "" && !twice {
			t.Fatalf("over the wire (-want +got):\n%s", d)
		}
	})
}

// A scene changes by one thing, and the patch holds no more than that.
func TestPatchIsSmall(t *testing.T) {
	line := func(id, colour string) scene.Item {
		return scene.Polyline(id, "", scene.Solid(1, colour), scene.Point{0, 0}, scene.Point{1, 0})
	}
	a := scene.Scene{Layers: []scene.Layer{
		{ID: "building", Items: []scene.Item{line("wall.a", "wall")}},
		{ID: "lines", Items: []scene.Item{line("line.a", "ramp-1"), line("", "floor"), line("line.b", "ramp-2"), line("line.a", "ink"), line("", "ink")}},
	}}
	b := scene.Scene{Layers: []scene.Layer{a.Layers[0], {ID: "lines", Items: slices.Clone(a.Layers[1].Items)}}}
	b.Layers[1].Items[1] = line("", "paper")
	p := scene.Diff(a, b)
	want := []scene.LayerPatch{{ID: "lines", Groups: map[string][]scene.Item{"line.a": {line("line.a", "ramp-1"), line("", "paper")}}}}
	if d := cmp.Diff(want, p.Layers); d != "" || p.Whole() || p.None() {
		t.Errorf("-want +got:\n%s", d)
	}
	whole := scene.Diff(scene.Scene{}, b)
	if d := cmp.Diff([]string{"line.a", "line.b", "line.a#2"}, whole.Layers[1].Order); d != "" || !whole.Whole() {
		t.Errorf("-want +got:\n%s", d)
	}
}

// Diff compares every field: one that is added to a shape must be compared too.
func TestEqualKnowsEveryField(t *testing.T) {
	for _, shape := range []any{scene.Item{}, scene.Line{}, scene.Area{}, scene.Arc{}, scene.Text{}, scene.Mark{}, scene.Path{}, scene.Stroke{}} {
		known := map[string]int{"Item": 7, "Line": 2, "Area": 4, "Arc": 5, "Text": 9, "Mark": 3, "Path": 3, "Stroke": 4}
		if typ := reflect.TypeOf(shape); typ.NumField() != known[typ.Name()] {
			t.Errorf("%s has %d fields: teach equal to compare them, then this test", typ.Name(), typ.NumField())
		}
	}
}
