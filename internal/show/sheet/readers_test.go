package sheet_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/xml"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dropleg/internal/show/sheet"
)

// mm of a point.
const mm = 25.4 / 72

// run is what a foreign program says; the test is passed over where it is not installed.
func run(t *testing.T, name string, args ...string) string {
	t.Helper()
	program, err := exec.LookPath(name)
	if err != nil {
		t.Skip(name + " is not there")
	}
	var wrong bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stderr = &wrong
	out, err := cmd.Output()
	if err != nil {
		if strings.Contains(wrong.String(), "No module named") {
			t.Skip(wrong.String())
		}
		t.Fatalf("%s: %v\n%s", name, err, wrong.String())
	}
	return string(out)
}

func saved(t *testing.T, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// word is a word of a page as poppler finds it, in points.
type word struct {
	X0   float64 `xml:"xMin,attr"`
	Y0   float64 `xml:"yMin,attr"`
	X1   float64 `xml:"xMax,attr"`
	Y1   float64 `xml:"yMax,attr"`
	Text string  `xml:",chardata"`
}

type words struct {
	Pages []struct {
		Width  float64 `xml:"width,attr"`
		Height float64 `xml:"height,attr"`
		Words  []word  `xml:"word"`
	} `xml:"body>doc>page"`
}

func wordsOf(t *testing.T, pdf string) words {
	t.Helper()
	out := run(t, "pdftotext", "-bbox", pdf, "-")
	var w words
	d := xml.NewDecoder(strings.NewReader(out))
	d.Strict, d.Entity = false, xml.HTMLEntity
	if err := d.Decode(&w); err != nil {
		t.Fatal(err)
	}
	return w
}

// Poppler opens the book of every example: faces embedded, no page empty, the title block on
// every framed page, and words that lie on words nowhere.
func TestBooksReadByPoppler(t *testing.T) {
	for name, paper := range map[string]string{"boat-shop": "letter", "frame-garage": "a4", "ring-main": "a3", "ailing": "tabloid"} {
		t.Run(name, func(t *testing.T) {
			_, _, pdf := book(t, name, paper)
			path := saved(t, "book.pdf", pdf)
			for _, f := range strings.Split(strings.TrimSpace(run(t, "pdffonts", path)), "\n")[2:] {
				if column := strings.Fields(f); column[len(column)-5] != "yes" || column[len(column)-3] != "yes" {
					t.Errorf("not embedded, or text is not to be had from it: %s", f)
				}
			}
			for i, p := range wordsOf(t, path).Pages {
				if len(p.Words) < 2 {
					t.Errorf("page %d is empty", i+1)
				}
				for _, pair := range overlaps(p.Words) {
					t.Errorf("page %d: %q lies on %q", i+1, pair[0].Text, pair[1].Text)
				}
			}
		})
	}
}

// overlaps are the words that share more than a fifth of the smaller one's box: boxes of
// poppler hold the ascent and descent of a line, which neighbouring lines share a little of.
func overlaps(all []word) [][2]word {
	const share = 0.2
	var out [][2]word
	for i, a := range all {
		for _, b := range all[:i] {
			w, h := min(a.X1, b.X1)-max(a.X0, b.X0), min(a.Y1, b.Y1)-max(a.Y0, b.Y0)
			small := min((a.X1-a.X0)*(a.Y1-a.Y0), (b.X1-b.X0)*(b.Y1-b.Y0))
			if w > 0 && h > 0 && w*h > share*small {
				out = append(out, [2]word{a, b})
			}
		}
	}
	return out
}

// The south wall of the boat shop is 12 m long; on the plan at 1/8 in to the foot (1:96) it is
// 125 mm, by the paths of the PDF as pdftocairo writes them before it fits the page.
func TestPlanIsToScale(t *testing.T) {
	m := maker(t, exampleJob(t, "boat-shop"), "letter")
	made, err := m.Make(context.Background(), []string{"plan"})
	if err != nil {
		t.Fatal(err)
	}
	pdf, err := m.PDF(made)
	if err != nil {
		t.Fatal(err)
	}
	path := saved(t, "plan.pdf", pdf)
	if text := run(t, "pdftotext", path, "-"); !strings.Contains(text, `1/8" = 1'`) {
		t.Errorf("the scale is not told:\n%s", text)
	}
	svg := filepath.Join(t.TempDir(), "plan.svg")
	run(t, "pdftocairo", "-svg", path, svg)
	drawn, err := os.ReadFile(svg)
	if err != nil {
		t.Fatal(err)
	}
	const want = 12000.0 / 96
	best := math.Inf(1)
	for _, d := range regexp.MustCompile(` d="([^"]*)"`).FindAllStringSubmatch(string(drawn), -1) {
		for _, long := range levelSides(d[1]) {
			if math.Abs(long*mm-want) < math.Abs(best-want) {
				best = long * mm
			}
		}
	}
	if math.Abs(best-want) > 0.1 {
		t.Errorf("no side of %.2f mm, the nearest is %.2f", want, best)
	}
}

// levelSides are the lengths of the level straight steps of a path.
func levelSides(d string) []float64 {
	var out []float64
	var x, y float64
	for _, step := range regexp.MustCompile(`([ML]) (-?[\d.]+) (-?[\d.]+)`).FindAllStringSubmatch(d, -1) {
		nx, _ := strconv.ParseFloat(step[2], 64)
		ny, _ := strconv.ParseFloat(step[3], 64)
		if step[1] == "L" && math.Abs(ny-y) < 0.05 {
			out = append(out, math.Abs(nx-x))
		}
		x, y = nx, ny
	}
	return out
}

// ezdxf reads plan and walls of every example, finds nothing to mend, and the hall of the ring
// main measures 36 m in them.
func TestDXFReadByEzdxf(t *testing.T) {
	for _, name := range []string{"boat-shop", "frame-garage", "ring-main", "ailing"} {
		m := maker(t, exampleJob(t, name), "a4")
		b, err := m.Write(context.Background(), []string{"plan", "walls"})
		if err != nil {
			t.Fatal(err)
		}
		drawings, longest := 0, 0.0
		for _, f := range b.Files {
			if !strings.HasSuffix(f.Name, ".dxf") {
				continue
			}
			drawings++
			const script = `
import sys, ezdxf
doc = ezdxf.readfile(sys.argv[1])
print(len(doc.audit().errors), len(list(doc.modelspace())))
most = 0
for e in doc.modelspace():
    if e.dxftype() == "POLYLINE":
        p = [v.dxf.location for v in e.vertices]
        most = max([most] + [(b - a).magnitude for a, b in zip(p, p[1:]) if abs(a.y - b.y) < 0.1])
print(most)
`
			got := strings.Fields(run(t, "/usr/bin/python3", "-c", script, saved(t, f.Name, f.Data)))
			if got[0] != "0" || got[1] == "0" {
				t.Errorf("%s, %s: %s errors, %s entities", name, f.Name, got[0], got[1])
			}
			far, _ := strconv.ParseFloat(got[2], 64)
			longest = max(longest, far)
		}
		if drawings < 2 {
			t.Errorf("%s: %d drawings", name, drawings)
		}
		if name == "ring-main" && longest < 36000 {
			t.Errorf("the longest level line is %.1f mm, want the hall's 36 m at least", longest)
		}
	}
}

// zbar reads every QR code of the labels from the page as it is printed.
func TestQRReadByZbar(t *testing.T) {
	m := maker(t, exampleJob(t, "frame-garage"), "a4")
	made, err := m.Make(context.Background(), []string{"labels"})
	if err != nil {
		t.Fatal(err)
	}
	pdf, err := m.PDF(made)
	if err != nil {
		t.Fatal(err)
	}
	folder := t.TempDir()
	// At two sizes: of dozens on one picture zbar passes over some.
	for _, dpi := range []string{"300", "220"} {
		run(t, "pdftoppm", "-r", dpi, "-gray", "-png", saved(t, "labels.pdf", pdf), filepath.Join(folder, "p"+dpi))
	}
	pages, _ := filepath.Glob(filepath.Join(folder, "p*.png"))
	read := map[string]bool{}
	for _, p := range pages {
		out, err := exec.Command("zbarimg", "-q", "--raw", p).Output()
		if err != nil && len(out) == 0 {
			if _, err := exec.LookPath("zbarimg"); err != nil {
				t.Skip("zbarimg is not there")
			}
			continue // a page of markers has no code
		}
		for line := range strings.Lines(string(out)) {
			read[strings.TrimSpace(line)] = true
		}
	}
	j := exampleJob(t, "frame-garage")
	for _, o := range j.Outlets {
		if !read["dropleg:"+string(o.ID)] {
			t.Errorf("no code of %s among %d", o.ID, len(read))
		}
	}
	b, err := m.Write(context.Background(), []string{"joints"})
	if err != nil {
		t.Fatal(err)
	}
	planned := 0
	for _, f := range b.Files {
		if f.Name != "joints.csv" {
			continue
		}
		rows, err := csv.NewReader(bytes.NewReader(f.Data)).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows[1:] {
			if r[2] == "planned" {
				planned++
				if !read["dropleg:"+r[len(r)-1]] {
					t.Errorf("no code of joint %s, %s", r[0], r[len(r)-1])
				}
			}
		}
	}
	if planned == 0 {
		t.Error("no joint is planned")
	}
}

// Letters on pipe markers are at least as high as ASME A13.1 asks for the size of the line
// (testdata/ref/piping/labels.csv).
func TestMarkersAreLargeEnough(t *testing.T) {
	raw, err := os.ReadFile("../../../testdata/ref/piping/labels.csv")
	if err != nil {
		t.Fatal(err)
	}
	reader := csv.NewReader(bytes.NewReader(raw))
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for _, r := range rows {
		item, isLetters := strings.CutPrefix(r[1], "letter height, outside diameter ")
		long, isField := strings.CutPrefix(r[1], "colour field length, outside diameter ")
		if !isLetters && !isField {
			continue
		}
		if isField {
			item = long
		}
		outside := largestInch(item)
		letters, field := sheet.Lettering(outside * 25.4)
		got := letters
		if isField {
			got = field
		}
		want, err := strconv.ParseFloat(r[4], 64)
		if err != nil {
			t.Fatal(err)
		}
		if compared++; math.Abs(got-want) > 0.5 {
			t.Errorf("%s: %.0f mm, want %.0f", r[1], got, want)
		}
	}
	if compared != 10 {
		t.Errorf("%d rows compared, want 10", compared)
	}
}

// largestInch is the upper end of "3/4 to 1-1/4 in"; of "over 10 in" a little more.
func largestInch(text string) float64 {
	over := strings.HasPrefix(text, "over")
	parts := strings.Fields(strings.TrimSuffix(text, " in"))
	last := parts[len(parts)-1]
	var whole, a, b float64
	switch n, _ := fmt.Sscanf(last, "%f-%f/%f", &whole, &a, &b); {
	case n == 3:
		whole += a / b
	default:
		_, _ = fmt.Sscanf(last, "%f", &whole)
	}
	if over {
		whole += 2
	}
	return whole
}
