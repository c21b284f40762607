package sheet_test

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dropleg/internal/show/scene"
)

// Every leaf of every sheet of two examples is well-formed XML of the size of its paper, and the
// south wall of the boat shop is as long in the SVG as in the PDF: 12 m at 1:96 are 125 mm.
func TestLeavesAsSVG(t *testing.T) {
	for _, name := range []string{"boat-shop", "frame-garage"} {
		m := maker(t, exampleJob(t, name), "letter")
		made, err := m.Make(context.Background(), nil)
		if err != nil {
			t.Fatal(err)
		}
		nearest := math.Inf(1)
		for _, one := range made {
			for n, leaf := range m.Leaves(one) {
				var out bytes.Buffer
				if err := scene.WriteLeafSVG(&out, leaf, scene.Print()); err != nil {
					t.Fatal(err)
				}
				wide := measured(t, out.Bytes())
				if wide != [2]float64{leaf.Width, leaf.Height} {
					t.Errorf("%s, %s, leaf %d: %v mm, want %v by %v", name, one.Sheet.Name, n+1, wide, leaf.Width, leaf.Height)
				}
				if words := bytes.Count(out.Bytes(), []byte("<text ")); words == 0 || words != bytes.Count(out.Bytes(), []byte(` textLength="`)) {
					t.Errorf("%s, %s, leaf %d: %d words, not all as wide as in print", name, one.Sheet.Name, n+1, words)
				}
				if one.Sheet.Name != "plan" {
					continue
				}
				nearest = min(nearest, nearestTo(125, out.String()))
			}
		}
		if name == "boat-shop" && nearest > 0.1 {
			t.Errorf("no level side of 125 mm: off by %.2f", nearest)
		}
	}
}

// measured is the size of an SVG document in mm; what is not well-formed fails.
func measured(t *testing.T, text []byte) (size [2]float64) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(text))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return size
		}
		if err != nil {
			t.Fatal(err)
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "svg" {
			continue
		}
		for _, a := range start.Attr {
			for k, key := range []string{"width", "height"} {
				if a.Name.Local == key {
					size[k], _ = strconv.ParseFloat(strings.TrimSuffix(a.Value, "mm"), 64)
				}
			}
		}
	}
}

// nearestTo is by how much the level side misses a length that comes nearest to it, in the units
// of the document, which are mm.
func nearestTo(want float64, text string) float64 {
	best := math.Inf(1)
	var x, y float64
	for _, step := range regexp.MustCompile(`([ML])(-?[\d.]+) (-?[\d.]+)`).FindAllStringSubmatch(text, -1) {
		nx, _ := strconv.ParseFloat(step[2], 64)
		ny, _ := strconv.ParseFloat(step[3], 64)
		if step[1] == "L" && math.Abs(ny-y) < 0.01 {
			best = min(best, math.Abs(math.Abs(nx-x)-want))
		}
		x, y = nx, ny
	}
	return best
}
