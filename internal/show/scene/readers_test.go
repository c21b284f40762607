package scene_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"dropleg/internal/show/scene"
	"dropleg/internal/show/scene/scenetest"
)

// reader is a foreign program that reads what we wrote; the test is passed over where it is
// not installed.
func reader(t *testing.T, name string, args ...string) string {
	t.Helper()
	program, err := exec.LookPath(name)
	if err != nil {
		t.Skip(name + " is not there")
	}
	out, err := exec.Command(program, args...).CombinedOutput()
	if err != nil {
		if strings.Contains(string(out), "No module named") {
			t.Skip(string(out))
		}
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}

func file(t *testing.T, name string, write func(*bytes.Buffer) error) string {
	t.Helper()
	var out bytes.Buffer
	if err := write(&out); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, out.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// wall is a line of 10 m.
func wall() scene.Scene {
	s := scenetest.Sample()
	s.Max = scene.Point{10, 3}
	s.Layers = append(s.Layers, scene.Layer{ID: "walls & such", Items: []scene.Item{
		scene.Polyline("wall.w", "", scene.Stroke{Width: 0.37, Color: "wall", Dash: []float64{4, 1, 0.5, 1}}, scene.Point{0, 0}, scene.Point{10, 0}),
		scene.Words("", "Łódź, Ψ, Щ: ⌀ 22 × 1", scene.Point{1, 2}, scene.Point{}, 3, "start", "ink"),
	}})
	return s
}

// Poppler reads the PDF: page size, faces embedded, text as it was set (a sign that no face
// has is a box), and the wall of 10 m by the document's own paths, 200 mm at 1:50.
func TestPDFReadByPoppler(t *testing.T) {
	pdf := file(t, "wall.pdf", func(b *bytes.Buffer) error {
		return scene.WritePDF(b, []scene.Leaf{scene.Alone(wall(), 20)}, scene.Print(), about())
	})
	info := reader(t, "pdfinfo", "-isodates", pdf)
	for _, want := range []string{"Title:           One of each", "Author:          nobody", "CreationDate:    2026-03-01T00:00:00Z", "Pages:           1"} {
		if !strings.Contains(info, want) {
			t.Errorf("no %q in\n%s", want, info)
		}
	}
	var wide, high float64
	if _, err := fmt.Sscanf(info[strings.Index(info, "Page size:")+10:], "%f x %f", &wide, &high); err != nil {
		t.Fatal(err)
	}
	const mm = 25.4 / 72
	if math.Abs(wide*mm-220) > 0.05 || math.Abs(high*mm-80) > 0.05 {
		t.Errorf("page %.2f by %.2f mm, want 220 by 80", wide*mm, high*mm)
	}
	fonts := strings.Split(strings.TrimSpace(reader(t, "pdffonts", pdf)), "\n")[2:]
	for _, f := range fonts {
		if words := strings.Fields(f); words[len(words)-5] != "yes" {
			t.Errorf("not embedded: %s", f)
		}
	}
	if text := reader(t, "pdftotext", pdf, "-"); !strings.Contains(text, "Łódź, Ψ, Щ: □ 22 × 1") {
		t.Errorf("text\n%s", text)
	}
	svg := filepath.Join(t.TempDir(), "back.svg")
	reader(t, "pdftocairo", "-svg", pdf, svg)
	drawn, err := os.ReadFile(svg)
	if err != nil {
		t.Fatal(err)
	}
	if long := longestPath(t, drawn) * mm; math.Abs(long-200) > 0.1 {
		t.Errorf("the wall of 10 m is %.3f mm long at 1:50", long)
	}
}

// longestPath is the longest straight stroke of an SVG in points: as the paths say, before
// pdftocairo fits its picture to whole points.
func longestPath(t *testing.T, svg []byte) float64 {
	t.Helper()
	most := 0.0
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if err != nil {
			return most
		}
		e, ok := token.(xml.StartElement)
		if !ok || e.Name.Local != "path" {
			continue
		}
		for _, a := range e.Attr {
			var x0, y0, x1, y1 float64
			if n, _ := fmt.Sscanf(a.Value, "M %f %f L %f %f", &x0, &y0, &x1, &y1); a.Name.Local == "d" && n == 4 {
				most = max(most, math.Hypot(x1-x0, y1-y0))
			}
		}
	}
}

// ezdxf reads the DXF, finds nothing to mend, and measures the wall of 10 m.
func TestDXFReadByEzdxf(t *testing.T) {
	dxf := file(t, "wall.dxf", func(b *bytes.Buffer) error { return scene.WriteDXF(b, wall(), 20) })
	const script = `
import sys, ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode as plain
doc = ezdxf.readfile(sys.argv[1])
print("version", doc.dxfversion, "errors", len(doc.audit().errors))
print("layers", sorted(l.dxf.name for l in doc.layers))
for e in doc.modelspace():
    if e.dxftype() == "POLYLINE" and e.dxf.layer == "WALLS___SUCH":
        a, b = [v.dxf.location for v in e.vertices]
        print("wall %.4f" % (b - a).magnitude, e.dxf.linetype, "%.1f" % e.dxf.default_start_width)
    if e.dxftype() == "TEXT": print("text", ascii(plain(e.dxf.text)))
    if e.dxftype() == "ARC": print("arc %.1f %.1f %.1f" % (e.dxf.radius, e.dxf.start_angle, e.dxf.end_angle))
`
	got := reader(t, "/usr/bin/python3", "-c", script, dxf)
	for _, want := range []string{
		"version AC1009 errors 0", "'ALL'", "'WALLS___SUCH'", "wall 10000.0000 DASH2 18.5", "arc 500.0 0.0 270.0",
		`text '\u0141\xf3d\u017a, \u03a8, \u0429: \u2300 22 \xd7 1'`, "True size: 1 drawing unit = 1 mm.",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
}
