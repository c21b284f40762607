package parts

import (
	"slices"

	"dropleg/internal/shop/job"
)

// outlets counts what hangs at every outlet and what is plugged in there.
func (c *counter) outlets() {
	for i := range c.job.Outlets {
		o := &c.job.Outlets[i]
		state, room, stock, size := c.lineAt(o)
		for n := range o.Hang {
			p := &o.Hang[n]
			from := string(p.ID)
			if from == "" {
				from = within(o.ID, "hang", n+1)
			}
			sizes := []string{size}
			if p.Size != "" {
				sizes = []string{p.Size}
			}
			if p.Size2 != "" {
				sizes = append(sizes, p.Size2)
			}
			c.pieces(c.part(p, stock, nonEmpty(sizes)), state, 1, from, room)
		}
		if o.Hose != nil {
			c.hose(o.Hose, state, room)
		}
	}
}

// lineAt is what an outlet hangs on: the state and room of its point and the
// line that comes there.
func (c *counter) lineAt(o *job.Outlet) (state State, room job.ID, stock, size string) {
	p := c.index.Point(o.Point)
	if p == nil {
		return Planned, "", "", ""
	}
	room = c.roomAt(c.index.Where(p))
	if ends := c.index.Ends(p.ID); len(ends) > 0 {
		stock, size = ends[0].Run.Stock, ends[0].Run.Size
	}
	return stateOf(p.State), room, stock, size
}

// hose counts a hose or reel with the plug and the socket at its ends.
func (c *counter) hose(h *job.Hose, state State, room job.ID) {
	row, known := c.shelf.Hose(h.Item)
	l := Line{Article: h.Item, Group: Hose, Item: h.Item, Length: new(h.Length), Words: h.Item}
	if known {
		l.Words, l.Size = row.Words, row.Size
	}
	l.Words += ", " + c.long(h.Length)
	if h.Reel {
		l.Article += " reel"
		l.Words += ", on a reel"
	}
	c.pieces(l, state, 1, string(h.ID), room)
	c.coupler(h.Plug, "plug", state, 1, string(h.ID)+"/plug", room)
	c.coupler(h.Socket, "socket", state, 1, string(h.ID)+"/socket", room)
}

// tools counts the plugs that sit on tools. A tool that is used at an outlet that
// stands already has its plug already, as many of it as there are such outlets.
func (c *counter) tools() {
	for i := range c.job.Tools {
		t := &c.job.Tools[i]
		from, all := string(t.ID)+"/plug", max(1, t.Count)
		if t.Later {
			c.coupler(t.Plug, "plug", Stub, all, from, "")
			continue
		}
		there := min(all, c.standing(t.ID))
		c.coupler(t.Plug, "plug", Existing, there, from, "")
		c.coupler(t.Plug, "plug", Planned, all-there, from, "")
	}
}

// standing is at how many outlets that stand already a tool is used.
func (c *counter) standing(tool job.ID) int {
	n := 0
	for i := range c.job.Outlets {
		o := &c.job.Outlets[i]
		if p := c.index.Point(o.Point); p != nil && stateOf(p.State) == Existing && slices.Contains(o.Tools, tool) {
			n++
		}
	}
	return n
}

// coupler counts one half of a quick coupler; none is named where it is screwed.
func (c *counter) coupler(item, half string, state State, n int, from string, room job.ID) {
	if item == "" || n == 0 {
		return
	}
	l := Line{Article: half + " " + item, Group: Coupler, Item: item, Words: half + ", " + c.itemWords(item)}
	c.pieces(l, state, n, from, room)
}

func nonEmpty(words []string) []string {
	var kept []string
	for _, w := range words {
		if w != "" {
			kept = append(kept, w)
		}
	}
	return kept
}
