package scenetest

import (
	"bytes"
	"errors"
	"io"
	"math"
	"testing"

	"dropleg/internal/show/scene"
)

// Writer writes a drawing in one form.
type Writer struct {
	Name  string
	Write func(w io.Writer, s scene.Scene) error
}

// Sample holds one item of every shape, in a drawing of 4 by 3 m.
func Sample() scene.Scene {
	ink := scene.Solid(0.5, "ink")
	return scene.Scene{Title: "one of each", Min: scene.Point{0, 0}, Max: scene.Point{4, 3}, Layers: []scene.Layer{{ID: "all", Title: "all", Items: []scene.Item{
		{ID: "room.a", Title: "a < b & c", Area: &scene.Area{Points: []scene.Point{{0, 0}, {4, 0}, {4, 3}, {0, 3}}, Fill: "floor", Hatch: "diagonal", Stroke: &ink}},
		scene.Polyline("line.a", "main", scene.Stroke{Width: 1, Color: "line", Dash: []float64{2, 1}, Round: true}, scene.Point{0.5, 0.5}, scene.Point{3.5, 0.5}, scene.Point{3.5, 2}),
		{Arc: &scene.Arc{Centre: scene.Point{2, 2}, Radius: 0.5, From: 0, To: 270, Stroke: ink}},
		{ID: "point.v", Mark: &scene.Mark{At: scene.Point{2, 0.5}, Turn: 90, Parts: []scene.Path{{D: "M-3 -2V2L3 -2V2Z", Fill: "paper", Stroke: &ink}}}},
		{Text: &scene.Text{At: scene.Point{1, 1}, Offset: scene.Point{2, -1}, Size: 3, Text: "5.4 \"bar\"", Anchor: "middle", Turn: 30, Color: "soft", Bold: true}},
	}}}}
}

// Suite is what every writer of drawings holds.
func Suite(t *testing.T, writer Writer) {
	write := func(t *testing.T, s scene.Scene) []byte {
		t.Helper()
		var out bytes.Buffer
		if err := writer.Write(&out, s); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	t.Run(writer.Name+"/same bytes", func(t *testing.T) {
		if a, b := write(t, Sample()), write(t, Sample()); !bytes.Equal(a, b) || len(a) == 0 {
			t.Errorf("%d bytes, then %d others", len(a), len(b))
		}
	})
	t.Run(writer.Name+"/empty", func(t *testing.T) { write(t, scene.Scene{}) })
	t.Run(writer.Name+"/leaves the drawing alone", func(t *testing.T) {
		s := Sample()
		write(t, s)
		if before, after := write(t, Sample()), write(t, s); !bytes.Equal(before, after) {
			t.Error("writing changed what is written")
		}
	})
	t.Run(writer.Name+"/no number", func(t *testing.T) {
		s := Sample()
		s.Layers[0].Items[1].Line.Points[1][0] = math.NaN()
		s.Layers[0].Items[4].Text.At[1] = math.Inf(1)
		if out := write(t, s); bytes.Contains(out, []byte("NaN")) || bytes.Contains(out, []byte("+Inf")) {
			t.Error("what is not a number came out")
		}
	})
	t.Run(writer.Name+"/write error", func(t *testing.T) {
		if err := writer.Write(brokenPipe{}, Sample()); !errors.Is(err, io.ErrClosedPipe) {
			t.Errorf("got %v", err)
		}
	})
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }
