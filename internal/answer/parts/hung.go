package parts

import (
	"cmp"
	"strings"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// hangID is the id of a part that hangs at an outlet: its own, or its place in the row.
func hangID(o *job.Outlet, i int) string {
	if id := o.Hang[i].ID; id != "" {
		return string(id)
	}
	return within(o.ID, "hang", i+1)
}

// hung is a hanging part's port towards the plant.
func (c *counter) hung(o *job.Outlet, i int) (part *job.Part, in mouth) {
	part = &o.Hang[i]
	kind, _ := c.shelf.Kind(part.Kind)
	in = c.hangPort(o, i, inlet(kind))
	return part, in
}

// hangPort is a port of a part that hangs at an outlet.
func (c *counter) hangPort(o *job.Outlet, i int, port string) mouth {
	state, _, stock, size := c.lineAt(o)
	return c.portOf(hangID(o, i), &o.Hang[i], port, stock, size, state)
}

// inlet is the port that faces the plant: "in", else the first.
func inlet(k catalog.Kind) string {
	if p, ok := k.Port("in"); ok {
		return p.ID
	}
	if len(k.Ports) > 0 {
		return k.Ports[0].ID
	}
	return ""
}

// outlet is the port by which air goes on to the hand: "out", else a branch, else the
// next; "" where nothing passes.
func outlet(k catalog.Kind) string {
	in := inlet(k)
	best, rank := "", 0
	for _, p := range k.Ports {
		r := 1
		switch {
		case p.ID == in:
			continue
		case p.ID == "out":
			r = 4
		case strings.HasPrefix(p.ID, "branch"):
			r = 3
		case p.Joint != "none" && p.ID != drainPort:
			r = 2
		}
		if r > rank {
			best, rank = p.ID, r
		}
	}
	return best
}

// The ports beside the way of the air.
const (
	drainPort  = "drain"
	reliefPort = "relief"
)

// hangings joins what hangs at the outlets, one part to the next, and the hose to the
// last. A part that nothing passes (a gauge, a drain cock) sits at the drain of the
// part before it where that has one, and the next part beside it.
func (c *counter) hangings(w *walk) {
	for i := range c.job.Outlets {
		o := &c.job.Outlets[i]
		p := c.index.Point(o.Point)
		if p == nil {
			continue
		}
		row := &hanging{c: c, o: o, where: c.placeAt(p)}
		row.up, row.tied = c.outletMouth(o, p, c.hangs[i])
		for n := range o.Hang {
			row.add(n)
		}
		if o.Hose != nil && (!row.tied || len(o.Hang) > 0) {
			row.join(string(o.Hose.ID)+"/in", row.up, c.hoseEnd(o, row.up))
		}
		w.own[p.ID] = append(w.own[p.ID], row.joints...)
	}
}

// hanging is a row of hanging parts while it is joined.
type hanging struct {
	c      *counter
	o      *job.Outlet
	where  place
	up     mouth  // what the next part is joined to
	drain  *mouth // of the part before, where it has one that is free
	tied   bool   // the pipe itself is tied to what hangs first
	closed bool   // a part that nothing passes sits at the port
	joints []*Joint
}

// add joins the next part.
func (h *hanging) add(n int) {
	part, in := h.c.hung(h.o, n)
	kind, _ := h.c.shelf.Kind(part.Kind)
	ends, at := len(kind.Ports) == 1, &h.up
	if ends && h.drain != nil {
		at = h.drain
	}
	if n > 0 || !h.tied {
		h.join(hangID(h.o, n)+"/"+in.side.Port, *at, in)
	}
	switch {
	case ends && at == h.drain:
		h.drain = nil
	case ends:
		h.closed = true
	default:
		h.joints = append(h.joints, h.c.face(hangID(h.o, n), kind, in.state, h.where)...)
		h.up, h.closed = h.c.hangPort(h.o, n, outlet(kind)), false
		h.drain = h.c.drainOf(h.o, n, kind)
	}
}

// join joins the next thing to a port, which may be taken.
func (h *hanging) join(id string, at, in mouth) {
	made := h.c.join(id, at, in, true, h.where)
	if h.closed && at.side == h.up.side {
		made[0].Problem = cmp.Or(made[0].Problem, "a part that nothing passes sits at this port: a tee is missing")
	}
	h.joints = append(h.joints, made...)
}

// outletMouth is what an outlet's first part is joined to, a port of the point's part;
// tied says that at the end of a line at a plain place the pipe is tied to that part.
func (c *counter) outletMouth(o *job.Outlet, p *job.Point, port string) (up mouth, tied bool) {
	stock, size := "", ""
	if ends := c.index.Ends(p.ID); len(ends) > 0 {
		stock, size = ends[0].Run.Stock, ends[0].Run.Size
	}
	up = c.portOf(string(p.ID), &p.Part, port, stock, size, stateOf(p.State))
	return up, c.isPlain(p.ID) && len(c.ends[p.ID]) == 1 && c.index.OutletsAt(p.ID)[0] == o
}

// drainOf is the drain of a hanging part, nil where it has none.
func (c *counter) drainOf(o *job.Outlet, n int, kind catalog.Kind) *mouth {
	if p, ok := kind.Port(drainPort); ok && p.ID == drainPort {
		m := c.hangPort(o, n, p.ID)
		return &m
	}
	return nil
}

// hoseEnd is the end of an outlet's hose: a plug, else a thread that fits what it is
// screwed to.
func (c *counter) hoseEnd(o *job.Outlet, up mouth) mouth {
	end := mouth{side: Side{string(o.Hose.ID), "in"}, way: "thread-male", stock: up.stock, thread: up.thread, state: up.state}
	switch {
	case o.Hose.Plug != "":
		end.way = "plug"
	case up.form() == male:
		end.way = "thread-female"
	}
	return end
}

// faces makes the joint between the two halves of each union in a line.
func (c *counter) faces(w *walk) {
	for i := range c.job.Net.Points {
		p := &c.job.Net.Points[i]
		if kind, _ := c.shelf.Kind(p.Part.Kind); kind.Has(catalog.Unions) {
			w.own[p.ID] = append(w.own[p.ID], c.face(string(p.ID), kind, stateOf(p.State), c.placeAt(p))...)
		}
	}
}

// face is the joint between the halves of a part that comes apart; none of others.
func (c *counter) face(thing string, kind catalog.Kind, state State, where place) []*Joint {
	if !kind.Has(catalog.Unions) || len(kind.Ports) != 2 {
		return nil
	}
	j := &Joint{
		ID: c.unique(thing + "/face"), Words: "face of the " + kind.Name("en"), State: state, Room: where.room, At: where.at,
		Sides: [2]Side{{thing, kind.Ports[0].ID}, {thing, kind.Ports[1].ID}},
	}
	c.joints = append(c.joints, j)
	return []*Joint{j}
}
