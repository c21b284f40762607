package page

import (
	"strconv"
	"strings"

	"dropleg/internal/show/scene"
)

// The parts of a leaf in mm.
const (
	edge       = 8.0  // from the paper's edge to the frame: printers do not reach farther
	inner      = 4.0  // from the frame to what stands in it
	strip      = 17.0 // height of the title block
	bodyType   = 3.2
	smallType  = 2.6
	headType   = 4.2
	titleType  = 7.0
	lineHeight = 1.4 // of the size of type
)

// composer lays one document out.
type composer struct {
	doc    *Document
	stamp  Stamp
	wide   float64 // of the paper
	high   float64
	leaves []sheet
	y      float64 // where the next block begins, mm from the lower edge
}

// sheet is a leaf on its way: what stands on it, and the drawings laid on it.
type sheet struct {
	items []scene.Item
	laid  []scene.Laid
	scale string // of its drawings
}

func compose(d *Document, stamp Stamp) *composer {
	c := &composer{doc: d, stamp: stamp, wide: stamp.Paper.Width, high: stamp.Paper.Height}
	if d.Wide {
		c.wide, c.high = c.high, c.wide
	}
	c.turn()
	for i, b := range d.Blocks {
		if _, heads := b.(Heading); heads && i+1 < len(d.Blocks) {
			c.need(headType*lineHeight*2 + c.follows(d.Blocks[i+1:]))
		}
		b.onto(c)
	}
	if n := c.unset(); n > 0 {
		Paragraph(strconv.Itoa(n) + " signs cannot be set here and stand as □: the type has Latin, Greek and Cyrillic. The job file keeps them.").onto(c)
	}
	return c
}

// unset counts the signs that cannot be set, of what stands on the leaves and in the title block.
func (c *composer) unset() int {
	n := 0
	if !c.doc.Bare {
		n = scene.Unset(c.stamp.Job + c.stamp.By + c.stamp.Mark + c.stamp.Revision)
	}
	count := func(items []scene.Item) {
		for i := range items {
			if t := items[i].Text; t != nil {
				n += scene.Unset(t.Text)
			}
		}
	}
	for i := range c.leaves {
		count(c.leaves[i].items)
		for k := range c.leaves[i].laid {
			for _, l := range c.leaves[i].laid[k].Scene.Layers {
				count(l.Items)
			}
		}
	}
	return n
}

// keep is how much of what follows stays with its heading at least, mm.
const keep = 18

// follows is how much of what follows a heading has to stay with it: words up to the first
// chart or table, and that chart, or a table that stands on one leaf, whole.
func (c *composer) follows(rest []Block) float64 {
	sum := 0.0
	for _, b := range rest {
		switch x := b.(type) {
		case Paragraph:
			sum += float64(len(wrap(string(x), c.right()-c.left(), bodyType, false)))*bodyType*lineHeight + bodyType*0.5
			continue
		case Chart:
			high := (x.Scene.Max[1] - x.Scene.Min[1]) * x.Scale
			if x.Row > 0 {
				high = min(high, 2*x.Row*x.Scale)
			}
			sum += high
		case Table:
			if x.Whole {
				sum += x.high(c)
			}
		}
		break
	}
	return min(max(sum, keep), (c.top()-c.bottom())/2)
}

// left, right, top and bottom are the edges of what may be written on.
func (c *composer) left() float64  { return edge + inner }
func (c *composer) right() float64 { return c.wide - edge - inner }
func (c *composer) top() float64   { return c.high - edge - inner }
func (c *composer) bottom() float64 {
	if c.doc.Bare {
		return edge + inner
	}
	return edge + strip + inner
}

// turn begins a leaf.
func (c *composer) turn() {
	c.leaves = append(c.leaves, sheet{})
	c.y = c.top()
}

// need begins a leaf where less than so many mm are left; not on one that is empty.
func (c *composer) need(mm float64) {
	if c.y-mm < c.bottom() && c.y < c.top() {
		c.turn()
	}
}

func (c *composer) now() *sheet { return &c.leaves[len(c.leaves)-1] }

func (c *composer) put(items ...scene.Item) { c.now().items = append(c.now().items, items...) }

// write sets a text with its baseline at a place.
func (c *composer) write(text string, x, y, size float64, anchor string, bold bool) {
	if text == "" {
		return
	}
	it := scene.Words("", text, scene.Point{x, y}, scene.Point{}, size, anchor, "ink")
	it.Text.Bold = bold
	c.put(it)
}

// Title is the large words of a first leaf.
type Title string

func (t Title) onto(c *composer) { c.flow(string(t), titleType, true) }

func (h Heading) onto(c *composer) {
	if c.y < c.top() {
		c.y -= headType * 0.6
	}
	c.flow(string(h), headType, true)
	c.y -= 1
}

func (p Paragraph) onto(c *composer) {
	c.flow(string(p), bodyType, false)
	c.y -= bodyType * 0.5
}

func (Break) onto(c *composer) {
	if c.y < c.top() {
		c.turn()
	}
}

// flow sets words in lines, on further leaves where they do not end on this one.
func (c *composer) flow(text string, size float64, bold bool) {
	for _, line := range wrap(text, c.right()-c.left(), size, bold) {
		c.need(size * lineHeight)
		c.write(line, c.left(), c.y-size, size, "start", bold)
		c.y -= size * lineHeight
	}
}

// wrap breaks words into lines of a width in mm; a word that is longer is broken within.
func wrap(text string, wide, size float64, bold bool) []string {
	var lines []string
	line := ""
	fits := func(s string) bool { return scene.PrintWidth(s, size, bold) <= wide }
	for _, word := range together(strings.Fields(text)) {
		if line != "" && fits(line+" "+word) {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for !fits(word) {
			n := cutAt(word, fits)
			lines = append(lines, word[:n])
			word = word[n:]
		}
		line = word
	}
	return append(lines, line)
}

// together joins the words that a line is not broken between: a figure and its unit, and the
// parts of a length in feet and inches.
func together(words []string) []string {
	var out []string
	for i, w := range words {
		if n := len(out); i > 0 && oneFigure(words[i-1], w) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func oneFigure(a, b string) bool {
	figure := func(s string) bool { return s != "" && strings.Trim(s, "0123456789./") == "" }
	b = strings.TrimRight(b, ",;.)")
	switch b {
	case "ft", "in", "mm", "m", "psi", "bar", "gal", "L", "min", "h":
		return figure(a)
	}
	return figure(b) && (a == "ft" || figure(a) && strings.Contains(b, "/"))
}

// cutAt is how many bytes of a word fit, at least its first sign.
func cutAt(word string, fits func(string) bool) int {
	n := 0
	for i, r := range word {
		end := i + len(string(r))
		if n > 0 && !fits(word[:end]) {
			break
		}
		n = end
	}
	return n
}

// Room is how wide and high, in mm, what stands on a leaf of a document may be.
func Room(p Paper, wide bool) (w, h float64) {
	w, h = p.Width, p.Height
	if wide {
		w, h = h, w
	}
	return w - 2*(edge+inner), h - 2*(edge+inner) - strip
}

// Wrap breaks words into lines of a width in mm at a size of type.
func Wrap(text string, wide, size float64) []string { return wrap(text, wide, size, false) }
