package scene_test

import (
	"io"
	"testing"
	"time"

	"dropleg/internal/show/scene"
	"dropleg/internal/show/scene/scenetest"
)

func about() scene.About {
	return scene.About{Title: "One of each", Author: "nobody", Date: time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)}
}

func writers() []scenetest.Writer {
	alone := func(s scene.Scene) scene.Leaf { return scene.Alone(s, 20) }
	return []scenetest.Writer{
		{Name: "svg", Write: func(w io.Writer, s scene.Scene) error { return scene.WriteSVG(w, s, scene.Daylight(), 20, 5) }},
		{Name: "leaf svg", Write: func(w io.Writer, s scene.Scene) error { return scene.WriteLeafSVG(w, alone(s), scene.Print()) }},
		{Name: "pdf", Write: func(w io.Writer, s scene.Scene) error {
			return scene.WritePDF(w, []scene.Leaf{alone(s)}, scene.Print(), about())
		}},
		{Name: "dxf", Write: func(w io.Writer, s scene.Scene) error { return scene.WriteDXF(w, s, 20) }},
	}
}

func TestWriters(t *testing.T) {
	for _, w := range writers() {
		scenetest.Suite(t, w)
	}
}
