package page

import (
	"time"

	"dropleg/internal/show/scene"
)

// Paper is a size of paper, upright, in mm.
type Paper struct {
	Name, Words   string
	Width, Height float64
}

// Papers lists the sizes, the one used where none is asked for first (ISO 216; ANSI/ASME Y14.1).
func Papers() []Paper {
	return []Paper{
		{"a4", "A4", 210, 297},
		{"a3", "A3", 297, 420},
		{"letter", "Letter", 215.9, 279.4},
		{"tabloid", "Tabloid, 11 × 17 in", 279.4, 431.8},
	}
}

// PaperOf is a size by its name; ok is false where there is none.
func PaperOf(name string) (p Paper, ok bool) {
	for _, p := range Papers() {
		if p.Name == name {
			return p, true
		}
	}
	return Papers()[0], false
}

// Stamp is what stands in the title block of every sheet.
type Stamp struct {
	Job      string
	By, Mark string // the user's own name, and the few letters of their mark
	Revision string
	Date     time.Time
	Paper    Paper
	Inches   bool // scales by the inch to the foot
}

// Document is one sheet, on as many leaves as it takes.
type Document struct {
	Title  string
	Wide   bool // landscape
	Bare   bool // no frame and no title block: to be cut apart
	Blocks []Block
}

// Block is one thing on a sheet: Heading, Paragraph, Table, Drawings, Chart, Shelf …
type Block interface {
	onto(c *composer)
}

// Heading stands over what follows and stays with it.
type Heading string

// Paragraph is words that flow.
type Paragraph string

// Break begins a new leaf.
type Break struct{}

// Compose lays documents out on leaves, each with its frame, and numbers them; where there is
// more than one, contents come first. Signs that cannot be set are told at the end of the
// sheet on which they stand.
func Compose(docs []Document, stamp Stamp) []scene.Leaf {
	all := make([]*composer, len(docs))
	for i := range docs {
		all[i] = compose(&docs[i], stamp)
	}
	if len(docs) > 1 {
		all = append([]*composer{contents(docs, all, stamp)}, all...)
	}
	total := 0
	for _, c := range all {
		total += len(c.leaves)
	}
	var out []scene.Leaf
	for sheet, c := range all {
		for k := range c.leaves {
			out = append(out, c.framed(k, sheet+min(1, 2-min(len(docs), 2)), len(out)+1, total))
		}
	}
	return out
}

// contents lists the sheets with the page on which each begins.
func contents(docs []Document, all []*composer, stamp Stamp) *composer {
	list := func(first int) *composer {
		t := Table{Columns: []Head{{Words: "sheet", Right: true}, {Words: "title", Wide: true}, {Words: "page", Right: true}}}
		at := first
		for i := range docs {
			t.Rows = append(t.Rows, Row{Cells: []string{numeral(i + 1), docs[i].Title, numeral(at)}})
			at += len(all[i].leaves)
		}
		about := stamp.Date.Format("2 January 2006")
		if stamp.By != "" {
			about = stamp.By + ", " + about
		}
		return compose(&Document{Title: "Contents", Blocks: []Block{Title(stamp.Job), Paragraph(about), t}}, stamp)
	}
	c := list(2)
	if n := len(c.leaves); n > 1 {
		c = list(n + 1)
	}
	return c
}
