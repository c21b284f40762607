package scene

import (
	"bufio"
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
)

// Theme gives each colour role its colour, as SVG writes colours.
type Theme map[string]string

// Daylight is the theme of paper: the one for printed sheets and galleries.
func Daylight() Theme {
	return Theme{
		"ink": "#22282b", "soft": "#5c646a", "faint": "#d9d5c6", "wall": "#22282b", "floor": "#fffef8",
		"thing": "#efeadb", "line": "#0b5563", "accent": "#a83a12", "alarm": "#a83a12", "good": "#1b6b52", "paper": "#f6f4ec", "marker": "#00558c",
		"ramp-0": "#0a4a63", "ramp-1": "#1c6f86", "ramp-2": "#3a8a7c", "ramp-3": "#7d8a32", "ramp-4": "#b27a14", "ramp-5": "#a83a12",
	}
}

// WriteSVG writes the scene as an SVG document at mmPerMetre millimetres of
// paper to the metre, with a margin in mm around the geometry. The same scene
// gives the same bytes. A colour role that the theme lacks is written as black.
func WriteSVG(w io.Writer, s Scene, theme Theme, mmPerMetre, margin float64) error {
	p := svgWriter{w: bufio.NewWriter(w), theme: theme, scale: mmPerMetre}
	p.origin = Point{s.Min[0]*mmPerMetre - margin, s.Max[1]*mmPerMetre + margin}
	width := (s.Max[0]-s.Min[0])*mmPerMetre + 2*margin
	height := (s.Max[1]-s.Min[1])*mmPerMetre + 2*margin
	p.head(s.Title, width, height)
	for _, layer := range s.Layers {
		p.put(`<g id="`, escape(layer.ID), `">`, "\n")
		for _, item := range layer.Items {
			p.item(item)
		}
		p.put("</g>\n")
	}
	p.put("</svg>\n")
	return p.w.Flush()
}

// head opens a document of a size in mm, with its ground and the hatching.
func (p *svgWriter) head(title string, width, height float64) {
	p.put(`<svg xmlns="http://www.w3.org/2000/svg" width="`, mm(width), `mm" height="`, mm(height),
		`mm" viewBox="0 0 `, mm(width), " ", mm(height), `" font-family="sans-serif">`, "\n")
	p.put("<title>", escape(title), "</title>\n")
	p.put(`<defs><pattern id="hatch" width="2" height="2" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">`,
		`<path d="M0 0V2" stroke="`, p.color("faint"), `" stroke-width="0.3"/></pattern></defs>`, "\n")
	p.put(`<rect width="100%" height="100%" fill="`, p.color("paper"), `"/>`, "\n")
}

// svgWriter keeps the first write error inside its bufio.Writer.
type svgWriter struct {
	w      *bufio.Writer
	theme  Theme
	scale  float64
	origin Point // paper place of the top left corner
	print  bool  // words take the width that they have in print, whatever face stands in for it
}

func (p *svgWriter) put(parts ...string) {
	for _, s := range parts {
		_, _ = p.w.WriteString(s) // bufio keeps the error; Flush returns it
	}
}

func (p *svgWriter) color(role string) string {
	if role == "none" || role == "" {
		return "none"
	}
	if c, ok := p.theme[role]; ok {
		return c
	}
	return "#000"
}

func (p *svgWriter) at(q Point) (x, y string) {
	return mm(q[0]*p.scale - p.origin[0]), mm(p.origin[1] - q[1]*p.scale)
}

func (p *svgWriter) item(it Item) {
	if !it.places() {
		return
	}
	p.put("<g")
	if it.ID != "" {
		p.put(` data-id="`, escape(it.ID), `"`)
	}
	p.put(">")
	if it.Title != "" {
		p.put("<title>", escape(it.Title), "</title>")
	}
	switch {
	case it.Line != nil:
		p.put(`<path d="`, p.outline(it.Line.Points), `" fill="none"`)
		p.stroke(&it.Line.Stroke)
		p.put("/>")
	case it.Area != nil:
		p.area(it.Area)
	case it.Arc != nil:
		p.arc(it.Arc)
	case it.Text != nil:
		p.text(it.Text)
	case it.Mark != nil:
		p.mark(it.Mark)
	}
	p.put("</g>\n")
}

func (p *svgWriter) outline(points []Point) string {
	var b strings.Builder
	for i, q := range points {
		x, y := p.at(q)
		if i == 0 {
			b.WriteString("M")
		} else {
			b.WriteString("L")
		}
		b.WriteString(x + " " + y)
	}
	return b.String()
}

func (p *svgWriter) area(a *Area) {
	d := p.outline(a.Points) + "Z"
	p.put(`<path d="`, d, `" fill="`, p.color(a.Fill), `"`)
	p.stroke(a.Stroke)
	p.put("/>")
	if a.Hatch != "" {
		p.put(`<path d="`, d, `" fill="url(#hatch)"/>`)
	}
}

func (p *svgWriter) arc(a *Arc) {
	on := func(deg float64) Point {
		sin, cos := math.Sincos(deg * math.Pi / 180)
		return Point{a.Centre[0] + a.Radius*cos, a.Centre[1] + a.Radius*sin}
	}
	x0, y0 := p.at(on(a.From))
	x1, y1 := p.at(on(a.To))
	large := "0"
	if math.Mod(a.To-a.From+720, 360) > 180 {
		large = "1"
	}
	r := mm(a.Radius * p.scale)
	p.put(`<path d="M`, x0, " ", y0, "A", r, " ", r, " 0 ", large, " 0 ", x1, " ", y1, `" fill="none"`)
	p.stroke(&a.Stroke)
	p.put("/>")
}

func (p *svgWriter) text(t *Text) {
	x, y := p.at(Point{t.At[0] + t.Offset[0]/p.scale, t.At[1] + t.Offset[1]/p.scale})
	p.put(`<text x="`, x, `" y="`, y, `" font-size="`, mm(t.Size), `" fill="`, p.color(t.Color), `"`)
	if t.Anchor != "" && t.Anchor != "start" {
		p.put(` text-anchor="`, escape(t.Anchor), `"`)
	}
	if t.Bold {
		p.put(` font-weight="bold"`)
	}
	if wide := PrintWidth(t.Text, t.Size, t.Bold); p.print && wide > 0 {
		p.put(` textLength="`, mm(wide), `" lengthAdjust="spacingAndGlyphs"`)
	}
	if t.Turn != 0 {
		p.put(` transform="rotate(`, mm(-t.Turn), " ", x, " ", y, `)"`)
	}
	p.put(">", escape(t.Text), "</text>")
}

func (p *svgWriter) mark(m *Mark) {
	x, y := p.at(m.At)
	p.put(`<g transform="translate(`, x, " ", y, ") rotate(", mm(-m.Turn), `) scale(1 -1)">`)
	for _, part := range m.Parts {
		p.put(`<path d="`, escape(part.D), `" fill="`, p.color(part.Fill), `"`)
		p.stroke(part.Stroke)
		p.put("/>")
	}
	p.put("</g>")
}

func (p *svgWriter) stroke(s *Stroke) {
	if s == nil {
		return
	}
	p.put(` stroke="`, p.color(s.Color), `" stroke-width="`, mm(s.Width), `"`)
	if s.Round {
		p.put(` stroke-linecap="round" stroke-linejoin="round"`)
	}
	if len(s.Dash) > 0 {
		d := make([]string, len(s.Dash))
		for i, v := range s.Dash {
			d[i] = mm(v)
		}
		p.put(` stroke-dasharray="`, strings.Join(d, " "), `"`)
	}
}

// mm prints a paper length to a hundredth of a millimetre, finer than any pen.
func mm(v float64) string {
	s := strconv.FormatFloat(v, 'f', 2, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

func escape(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a strings.Builder never fails
	return b.String()
}
