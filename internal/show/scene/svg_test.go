package scene_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dropleg/internal/show/scene"
	"dropleg/internal/show/scene/scenetest"
)

// sample holds one item of every shape.
func sample() scene.Scene {
	ink := scene.Solid(0.5, "ink")
	return scene.Scene{Title: "one of each", Min: scene.Point{0, 0}, Max: scene.Point{4, 3}, Layers: []scene.Layer{{ID: "all", Title: "all", Items: []scene.Item{
		{ID: "room.a", Title: "a < b & c", Area: &scene.Area{Points: []scene.Point{{0, 0}, {4, 0}, {4, 3}, {0, 3}}, Fill: "floor", Hatch: "diagonal", Stroke: &ink}},
		scene.Polyline("line.a", "main", scene.Stroke{Width: 1, Color: "line", Dash: []float64{2, 1}, Round: true}, scene.Point{0.5, 0.5}, scene.Point{3.5, 0.5}, scene.Point{3.5, 2}),
		{Arc: &scene.Arc{Centre: scene.Point{2, 2}, Radius: 0.5, From: 0, To: 270, Stroke: ink}},
		{ID: "point.v", Mark: &scene.Mark{At: scene.Point{2, 0.5}, Turn: 90, Parts: []scene.Path{{D: "M-3 -2V2L3 -2V2Z", Fill: "paper", Stroke: &ink}}}},
		{Text: &scene.Text{At: scene.Point{1, 1}, Offset: scene.Point{2, -1}, Size: 3, Text: "5.4 \"bar\"", Anchor: "middle", Turn: 30, Color: "soft", Bold: true}},
	}}}}
}

func TestSVGGolden(t *testing.T) {
	var got bytes.Buffer
	if err := scene.WriteSVG(&got, sample(), scene.Daylight(), 20, 5); err != nil {
		t.Fatal(err)
	}
	scenetest.Golden(t, "testdata/one-of-each.svg", got.Bytes())
}

// Whatever stands in titles and texts, the document is well-formed and carries it.
func TestSVGIsXML(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sample()
		word := rapid.StringMatching(`[a-z<>&"' Ø×−]{0,20}`).Draw(t, "word")
		s.Title, s.Layers[0].Items[4].Text.Text, s.Layers[0].Items[0].ID = word, word, word
		var out bytes.Buffer
		if err := scene.WriteSVG(&out, s, scene.Daylight(), 20, 5); err != nil {
			t.Fatal(err)
		}
		seen := 0
		d := xml.NewDecoder(&out)
		for {
			token, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%q: %v", word, err)
			}
			if c, ok := token.(xml.CharData); ok && string(c) == word {
				seen++
			}
		}
		if word != "" && strings.TrimSpace(word) != "" && seen < 2 {
			t.Fatalf("%q stands %d times as text, want 2", word, seen)
		}
	})
}

// Every role that a scene may use has a colour.
func TestDaylightHasEveryRole(t *testing.T) {
	theme := scene.Daylight()
	for _, role := range scene.Roles() {
		if theme[role] == "" {
			t.Errorf("no colour for %q", role)
		}
	}
	if len(theme) != len(scene.Roles()) {
		t.Errorf("the theme has %d colours for %d roles", len(theme), len(scene.Roles()))
	}
}

func TestFillLeavesNoNull(t *testing.T) {
	s := scene.Scene{Layers: []scene.Layer{{ID: "a"}}}
	s.Fill()
	text, err := json.Marshal(s)
	if err != nil || bytes.Contains(text, []byte("null")) {
		t.Errorf("%s, %v", text, err)
	}
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestSVGTellsWriteErrors(t *testing.T) {
	if err := scene.WriteSVG(brokenPipe{}, sample(), scene.Daylight(), 20, 5); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("got %v", err)
	}
}
