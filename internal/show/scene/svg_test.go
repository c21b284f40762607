package scene

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"dropleg/internal/show/scene/scenetest"
)

// sample holds one item of every shape.
func sample() Scene {
	ink := Solid(0.5, "ink")
	return Scene{Title: "one of each", Min: Point{0, 0}, Max: Point{4, 3}, Layers: []Layer{{ID: "all", Title: "all", Items: []Item{
		{ID: "room.a", Title: "a < b & c", Area: &Area{Points: []Point{{0, 0}, {4, 0}, {4, 3}, {0, 3}}, Fill: "floor", Hatch: "diagonal", Stroke: &ink}},
		Polyline("line.a", "main", Stroke{Width: 1, Color: "line", Dash: []float64{2, 1}, Round: true}, Point{0.5, 0.5}, Point{3.5, 0.5}, Point{3.5, 2}),
		{Arc: &Arc{Centre: Point{2, 2}, Radius: 0.5, From: 0, To: 270, Stroke: ink}},
		{ID: "point.v", Mark: &Mark{At: Point{2, 0.5}, Turn: 90, Parts: []Path{{D: "M-3 -2V2L3 -2V2Z", Fill: "paper", Stroke: &ink}}}},
		{Text: &Text{At: Point{1, 1}, Offset: Point{2, -1}, Size: 3, Text: "5.4 \"bar\"", Anchor: "middle", Turn: 30, Color: "soft", Bold: true}},
	}}}}
}

func TestSVGGolden(t *testing.T) {
	var got bytes.Buffer
	if err := WriteSVG(&got, sample(), Daylight(), 20, 5); err != nil {
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
		if err := WriteSVG(&out, s, Daylight(), 20, 5); err != nil {
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
	theme := Daylight()
	for _, role := range Roles() {
		if theme[role] == "" {
			t.Errorf("no colour for %q", role)
		}
	}
	if len(theme) != len(Roles()) {
		t.Errorf("the theme has %d colours for %d roles", len(theme), len(Roles()))
	}
}

func TestFillLeavesNoNull(t *testing.T) {
	s := Scene{Layers: []Layer{{ID: "a"}}}
	s.Fill()
	text, err := json.Marshal(s)
	if err != nil || bytes.Contains(text, []byte("null")) {
		t.Errorf("%s, %v", text, err)
	}
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestSVGTellsWriteErrors(t *testing.T) {
	if err := WriteSVG(brokenPipe{}, sample(), Daylight(), 20, 5); !errors.Is(err, io.ErrClosedPipe) {
		t.Errorf("got %v", err)
	}
}
