package scene

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// About is what a document says of itself.
type About struct {
	Title, Author, Subject string
	Date                   time.Time // of the document: the clock is not asked
}

// WritePDF writes leaves as pages of a PDF document, with its faces embedded and a bookmark
// to each titled leaf. The same leaves give the same bytes.
func WritePDF(w io.Writer, leaves []Leaf, theme Theme, about About) error {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	doc.SetCatalogSort(true)
	doc.SetCreationDate(about.Date.UTC())
	doc.SetModificationDate(about.Date.UTC())
	doc.SetTitle(about.Title, true)
	doc.SetAuthor(about.Author, true)
	doc.SetSubject(about.Subject, true)
	doc.SetCreator("dropleg", true)
	doc.SetProducer("dropleg", true)
	doc.SetLang("en")
	doc.SetAutoPageBreak(false, 0)
	doc.SetMargins(0, 0, 0)
	doc.AddUTF8FontFromBytes(family, "", goregular.TTF)
	doc.AddUTF8FontFromBytes(family, "B", gobold.TTF)
	for _, leaf := range leaves {
		doc.AddPageFormat("P", fpdf.SizeType{Wd: leaf.Width, Ht: leaf.Height})
		if leaf.Title != "" {
			doc.Bookmark(Printable(leaf.Title), 0, 0)
		}
		for i := range leaf.Laid {
			p := pdfWriter{doc, theme, &leaf.Laid[i], leaf.Height}
			p.paint()
		}
	}
	if err := doc.Output(w); err != nil {
		return fmt.Errorf("writing the PDF: %w", err)
	}
	return nil
}

const family = "go"

// pdfWriter paints one drawing on the page that is open. fpdf keeps the first error.
type pdfWriter struct {
	doc   *fpdf.Fpdf
	theme Theme
	laid  *Laid
	high  float64 // of the page, whose y runs down
}

func (p *pdfWriter) paint() {
	if w := p.laid.Window; w != nil {
		p.doc.ClipRect(w[0][0], p.high-w[1][1], w[1][0]-w[0][0], w[1][1]-w[0][1], false)
		defer p.doc.ClipEnd()
	}
	for i := range p.laid.Scene.Layers {
		for k := range p.laid.Scene.Layers[i].Items {
			p.item(&p.laid.Scene.Layers[i].Items[k])
		}
	}
}

// chordal is how far chords lie from their arcs on paper, mm: less than a printer's dot.
const chordal = 0.01

func (p *pdfWriter) item(it *Item) {
	switch {
	case !it.places():
	case it.Line != nil:
		p.shape([]stretch{{points: p.all(it.Line.Points)}}, "", &it.Line.Stroke)
	case it.Area != nil:
		p.area(it.Area)
	case it.Arc != nil:
		p.shape([]stretch{{points: p.all(it.Arc.points(chordal / p.laid.Scale))}}, "", &it.Arc.Stroke)
	case it.Text != nil:
		p.text(it.Text)
	case it.Mark != nil:
		p.mark(it.Mark)
	}
}

// all are places of the drawing on the page.
func (p *pdfWriter) all(points []Point) []Point {
	out := make([]Point, len(points))
	for i, q := range points {
		q = p.laid.on(q)
		out[i] = Point{q[0], p.high - q[1]}
	}
	return out
}

func (p *pdfWriter) area(a *Area) {
	points := p.all(a.Points)
	p.shape([]stretch{{points, true}}, a.Fill, a.Stroke)
	if a.Hatch == "" {
		return
	}
	faint := Solid(hatchWidth, "faint")
	for _, falling := range hatchWays(a.Hatch) {
		for _, s := range hatch(points, hatchStep, falling) {
			p.shape([]stretch{{points: s[:]}}, "", &faint)
		}
	}
}

// Hatching on paper, in mm.
const (
	hatchStep  = 2
	hatchWidth = 0.18
)

// hatchWays are the directions of a hatching, falling or not.
func hatchWays(name string) []bool {
	return map[string][]bool{"diagonal": {false}, "cross": {false, true}}[name]
}

// shape fills and strokes parts of a path.
func (p *pdfWriter) shape(parts []stretch, fill string, s *Stroke) {
	filled := fill != "" && fill != "none"
	stroked := s != nil && s.Color != "none" && s.Width > 0
	if !filled && !stroked {
		return
	}
	style := "D"
	if filled {
		p.doc.SetFillColor(rgb(p.theme, fill))
		style = "F"
		if stroked {
			style = "FD"
		}
	}
	if stroked {
		p.pen(s)
	}
	drawn := false
	for _, part := range parts {
		if len(part.points) < 2 {
			continue
		}
		drawn = true
		for i, q := range part.points {
			if i == 0 {
				p.doc.MoveTo(q[0], q[1])
				continue
			}
			p.doc.LineTo(q[0], q[1])
		}
		if part.closed {
			p.doc.ClosePath()
		}
	}
	if drawn {
		p.doc.DrawPath(style)
	}
}

func (p *pdfWriter) pen(s *Stroke) {
	p.doc.SetDrawColor(rgb(p.theme, s.Color))
	p.doc.SetLineWidth(s.Width)
	ends, corners := "butt", "miter"
	if s.Round {
		ends, corners = "round", "round"
	}
	p.doc.SetLineCapStyle(ends)
	p.doc.SetLineJoinStyle(corners)
	p.doc.SetDashPattern(s.Dash, 0)
}

func (p *pdfWriter) text(t *Text) {
	at := p.laid.on(t.At)
	x, y := at[0]+t.Offset[0], p.high-at[1]-t.Offset[1]
	if t.Text == "" || t.Size <= 0 {
		return
	}
	style := ""
	if t.Bold {
		style = "B"
	}
	text := Printable(t.Text)
	p.doc.SetFont(family, style, 10)
	p.doc.SetFontUnitSize(t.Size)
	p.doc.SetTextColor(rgb(p.theme, t.Color))
	left := x
	switch t.Anchor {
	case "middle":
		left -= PrintWidth(text, t.Size, t.Bold) / 2
	case "end":
		left -= PrintWidth(text, t.Size, t.Bold)
	}
	if t.Turn != 0 {
		p.doc.TransformBegin()
		p.doc.TransformRotate(t.Turn, x, y)
		defer p.doc.TransformEnd()
	}
	p.doc.Text(left, y, text)
}

func (p *pdfWriter) mark(m *Mark) {
	at := p.laid.on(m.At)
	for _, part := range m.Parts {
		shape := outlines(part.D, chordal)
		for i := range shape {
			for k, q := range shape[i].points {
				q = turn(q, m.Turn)
				shape[i].points[k] = Point{at[0] + q[0], p.high - at[1] - q[1]}
			}
		}
		p.shape(shape, part.Fill, part.Stroke)
	}
}

// turn turns a place about 0, 0 by degrees.
func turn(q Point, degrees float64) Point {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return Point{q[0]*cos - q[1]*sin, q[0]*sin + q[1]*cos}
}

// rgb is the colour of a role; black where the theme lacks it.
func rgb(theme Theme, role string) (r, g, b int) {
	c := theme[role]
	if len(c) != 7 {
		return 0, 0, 0
	}
	v, err := strconv.ParseUint(c[1:], 16, 32)
	if err != nil {
		return 0, 0, 0
	}
	return int(v >> 16), int(v >> 8 & 0xff), int(v & 0xff)
}
