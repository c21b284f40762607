package find

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// stand puts a part of the net at the end of what stands: after the main that waits
// for its far end, else close by.
func (c *chain) stand(r chainRow, part job.Part, in, out string) job.ID {
	name := r.cells["name"]
	id := c.named("point", nonEmpty(name, r.word))
	if name == "" && r.cells["part"] != "" { // no part of its own, such as a tee, has no name
		if name = "the " + r.word; c.count["point"+string(id[6:])] == 0 {
			name = "the next " + r.word
		}
	}
	far := apart
	if c.main != nil {
		far = float64(*c.main.Length)
	}
	if c.end.Point != "" {
		c.at[0] += far
		run := job.Run{ID: c.named("line", string(id[6:])), Role: "link", Size: c.size, Stock: c.stock}
		if c.main != nil {
			run = *c.main
			run.Length = nil
		}
		run.From, run.To, run.State = c.end, job.End{Point: id, Port: in}, existing
		c.j.Net.Runs = append(c.j.Net.Runs, run)
	}
	c.main = nil
	at := c.at
	c.j.Net.Points = append(c.j.Net.Points, job.Point{ID: id, Name: name, At: &at, Part: part, State: existing})
	c.end = job.End{Point: id, Port: out}
	return id
}

const existing = "existing"

func nonEmpty(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

func (c *chain) compressor(r chainRow) {
	c.count["compressor"]++
	c.line(r)
	k := &job.Compressor{FreeAir: c.flow(r), At: c.gauge(r, "pressure"), CutIn: c.gauge(r, "cut-in"), CutOut: c.gauge(r, "cut-out")}
	if !c.fromClass(r, k) {
		return
	}
	if k.FreeAir == nil {
		c.problem(r.line, "flow", "", "what the compressor delivers, from its plate, such as 22 cfm or 600 L/min, or a class of the catalogue as its item", "")
		return
	}
	if k.CutIn == nil || k.CutOut == nil {
		c.problem(r.line, "cut-in", "", "cut-in and cut-out, such as 90 psi and 120 psi: the gauge at which it starts and stops", "")
		return
	}
	if k.At == nil {
		k.At = k.CutOut
	}
	c.free = unit.FreeAir(k.FreeAir.Value)
	c.stand(r, job.Part{Kind: "compressor", Item: r.cells["item"], Compressor: k}, "", "out")
}

// fromClass takes what a row leaves out from the class of compressor that it names, and says
// so; false where there is no such class.
func (c *chain) fromClass(r chainRow, k *job.Compressor) bool {
	item := r.cells["item"]
	if item == "" {
		return true
	}
	m, ok := c.shelf.Machine(item)
	if !ok {
		c.problem(r.line, "item", item, "a class of compressor of the catalogue", c.shelf.Nearest(catalog.Machines, item))
		return false
	}
	if k.FreeAir == nil {
		k.FreeAir, k.At = &job.Flow{Value: m.FreeAir.Value}, &m.At
		c.assume("What the compressor delivers was taken as that of %s.", m.Words)
	}
	if k.CutIn == nil || k.CutOut == nil {
		k.CutIn, k.CutOut = &m.CutIn, &m.CutOut
		c.assume("Cut-in and cut-out were taken as those of %s.", m.Words)
	}
	return true
}

func (c *chain) receiver(r chainRow) {
	c.count["receiver"]++
	c.line(r)
	cell := r.cells["volume"]
	if cell == "" {
		c.problem(r.line, "volume", "", "the receiver's volume, such as 80 gal or 270 L", "")
		return
	}
	volume := unit.Volume(c.figure(r.line, "volume", cell, unit.KindVolume))
	if !(volume > 0) {
		c.problem(r.line, "volume", cell, "a volume above nothing", "")
		return
	}
	c.stand(r, job.Part{Kind: "receiver", Volume: &volume}, "in", "out")
}

// treat stands in the net, or hangs at the outlet that was begun.
func (c *chain) treat(r chainRow, kind string) {
	if c.outlet < 0 {
		c.line(r)
	}
	part := job.Part{Kind: kind, Item: c.treatment(r, kind), Set: c.gauge(r, "pressure")}
	k, _ := c.shelf.Kind(kind)
	if k.Has(catalog.Regulates) && part.Set == nil {
		c.problem(r.line, "pressure", "", "what the regulator is set to, such as 45 psi", "")
		return
	}
	if c.outlet >= 0 {
		c.hang(r, part)
		return
	}
	c.stand(r, part, "in", "out")
}

// treatment is the catalogue's class of a treatment: the one named, of its size, or
// the least that the compressor's flow goes through.
func (c *chain) treatment(r chainRow, kind string) string {
	if item := r.cells["item"]; item != "" {
		if _, ok := c.shelf.Treat(item); !ok {
			c.problem(r.line, "item", item, "a class of the catalogue", c.shelf.Nearest(catalog.Treatments, item))
		}
		return item
	}
	best, flow := "", math.Inf(1)
	size := nonEmpty(r.cells["size"], c.size)
	for _, t := range c.shelf.Treatment() {
		if t.Kind != kind {
			continue
		}
		if t.Size != "" && t.Size == size {
			return t.Item
		}
		rated := float64(t.RatedFlow)
		switch {
		case rated >= float64(c.free) && rated < flow:
			best, flow = t.Item, rated
		case math.IsInf(flow, 1): // none is large enough so far
			best = t.Item
		}
	}
	c.assume("The %s was taken as %s.", r.word, best)
	return best
}

func (c *chain) valve(r chainRow) {
	part := job.Part{Kind: "ball-valve"}
	if c.outlet >= 0 {
		part.Size = r.cells["size"]
		c.hang(r, part)
		return
	}
	c.line(r)
	c.stand(r, part, "in", "out")
}

// pipe is a main: its far end is whatever follows.
func (c *chain) pipe(r chainRow) {
	c.outlet = -1
	if c.main != nil { // another size goes on
		c.stand(chainRow{line: r.line, word: "change", cells: map[string]string{}}, job.Part{Kind: "joint"}, "in", "out")
	}
	c.line(r)
	length := c.length(r)
	c.main = &job.Run{ID: c.named("line", nonEmpty(r.cells["name"], "main")), Name: r.cells["name"], Role: "main", Size: c.size, Stock: c.stock, Length: &length}
}

// drop leaves the main by a tee and ends at an outlet.
func (c *chain) drop(r chainRow) {
	size, stock, length := c.size, c.stock, c.length(r)
	c.line(r)
	own := job.Run{Size: c.size, Stock: c.stock}
	c.size, c.stock = nonEmpty(size, c.size), nonEmpty(stock, c.stock)
	tee := c.stand(chainRow{line: r.line, word: "tee", cells: map[string]string{}}, job.Part{Kind: "tee", Size: c.size, Size2: own.Size}, "run-1", "run-2")
	name := r.cells["name"]
	if name == "" {
		name = "the drop " + string(rune('A'+len(c.j.Outlets)%26))
	}
	down := min(float64(length), aloft-bench)
	elbow := c.named("point", name)
	at := geom.Point{c.at[0], float64(length) - down, aloft - down}
	own.ID, own.Role, own.State = c.named("line", "drop-"+name), "drop", existing
	own.From, own.To = job.End{Point: tee, Port: "branch"}, job.End{Point: elbow, Port: "in"}
	if at[1] > 0 {
		own.Path = []geom.Point{{at[0], at[1], aloft}}
	}
	c.j.Net.Points = append(c.j.Net.Points, job.Point{ID: elbow, At: &at, Part: job.Part{Kind: "drop-elbow", Size: own.Size}, State: existing})
	c.j.Net.Runs = append(c.j.Net.Runs, own)
	c.outlet = len(c.j.Outlets)
	c.j.Outlets = append(c.j.Outlets, job.Outlet{ID: c.named("outlet", name), Name: name, Point: elbow, Port: "out"})
}

// begun is the outlet that a row belongs to; nil, and told, where there is none.
func (c *chain) begun(r chainRow) *job.Outlet {
	if c.outlet < 0 {
		c.problem(r.line, "part", r.word, "a drop before the "+r.word+": where it hangs", "drop")
		return nil
	}
	return &c.j.Outlets[c.outlet]
}

func (c *chain) hang(r chainRow, part job.Part) {
	if o := c.begun(r); o != nil {
		part.ID = c.named("part", string(o.ID[7:])+"-"+r.word)
		o.Hang = append(o.Hang, part)
	}
}

// profile is the coupler of a row.
func (c *chain) profile(r chainRow) string {
	item := nonEmpty(r.cells["item"], r.cells["size"])
	if item == "" {
		c.assume("Couplers whose profile was not said were taken as %s.", usualCoupler)
		return usualCoupler
	}
	if _, ok := c.shelf.Coupler(item); !ok {
		c.problem(r.line, "item", item, "a profile of the catalogue, such as industrial-1/4", c.shelf.Nearest(catalog.Couplers, item))
	}
	return item
}

// coupler hangs at the outlet, or sits at the end of its hose.
func (c *chain) coupler(r chainRow) {
	o := c.begun(r)
	if o == nil {
		return
	}
	item := c.profile(r)
	if o.Hose != nil {
		o.Hose.Socket = item
		return
	}
	c.hang(r, job.Part{Kind: "coupler", Item: item})
}

func (c *chain) hose(r chainRow) {
	o := c.begun(r)
	if o == nil {
		return
	}
	item := nonEmpty(r.cells["item"], "rubber-"+nonEmpty(r.cells["size"], usualHose))
	if _, ok := c.shelf.Hose(item); !ok {
		c.problem(r.line, "size", nonEmpty(r.cells["item"], r.cells["size"]), "a hose of the catalogue: 1/4, 3/8, 1/2 or 3/4", c.shelf.Nearest(catalog.Hoses, item))
		return
	}
	o.Hose = &job.Hose{ID: c.named("hose", string(o.ID[7:])), Item: item, Length: c.length(r)}
	if n := len(o.Hang); n > 0 {
		if k, ok := c.shelf.Kind(o.Hang[n-1].Kind); ok && k.Has(catalog.Couples) {
			o.Hose.Plug = o.Hang[n-1].Item
		}
	}
}

func (c *chain) tool(r chainRow) {
	o := c.begun(r)
	if o == nil {
		return
	}
	t := job.Tool{Name: r.cells["name"], Item: r.cells["item"], Flow: c.flow(r), At: c.gauge(r, "pressure")}
	if t.Item != "" {
		row, ok := c.shelf.Tool(t.Item)
		if !ok {
			c.problem(r.line, "item", t.Item, "a tool of the catalogue", c.shelf.Nearest(catalog.Tools, t.Item))
			return
		}
		t.Name = nonEmpty(t.Name, row.Words)
	}
	if t.Item == "" && (t.Flow == nil || t.At == nil) {
		c.problem(r.line, "flow", r.cells["flow"], "what the tool takes and at which pressure, such as 12 cfm and 90 psi; or an item of the catalogue", "")
		return
	}
	t.Name = nonEmpty(t.Name, "the tool at "+o.Name)
	if t.Item == "" {
		t.Least = new(*t.At * 9 / 10)
	}
	if o.Hose != nil {
		t.Plug = o.Hose.Socket
	}
	t.ID = c.named("tool", t.Name)
	c.j.Tools = append(c.j.Tools, t)
	o.Tools = append(o.Tools, t.ID)
}
