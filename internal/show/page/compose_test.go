package page_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"

	"pgregory.net/rapid"
)

func stampOn(name string, inches bool) page.Stamp {
	p, _ := page.PaperOf(name)
	return page.Stamp{Job: "A job", By: "Quay Pipework", Mark: "QP", Revision: "B", Date: time.Date(2026, 3, 31, 0, 0, 0, 0, time.UTC), Paper: p, Inches: inches}
}

// hall is a drawing of an outline of so many metres.
func hall(wide, high float64) page.View {
	return page.View{Draw: func(float64) scene.Scene {
		s := scene.Scene{Title: "hall", Max: scene.Point{wide, high}}
		s.Layers = []scene.Layer{{ID: "walls", Items: []scene.Item{scene.Polyline("wall", "", scene.Solid(0.3, "ink"),
			scene.Point{0, 0}, scene.Point{wide, 0}, scene.Point{wide, high}, scene.Point{0, high}, scene.Point{0, 0})}}}
		return s
	}}
}

func allTexts(leaves []scene.Leaf) string {
	var b strings.Builder
	for _, l := range leaves {
		for _, d := range l.Laid {
			for _, layer := range d.Scene.Layers {
				for _, it := range layer.Items {
					if it.Text != nil {
						b.WriteString(it.Text.Text + "\n")
					}
				}
			}
		}
	}
	return b.String()
}

// A drawing takes the largest usual scale that has room: of a hall of 12 by 9 m on A4 lying
// down, with 273 by 172 mm to write on less 7 mm about the drawing, 1:100, and in inches
// 1/8 in to the foot (1:96); at 1:50 and 3/16 in it is 180 and 141 mm high.
func TestScales(t *testing.T) {
	for _, c := range []struct {
		wide, high float64
		inches     bool
		want       string
	}{
		{12, 9, false, "1:100"},
		{12, 5, false, "1:50"},
		{2, 1, false, "1:10"},
		{200, 80, false, "1:1000"},
		{12, 9, true, `3/16" = 1'`},
		{16, 9.7, true, `3/16" = 1'`},
		{17, 9, true, `1/8" = 1'`},
	} {
		doc := page.Document{Title: "Plan", Wide: true, Blocks: []page.Block{page.Drawings{Views: []page.View{hall(c.wide, c.high)}}}}
		leaves := page.Compose([]page.Document{doc}, stampOn("a4", c.inches))
		if text := allTexts(leaves); len(leaves) != 1 || !strings.Contains(text, c.want+"\n") {
			t.Errorf("%v by %v m: %d leaves, want %s in\n%s", c.wide, c.high, len(leaves), c.want, text)
		}
	}
}

// Whatever the sizes, drawings lie inside their leaf, parts cover the whole, and texts of the
// sheet itself stand on the paper.
func TestDrawingsLieOnTheLeaf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wide, high := rapid.Float64Range(0.5, 300).Draw(t, "wide"), rapid.Float64Range(0.5, 120).Draw(t, "high")
		paper := rapid.SampledFrom([]string{"a4", "a3", "letter", "tabloid"}).Draw(t, "paper")
		doc := page.Document{Title: "Plan", Wide: rapid.Bool().Draw(t, "lying"), Blocks: []page.Block{
			page.Paragraph("Words before."),
			page.Drawings{Views: []page.View{hall(wide, high)}, Working: 100, Notes: []string{"A note."}, NoScale: rapid.Bool().Draw(t, "free")},
		}}
		for n, leaf := range page.Compose([]page.Document{doc}, stampOn(paper, rapid.Bool().Draw(t, "inches"))) {
			for _, l := range leaf.Laid {
				low := scene.Point{l.At[0] + l.Scene.Min[0]*l.Scale, l.At[1] + l.Scene.Min[1]*l.Scale}
				top := scene.Point{l.At[0] + l.Scene.Max[0]*l.Scale, l.At[1] + l.Scene.Max[1]*l.Scale}
				if l.Window != nil {
					low, top = l.Window[0], l.Window[1]
				}
				if min(low[0], low[1]) < -0.01 || top[0] > leaf.Width+0.01 || top[1] > leaf.Height+0.01 {
					t.Fatalf("leaf %d of %v by %v: from %v to %v", n+1, leaf.Width, leaf.Height, low, top)
				}
			}
		}
	})
}

// A long table goes on over leaves with its heads on each, every row once, none under the
// title block.
func TestTableGoesOn(t *testing.T) {
	table := page.Table{Columns: []page.Head{{Words: "number", Right: true}, {Words: "what", Wide: true}}}
	for range 200 {
		table.Rows = append(table.Rows, page.Row{Cells: []string{"1", "a thing with a name that is long enough to be broken over two lines at the least on upright paper of any size"}})
	}
	leaves := page.Compose([]page.Document{{Title: "List", Blocks: []page.Block{table}}}, stampOn("a4", false))
	text := allTexts(leaves)
	if heads := strings.Count(text, "number\n"); heads != len(leaves) || len(leaves) < 3 {
		t.Errorf("%d heads on %d leaves", heads, len(leaves))
	}
	if rows := strings.Count(text, "a thing with"); rows != 200 {
		t.Errorf("%d rows", rows)
	}
	for _, l := range leaves {
		for _, it := range l.Laid[len(l.Laid)-1].Scene.Layers[0].Items {
			if it.Text != nil && strings.HasPrefix(it.Text.Text, "a thing") && it.Text.At[1] < 25 {
				t.Errorf("a row at %.1f mm", it.Text.At[1])
			}
		}
	}
}

// The contents name the page on which each sheet begins, and pages are counted through.
func TestContents(t *testing.T) {
	docs := []page.Document{
		{Title: "First", Blocks: []page.Block{page.Paragraph("a"), page.Break{}, page.Paragraph("b")}},
		{Title: "Second", Blocks: []page.Block{page.Paragraph("c")}},
	}
	leaves := page.Compose(docs, stampOn("letter", false))
	if len(leaves) != 4 || leaves[0].Title != "Contents" || leaves[3].Title != "Second" {
		t.Fatalf("%d leaves", len(leaves))
	}
	if text := allTexts(leaves[:1]); !strings.Contains(text, "1\nFirst\n2\n") || !strings.Contains(text, "2\nSecond\n4\n") {
		t.Errorf("contents\n%s", text)
	}
	if text := allTexts(leaves[3:]); !strings.Contains(text, "4 / 4") {
		t.Errorf("no page number\n%s", text)
	}
}

// Lines are no wider than asked for, and no word is lost.
func TestWrap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[a-zA-ZäßЩ0-9 .,]{0,120}`).Draw(t, "text")
		wide := rapid.Float64Range(12, 90).Draw(t, "wide")
		var all strings.Builder
		for _, line := range page.Wrap(text, wide, 3) {
			if w := scene.PrintWidth(line, 3, false); w > wide+1e-9 {
				t.Fatalf("%q is %.1f mm wide, want %.1f", line, w, wide)
			}
			all.WriteString(line)
		}
		if got, want := strings.ReplaceAll(all.String(), " ", ""), strings.Join(strings.Fields(text), ""); got != want {
			t.Fatalf("%q of %q", got, want)
		}
	})
}

// The usual scales in order, and 1/4 in to the foot is 1:48.
func TestListOfScales(t *testing.T) {
	for _, inches := range []bool{false, true} {
		last := 0.0
		for _, s := range page.Scales(inches) {
			if s.Ratio <= last {
				t.Errorf("%s after 1:%v", s.Words, last)
			}
			last = s.Ratio
			if s.Words == `1/4" = 1'` && math.Abs(s.PerMetre()-1000.0/48) > 1e-9 {
				t.Errorf("%v mm to the metre", s.PerMetre())
			}
		}
	}
}
