package page

import (
	"strconv"
	"strings"

	"dropleg/internal/show/scene"
)

func numeral(n int) string { return strconv.Itoa(n) }

// framed is a leaf with its frame and title block. Sheet 0 is the contents.
func (c *composer) framed(k, sheet, at, total int) scene.Leaf {
	s := &c.leaves[k]
	leaf := scene.Leaf{Width: c.wide, Height: c.high}
	if k == 0 {
		leaf.Title = c.doc.Title
	}
	items := s.items
	if !c.doc.Bare {
		items = append(c.block(s, k, sheet, at, total), items...)
	}
	leaf.Laid = append(leaf.Laid, s.laid...)
	leaf.Laid = append(leaf.Laid, scene.Laid{Scale: 1, Scene: scene.Scene{
		Title: c.doc.Title, Max: scene.Point{c.wide, c.high}, Layers: []scene.Layer{{ID: "sheet", Title: "sheet", Items: items}},
	}})
	return leaf
}

// cell is one field of the title block.
type cell struct {
	wide        float64 // mm; 0: what is left
	label, text string
	bold        bool
}

// block draws the frame, and the title block along its lower edge.
func (c *composer) block(s *sheet, k, number, at, total int) []scene.Item {
	x0, x1, y0, y1 := edge, c.wide-edge, edge, c.high-edge
	items := []scene.Item{
		{Area: &scene.Area{Points: box(x0, y0, x1, y1), Stroke: &scene.Stroke{Width: 0.5, Color: "ink"}}},
		scene.Polyline("", "", scene.Solid(0.5, "ink"), scene.Point{x0, y0 + strip}, scene.Point{x1, y0 + strip}),
	}
	title, paper := c.doc.Title, c.stamp.Paper.Words
	if len(c.leaves) > 1 {
		title += ", leaf " + numeral(k+1) + " of " + numeral(len(c.leaves))
	}
	word := "–"
	if number > 0 {
		word = numeral(number)
	}
	cells := []cell{
		{wide: 0, label: or(c.stamp.By, "drawn with dropleg"), text: c.stamp.Job},
		{wide: 0, label: "sheet", text: title, bold: true},
		{wide: 22, label: "scale, on " + short(paper), text: or(s.scale, "–")},
		{wide: 24, label: "date", text: c.stamp.Date.Format("2006-01-02")},
		{wide: 15, label: "revision", text: or(c.stamp.Revision, "–")},
		{wide: 13, label: "sheet no.", text: word, bold: true},
		{wide: 16, label: "page", text: numeral(at) + " / " + numeral(total)},
	}
	if c.stamp.Mark != "" {
		cells = append([]cell{{wide: strip, text: c.stamp.Mark, bold: true}}, cells...)
	}
	rest, sharing := x1-x0, 0.0
	for _, f := range cells {
		if rest -= f.wide; f.wide == 0 {
			sharing++
		}
	}
	x := x0
	for i, f := range cells {
		if f.wide == 0 {
			f.wide = rest / sharing
		}
		items = append(items, c.field(f, x, y0)...)
		if x += f.wide; i+1 < len(cells) {
			items = append(items, scene.Polyline("", "", scene.Solid(0.25, "ink"), scene.Point{x, y0}, scene.Point{x, y0 + strip}))
		}
	}
	return items
}

// field writes a cell: its label small above, its text in as many lines as it takes.
func (c *composer) field(f cell, x, y float64) []scene.Item {
	const label = 2.2
	if f.label == "" { // the mark
		size := min(7, (f.wide-3)/max(scene.PrintWidth(f.text, 1, true), 0.1))
		it := scene.Words("", f.text, scene.Point{x + f.wide/2, y + strip/2 - size*0.35}, scene.Point{}, size, "middle", "ink")
		it.Text.Bold = true
		ring := scene.Item{Arc: &scene.Arc{Centre: scene.Point{x + f.wide/2, y + strip/2}, Radius: strip/2 - 1.2, From: 0, To: 360, Stroke: scene.Solid(0.4, "ink")}}
		return []scene.Item{it, ring}
	}
	var items []scene.Item
	low := y + strip - 3.4
	for _, line := range first(wrap(f.label, f.wide-2, label, false), 2) {
		items = append(items, scene.Words("", line, scene.Point{x + 1.2, low}, scene.Point{}, label, "start", "soft"))
		low -= label * 1.2
	}
	low += label*1.2 - 1.6 // beneath the label
	size := 3.4
	lines := wrap(f.text, f.wide-2.4, size, f.bold)
	for float64(len(lines))*size*1.2 > low-y-1 && size > 2.2 {
		size -= 0.2
		lines = wrap(f.text, f.wide-2.4, size, f.bold)
	}
	for i, line := range first(lines, int((low-y-1)/(size*1.2))) {
		it := scene.Words("", line, scene.Point{x + 1.2, low - size - float64(i)*size*1.2}, scene.Point{}, size, "start", "ink")
		it.Text.Bold = f.bold
		items = append(items, it)
	}
	return items
}

// first are as many lines as have room, with a sign for the last word where there are more.
func first(lines []string, most int) []string {
	if len(lines) <= most {
		return lines
	}
	lines = lines[:most]
	last := lines[most-1]
	if blank := strings.LastIndexByte(last, ' '); blank > 0 {
		lines[most-1] = last[:blank] + " …"
		return lines
	}
	letters := []rune(last) // one long word
	lines[most-1] = string(letters[:max(len(letters)-2, 0)]) + "…"
	return lines
}

func box(x0, y0, x1, y1 float64) []scene.Point {
	return []scene.Point{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

func or(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// short is a paper's name without its size.
func short(words string) string {
	for i, r := range words {
		if r == ',' {
			return words[:i]
		}
	}
	return words
}
