package sheet

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

func labelsSheet() Sheet {
	return Sheet{
		Name: "labels", Title: "Labels to cut out", Audience: "who marks the lines", Needs: "a line or an outlet", Wide: true, Bare: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			take, err := m.take(ctx)
			if err != nil {
				return nil, err
			}
			markers, err := m.markers()
			if err != nil {
				return nil, err
			}
			outlets, err := m.outletLabels()
			if err != nil {
				return nil, err
			}
			joints, err := m.jointLabels(take)
			if err != nil {
				return nil, err
			}
			blocks := markers
			for _, group := range []struct {
				title string
				shelf page.Shelf
			}{{"Outlets", outlets}, {"Joints: a tag to each, for finding and for records", joints}} {
				if len(group.shelf) > 0 {
					blocks = append(blocks, page.Break{}, page.Heading(group.title), group.shelf)
				}
			}
			return blocks, nil
		},
	}
}

// lettering is a row of the size table of ASME A13.1 (testdata/ref/piping/labels.csv): for lines
// up to an outside diameter, covering included, the least height of letters and length of the
// field. All in mm. A thinner line than least has a tag in place of a marker.
type lettering struct{ upTo, letters, field float64 }

const leastMarked = 19.0 // 3/4 in

func letterings() []lettering {
	return []lettering{{32, 13, 200}, {51, 19, 200}, {153, 32, 300}, {255, 64, 600}, {math.Inf(1), 89, 800}}
}

func letteringFor(outside float64) lettering {
	for _, l := range letterings() {
		if outside <= l.upTo {
			return l
		}
	}
	return letterings()[0]
}

// lineSize is one size of line that is marked.
type lineSize struct {
	words   string
	outside float64 // mm
	metres  float64
}

// lineSizes are the sizes of the lines, the thickest first.
func (m *Maker) lineSizes() []lineSize {
	var all []lineSize
	for i := range m.job.Net.Runs {
		r := &m.job.Net.Runs[i]
		size, ok := m.study.Catalog().Size(r.Stock, r.Size)
		if !ok || r.State == "stub" || r.Role == "link" {
			continue
		}
		words := m.stockWords(r.Stock, r.Size)
		k := slices.IndexFunc(all, func(l lineSize) bool { return l.words == words })
		if k < 0 {
			k = len(all)
			all = append(all, lineSize{words: words, outside: 1000 * float64(size.Outside)})
		}
		if l, known := m.index.LengthOf(r); known {
			all[k].metres += float64(l)
		}
	}
	slices.SortStableFunc(all, func(a, b lineSize) int { return cmp.Compare(b.outside, a.outside) })
	return all
}

// pressureWords is the highest pressure that the compressors make, for the legend.
func (m *Maker) pressureWords() string {
	top := unit.GaugePressure(0)
	for i := range m.job.Net.Points {
		if c := m.job.Net.Points[i].Part.Compressor; c != nil && c.CutOut != nil {
			top = max(top, *c.CutOut)
		}
	}
	if top == 0 {
		return ""
	}
	return m.plain(unit.KindGauge, float64(top))
}

// markers are the pipe markers, one of each height of letters with an arrow to either side.
func (m *Maker) markers() ([]page.Block, error) {
	var blocks []page.Block
	wide, _ := page.Room(m.options.Paper, true)
	done := map[float64]bool{}
	for _, l := range m.lineSizes() {
		if l.outside < leastMarked {
			continue
		}
		a := letteringFor(l.outside)
		if done[a.letters] {
			continue
		}
		done[a.letters] = true
		words := m.sameLettering(a)
		lines := legendLines(a, m.pressureWords(), wide)
		if lines == nil {
			blocks = append(blocks, page.Heading("Pipe markers for "+words), page.Paragraph(fmt.Sprintf("Letters of %.0f mm have no room on this paper: print the labels on a larger one.", a.letters)))
			continue
		}
		blocks = append(blocks, page.Heading("Pipe markers for "+words),
			page.Paragraph(fmt.Sprintf("Letters %.0f mm high on a field of %.0f mm or more, white on safety blue (ASME A13.1). Beside valves and outlets, both sides of a wall, where the line turns, and every 7.6 to 15 m (25 to 50 ft).", a.letters, a.field)),
			page.Shelf{marker(a, lines, true), marker(a, lines, false)})
	}
	var thin []string
	for _, l := range m.lineSizes() {
		if l.outside < leastMarked {
			thin = append(thin, l.words)
		}
	}
	if len(thin) > 0 {
		blocks = append(blocks, page.Paragraph("Tags, not markers, for lines under 3/4 in (19 mm) outside: "+strings.Join(thin, "; ")+"."))
	}
	return blocks, nil
}

func (m *Maker) sameLettering(a lettering) string {
	var all []string
	for _, l := range m.lineSizes() {
		if l.outside >= leastMarked && letteringFor(l.outside) == a {
			all = append(all, l.words)
		}
	}
	return strings.Join(all, "; ")
}

// capital is the height of capitals of the type in shares of its size (of the face itself).
const capital = 0.72

// legendLines sets the words of a marker in as many lines as have room; nil where a word alone
// has none.
func legendLines(a lettering, pressure string, room float64) []string {
	size := a.letters / capital
	fits := func(text string) bool {
		return scene.PrintWidth(text, size, true)+2*a.letters*arrowShare+a.letters <= room-2
	}
	for _, try := range [][]string{{"COMPRESSED AIR " + pressure}, {"COMPRESSED AIR", pressure}, {"COMPRESSED", "AIR " + pressure}} {
		ok := true
		for _, line := range try {
			ok = ok && fits(line)
		}
		if ok {
			return slices.DeleteFunc(try, func(s string) bool { return strings.TrimSpace(s) == "" })
		}
	}
	return nil
}

// arrowShare is how long an arrow is in heights of letters.
const arrowShare = 1.5

// marker is one pipe marker with its arrow on the right or on the left.
func marker(a lettering, lines []string, right bool) page.Chart {
	size := a.letters / capital
	wide := 0.0
	for _, line := range lines {
		wide = max(wide, scene.PrintWidth(line, size, true))
	}
	arrow := a.letters * arrowShare
	wide = max(wide+2*arrow+a.letters, a.field)
	high := a.letters * (1.5*float64(len(lines)) + 0.5)
	s := scene.Scene{Title: "pipe marker", Max: scene.Point{wide, high}}
	items := []scene.Item{{Area: &scene.Area{Points: rectangle(0, 0, wide, high), Fill: "marker", Stroke: &scene.Stroke{Width: 0.2, Color: "ink"}}}}
	for i, line := range lines {
		it := scene.Words("", line, scene.Point{wide / 2, high - a.letters*(1.5*float64(i)+1.5)}, scene.Point{}, size, "middle", "paper")
		it.Text.Bold = true
		items = append(items, it)
	}
	x, way := a.letters*0.25, -1.0
	if right {
		x, way = wide-a.letters*0.25, 1
	}
	t := a.letters / 2
	tip := scene.Area{Fill: "paper", Points: []scene.Point{
		{x, high / 2},
		{x - way*t*1.4, high/2 + t},
		{x - way*t*1.4, high/2 + t*0.4},
		{x - way*arrow, high/2 + t*0.4},
		{x - way*arrow, high/2 - t*0.4},
		{x - way*t*1.4, high/2 - t*0.4},
		{x - way*t*1.4, high/2 - t},
	}}
	s.Layers = []scene.Layer{{ID: "label", Title: "label", Items: append(items, scene.Item{Area: &tip})}}
	return page.Chart{Scene: s, Scale: 1}
}

func rectangle(x0, y0, x1, y1 float64) []scene.Point {
	return []scene.Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// Lettering is the least height of letters and the least length of the field, in mm, on a line of
// an outside diameter in mm.
func Lettering(outside float64) (letters, field float64) {
	l := letteringFor(outside)
	return l.letters, l.field
}
