package model

import (
	"fmt"
	"math"
	"strconv"

	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// OutletNode is where the pressure of an outlet is read: before its last
// coupler. Node is -1 where its point does not exist.
type OutletNode struct {
	ID   job.ID
	Node int
}

// chain is the way from an outlet's port to the hand while it is laid.
type chain struct {
	o    *job.Outlet
	zone job.ID
	end  int // node reached so far
	at   int // node before the last coupler
	n    int // nodes made
	// last is a coupler at the end with nothing plugged in for good: each tool plugs into it.
	last *job.Part
}

// next makes the following node of the chain.
func (b *builder) next(c *chain) int {
	c.n++
	return b.g.node(Node{Key: string(c.o.ID) + "#" + strconv.Itoa(c.n), Outlet: c.o.ID})
}

// layOutlet lays what hangs at an outlet, its hose, and each tool used there.
func (b *builder) layOutlet(i int) {
	o := &b.j.Outlets[i]
	_, ok := b.points[o.Point]
	if !ok {
		b.outlets = append(b.outlets, -1)
		b.trouble("unknown-point", job.Fault, fmt.Sprintf("%s hangs at %s, which does not exist; it is left out", o.ID, o.Point),
			"an outlet needs a point", o.ID)
		return
	}
	start, _ := b.nodeAt(o.Point, b.hangs[i])
	c := &chain{o: o, end: start, at: start}
	if pt := b.point(o.Point); pt != nil {
		c.zone = b.zoneOfPoint(pt)
	}
	for i := range o.Hang {
		b.layHang(c, i)
	}
	if c.last == nil {
		c.at = c.end
	}
	if o.Hose != nil {
		b.layHose(c)
	}
	b.outlets = append(b.outlets, c.at)
	for _, id := range o.Tools {
		b.layTool(c, id)
	}
}

// layHang lays one part in the chain. A coupler at the very end waits for what
// is plugged into it.
func (b *builder) layHang(c *chain, i int) {
	part := &c.o.Hang[i]
	kind, ok := b.shelf.Kind(part.Kind)
	if !ok {
		b.trouble("unknown-kind", job.Fault, fmt.Sprintf("at %s hangs a part of kind %q, which the catalogue does not know; air passes it without loss here", c.o.ID, part.Kind),
			"its loss cannot be worked out", c.o.ID)
		return
	}
	if kind.Law.Name == "coupler" && i == len(c.o.Hang)-1 {
		c.at, c.last = c.end, part
		if c.o.Hose != nil {
			b.layCoupler(c, part, kind, c.o.Hose.Plug, b.next(c), "")
		}
		return
	}
	if len(kind.Ports) < 2 {
		return // a cap, a gauge, a drain cock: nothing passes it
	}
	to := b.next(c)
	p := b.hangPlace(c, part, kind)
	p.uses = b.hangUses(c, part, kind, to)
	b.lay(p)
	c.end = to
}

// hangPlace is a hanging part, ready but for its ports.
func (b *builder) hangPlace(c *chain, part *job.Part, kind catalog.Kind) place {
	id := part.ID
	if id == "" {
		id = c.o.ID
	}
	return place{
		id: id, key: string(c.o.ID) + "#" + strconv.Itoa(c.n), part: part, kind: kind,
		thing: thingOf(kind), outlet: c.o.ID, zone: c.zone, joined: "thread",
	}
}

// hangUses takes the two ports by which air passes a hanging part: in by "in",
// else its first; out by "out", else by a branch (an outlet leaves a drip leg
// by its side), else by the next.
func (b *builder) hangUses(c *chain, part *job.Part, kind catalog.Kind, to int) []use {
	in, out := 0, -1
	for i, p := range kind.Ports {
		if p.ID == "in" {
			in = i
		}
	}
	for _, want := range []string{"out", "branch"} {
		for i, p := range kind.Ports {
			if out < 0 && i != in && p.ID == want {
				out = i
			}
		}
	}
	if out < 0 {
		out = 0
		if in == 0 {
			out = 1
		}
	}
	size := part.Size
	stock := ""
	if pt := b.point(c.o.Point); pt != nil {
		if run := b.firstRun(pt); run != nil {
			stock = run.Stock
			if size == "" {
				size = run.Size
			}
		}
	}
	bore := sure(b.shelf.bore(stock, size))
	uses := []use{
		{port: kind.Ports[in], node: c.end, bore: bore, size: size},
		{port: kind.Ports[out], node: to, bore: bore, size: size},
	}
	return uses
}

// layCoupler lays a coupler with the plug that goes into it.
func (b *builder) layCoupler(c *chain, part *job.Part, kind catalog.Kind, plug string, to int, tool job.ID) {
	p := b.hangPlace(c, part, kind)
	p.mate = plug
	p.uses = b.hangUses(c, part, kind, to)
	before := len(b.g.links)
	b.lay(p)
	if tool != "" && len(b.g.links) > before {
		b.g.links[before].Tool = tool
	}
	c.end = to
}

// layHose lays the hose with its tails, and the coupler at its plug where the
// outlet has none of its own to go into.
func (b *builder) layHose(c *chain) {
	h := c.o.Hose
	if c.last == nil && h.Plug != "" {
		b.endCoupler(c, "plug", h.Plug, h.Plug, b.next(c), "")
	}
	row, ok := b.shelf.Hose(h.Item)
	if !ok || row.Bore <= 0 {
		b.trouble("unknown-hose", job.Fault, fmt.Sprintf("%s is a %q, which the catalogue does not know; its loss is left out", h.ID, h.Item),
			"its bore is not known", h.ID, c.o.ID)
		return
	}
	bore, to := float64(row.Bore), b.next(c)
	tail := moreIsBetter(row.EndBore)
	if tail.likely <= 0 {
		tail = sure(1)
	}
	swivel := figure{}
	if h.Reel {
		swivel = b.swivelLe(h)
	}
	k := tail.with(swivel, func(share, le float64) float64 {
		onTail := 2*(contraction(share)+enlargement(share)) + le*b.turbulent(bore*share)
		return scaled(onTail, bore*share, bore)
	})
	wall := lessIsBetter(row.Roughness)
	b.noteHose(h, row, tail, wall)
	gas, long := b.gasIn(c.zone), math.Max(0, float64(h.Length))
	if long == 0 && k.likely <= 0 {
		b.g.merge(c.end, to)
		c.end = to
		return
	}
	b.g.add(link{
		Element: Element{
			ID: h.ID, Words: b.hoseWords(h, row), Thing: ThingHose, From: c.end, To: to, Outlet: c.o.ID,
			Bore: row.Bore, Length: h.Length, Item: row.Hose, Size: row.Size, K: k.likely,
		},
		zone: c.zone,
		law: func(v variant) (element.Law, error) {
			return element.NewPipe(gas, element.PipeSpec{
				Length: long, Bore: bore, K: k.at(v.bias), Roughness: math.Min(wall.at(v.bias), steepest*bore),
			})
		},
	})
	c.end = to
}

// noteHose records what of a hose comes from its row.
func (b *builder) noteHose(h *job.Hose, row catalog.Hose, tail, wall figure) {
	b.assume(Assumption{ID: h.ID, Words: "roughness of the hose", Key: "roughness_m", Value: wall.likely, Low: wall.best, High: wall.worst, Ref: row.Roughness.Ref, Row: row.Hose})
	if tail.likely < 1 {
		b.assume(Assumption{ID: h.ID, Words: "share of the bore left in the hose tails", Key: "end_bore", Value: tail.likely, Low: tail.worst, High: tail.best, Ref: row.EndBore.Ref, Row: row.Hose})
	}
}

// swivelLe is what a reel's swivel costs in diameters of the hose tail: it
// turns the air twice in a narrow passage. Custom of the trade, no source.
func (b *builder) swivelLe(h *job.Hose) figure {
	f := figure{60, 30, 120}
	b.assume(Assumption{ID: h.ID, Words: "loss of the reel's swivel, in bores of the hose tail", Key: "Le_over_D", Value: f.likely, Low: f.best, High: f.worst, Ref: custom})
	return f
}

// endCoupler lays a coupler that belongs to the hose: a socket row and a plug row.
func (b *builder) endCoupler(c *chain, leg, socket, plug string, to int, tool job.ID) {
	row, ok := b.shelf.Coupler(socket)
	if !ok {
		b.trouble("unknown-coupler", job.Fault, fmt.Sprintf("%s has a coupler %q, which the catalogue does not know; its loss is left out", c.o.Hose.ID, socket),
			"its conductance is not known", c.o.Hose.ID, c.o.ID)
		b.g.merge(c.end, to)
		c.end = to
		return
	}
	m := b.couplerPair(c.o.Hose.ID, row, plug, c.zone)
	b.g.add(link{
		Element: Element{
			ID: c.o.Hose.ID, Leg: leg, Words: couplerWords(row), Thing: ThingCoupler, From: c.end, To: to,
			Outlet: c.o.ID, Tool: tool, Bore: unit.Length(m.bore), Item: row.Coupler, Size: row.Body, Mate: plug,
		},
		law: m.law, zone: c.zone,
	})
	c.end = to
}

// layTool lays the last bit to one tool and makes the pair.
func (b *builder) layTool(c *chain, id job.ID) {
	t := b.tool(id)
	if t == nil {
		b.trouble("unknown-tool", job.Fault, fmt.Sprintf("%s names %s, which does not exist", c.o.ID, id), "no such tool", c.o.ID)
		return
	}
	own := *c // every tool starts from the same end
	inlet := func() int {
		return b.g.node(Node{Key: string(id) + "@" + string(c.o.ID), Outlet: c.o.ID, Tool: id})
	}
	plug := ""
	if doc := b.idx.Tool(id); doc != nil {
		plug = doc.Plug
	}
	switch {
	case c.o.Hose == nil && c.last != nil:
		kind, _ := b.shelf.Kind(c.last.Kind)
		b.layCoupler(&own, c.last, kind, plug, inlet(), id)
	case c.o.Hose != nil && c.o.Hose.Socket != "":
		b.endCoupler(&own, "end", c.o.Hose.Socket, plug, inlet(), id)
	default:
		// Screwed on: the tool's inlet is the end of the chain.
		b.g.merge(c.end, inlet())
		own.end = inlet()
	}
	b.pairs = append(b.pairs, Pair{
		Index: len(b.pairs), Tool: id, Outlet: c.o.ID, Node: own.end, At: c.at,
		FreeAir: t.FreeAir, Rated: t.Rated, Least: t.Least, Most: t.Most, Later: t.Later,
		Words: t.Name + " at " + c.o.Name,
	})
}

// tool finds a tool as filled in.
func (b *builder) tool(id job.ID) *Tool {
	for i := range b.tools {
		if b.tools[i].ID == id {
			return &b.tools[i]
		}
	}
	return nil
}
