package draw

import (
	"strings"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/scene"
)

// Sizes of the diagram's words in mm of paper, and the room for turned words under
// a dial.
const (
	flowText  = 2.3
	turnedFor = 38.0
	wrapAt    = 16.0 // mm, names under symbols
	// How far drops stand apart, with level and with turned words.
	widePitch, closePitch = 26.0, 12.0
	fewDrops              = 12 // up to as many, words stand level under their dials
)

// growth is how large a kind's symbol is at full size.
func growth(k catalog.Kind) float64 {
	switch {
	case k.Has(catalog.Supplies), k.Has(catalog.Stores):
		return 0.9
	case k.Group == catalog.Treatment:
		return 0.8
	}
	return 0.68
}

// columns gathers the drops under a node.
func (f *flow) columns(v int, g Given, s Sheet) {
	c := &f.cells[v]
	if f.net.served[v] > 0 {
		c.columns = append(c.columns, f.column(v, nil, g, s))
	}
	for _, u := range f.net.hung[v] {
		if f.net.hang[u] == onDrop {
			c.columns = append(c.columns, f.column(v, f.down(u), g, s))
		}
	}
}

// down lists a drop's nodes from its first to its outlet's.
func (f *flow) down(u int) []int {
	nodes := []int{u}
	for {
		next := -1
		for _, w := range f.net.hung[nodes[len(nodes)-1]] {
			if f.net.hang[w] == onDrop {
				next = w
			}
		}
		if next < 0 {
			return nodes
		}
		nodes = append(nodes, next)
	}
}

// column measures one drop.
func (f *flow) column(v int, nodes []int, g Given, s Sheet) column {
	d := column{root: -1, nodes: nodes, deep: 3}
	last := v
	if len(nodes) > 0 {
		d.root, last = nodes[0], nodes[len(nodes)-1]
	}
	for _, u := range nodes {
		d.deep += 2*f.half(u) + 1.2
	}
	d.wide = f.pitch * float64(max(f.net.served[last], 1))
	d.words = 7 + 4
	if f.pitch < 20 {
		d.words += turnedFor
	} else {
		lines := 0
		for _, o := range g.Index.OutletsAt(f.net.points[last].ID) {
			lines = max(lines, len(level(g, s, o, f.pitch-1.5)))
		}
		d.words += float64(lines) * flowText * 1.25
	}
	return d
}

// half is half the length of a node's symbol along the line.
func (f *flow) half(v int) float64 {
	k := f.net.kinds[v]
	if _, shows := drawnAs(k); f.net.points[v] == nil || !shows {
		return 0.5
	}
	e := extentOf(k.Symbol)
	return (e.x1 - e.x0) / 2 * growth(k)
}

// size measures a node with its symbol, its name and what hangs aside.
func (f *flow) size(v int, blocked bool, g Given, s Sheet) {
	c, k := &f.cells[v], f.net.kinds[v]
	c.left, c.right, c.up, c.down = f.half(v), f.half(v), laneBody, laneBody
	pt := f.net.points[v]
	if pt == nil {
		return
	}
	if tier, shows := drawnAs(k); shows {
		e := extentOf(k.Symbol)
		c.up, c.down = max(c.up, e.y1*growth(k)), max(c.down, -e.y0*growth(k))
		if tier == machine {
			lines := machineWords(g, s, *pt, k)
			wide := 0.0
			for _, t := range lines {
				wide = max(wide, scene.TextWidth(t, flowText, false))
			}
			c.left, c.right = max(c.left, wide/2-0.4), max(c.right, wide/2-0.4)
			c.down += float64(len(lines))*flowText*1.2 + 1.2
		}
	}
	for _, u := range f.net.hung[v] {
		if f.net.hang[u] != aside {
			continue
		}
		if f.drains(u) {
			c.down = max(c.down, 12)
		} else {
			c.up = max(c.up, 11)
		}
	}
	off := 0.0
	if blocked {
		off = f.pitch / 2
	}
	for i := range c.columns {
		c.columns[i].off = off
		off += c.columns[i].wide
	}
}

// drains says whether what hangs aside lets water out, and so hangs down.
func (f *flow) drains(u int) bool {
	if f.net.kinds[u].Has(catalog.Drains) {
		return true
	}
	for _, w := range f.net.hung[u] {
		if f.drains(w) {
			return true
		}
	}
	return false
}

// machineWords are the name and the plate of a machine, in short lines.
func machineWords(g Given, s Sheet, pt job.Point, k catalog.Kind) []string {
	p := &planner{given: g, sheet: s}
	text := or(pt.Name, k.Name("en"))
	lines := wrapped(text, flowText, wrapAt)
	if plate := p.plateWords(pt.Part); plate != "" {
		lines = append(lines, wrapped(plate, flowText, wrapAt)...)
	}
	return lines
}

// wrapped breaks a text at its spaces into lines of a width in mm; a word that is
// wider stands alone.
func wrapped(text string, size, width float64) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(text) {
		longer := w
		if line != "" {
			longer = line + " " + w
		}
		if line != "" && scene.TextWidth(longer, size, false) > width {
			lines = append(lines, line)
			longer = w
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// cropped shortens a text to a width in mm.
func cropped(text string, size, width float64) string {
	if scene.TextWidth(text, size, false) <= width {
		return text
	}
	r := []rune(text)
	for len(r) > 1 && scene.TextWidth(string(r)+"…", size, false) > width {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ,") + "…"
}

// hardware says what hangs at an outlet, from the line to the hand: the parts, the
// hose, the tools.
func hardware(g Given, s Sheet, o *job.Outlet) (parts, hose, tools string) {
	var words []string
	for _, h := range o.Hang {
		k, _ := g.Shelf.Kind(h.Kind)
		word := or(k.Name("en"), h.Kind)
		if strings.HasPrefix(h.Item, word) {
			word = h.Item
		} else if h.Item != "" {
			word += " " + h.Item
		} else if h.Size != "" {
			word += " " + h.Size
		}
		words = append(words, word)
	}
	parts = strings.Join(words, ", ")
	if o.Hose != nil {
		hose = "hose " + s.reachOf(float64(o.Hose.Length))
		if h, ok := g.Shelf.Hose(o.Hose.Item); ok {
			hose += " of " + h.Size
		}
		if o.Hose.Reel {
			hose += ", on a reel"
		}
	}
	words = words[:0]
	for _, id := range o.Tools {
		if t := g.Index.Tool(id); t != nil {
			words = append(words, or(t.Name, t.Item))
		}
	}
	return parts, hose, strings.Join(words, ", ")
}

// inShort is hardware in as few words as a narrow column has room for.
func inShort(g Given, s Sheet, o *job.Outlet) string {
	var words []string
	for _, h := range o.Hang {
		k, _ := g.Shelf.Kind(h.Kind)
		words = append(words, or(h.Item, k.Name("en")))
	}
	if o.Hose != nil {
		words = append(words, s.reachOf(float64(o.Hose.Length)))
	}
	return strings.Join(words, ", ")
}

// level are the words under a dial, one under the other.
func level(g Given, s Sheet, o *job.Outlet, width float64) []string {
	parts, hose, tools := hardware(g, s, o)
	var lines []string
	for _, text := range []string{o.Name, parts, hose, tools} {
		lines = append(lines, wrapped(text, flowText, width)...)
	}
	return lines
}
