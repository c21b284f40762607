package water

import (
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// fallen is water that falls at one thing, kg/s.
type fallen struct {
	id, to job.ID
	how    string
	kg     float64
}

// walk follows the air once, with one reading of the uncertain figures.
type walk struct {
	shop     *shop
	cold     bool
	supply   bool // on the compressors' side of the receivers
	tell     bool // note lines and dryers as it goes
	running  float64
	bias     bias
	nodes    []current
	falls    []fallen
	in, away float64 // kg/s: drawn in, carried out
	out      *Season
}

// drain notes water that leaves the air.
func (d *walk) drain(id, to job.ID, how string, kg float64) {
	if kg > 0 {
		d.falls = append(d.falls, fallen{id, to, how, kg})
	}
}

// pressureAt is a node's, else what came.
func (d *walk) pressureAt(node int, came float64) float64 {
	if p := d.shop.streams.pressure[node]; p > 0 {
		return p
	}
	return came
}

// follow walks one stream; take is told what leaves at each node.
func (d *walk) follow(s *stream, feed func(node int) current, take func(node int, c current)) {
	out := s.downstream(d.shop.m)
	nodes := make([]current, len(out))
	for _, n := range s.order(out) {
		c := nodes[n]
		if s.feed[n] > 0 {
			in := feed(n)
			in.dry = s.feed[n]
			c.mix(in)
		}
		if c.dry <= 0 {
			continue
		}
		c.pressure = d.pressureAt(n, c.pressure)
		if id, stores := d.shop.stores[n]; stores && d.supply {
			d.store(id, &c)
		}
		nodes[n] = c
		sum := s.take[n]
		for _, w := range out[n] {
			sum += math.Abs(s.flow[w.link])
		}
		part := func(kg float64) current {
			share := c
			share.dry, share.liquid = c.dry*kg/sum, c.liquid*kg/sum
			return share
		}
		if s.take[n] > 0 {
			take(n, part(s.take[n]))
		}
		for _, w := range out[n] {
			next := part(math.Abs(s.flow[w.link]))
			d.pass(w, &next)
			next.pressure = d.pressureAt(w.to, next.pressure)
			nodes[w.to].mix(next)
			nodes[w.to].pressure = next.pressure
		}
	}
	for n, c := range nodes {
		if c.known {
			d.nodes[n] = c
		}
	}
}

// store lets air stand in a receiver: it cools, and its water goes to the drain.
func (d *walk) store(id job.ID, c *current) {
	c.temp = min(c.temp, d.shop.roomAt(id, d.cold)+d.bias.store)
	kg := c.settle() + c.liquid
	c.liquid = 0
	d.drain(id, id, ByDrain, kg)
}

// pass takes air through an element.
func (d *walk) pass(w way, c *current) {
	m := d.shop.m
	e := &m.Elements()[w.link]
	if run := d.shop.ground.ix.Run(e.ID); run != nil {
		d.line(run, e, w.to == e.To, c)
		return
	}
	d.shop.clean(e, &c.claim)
	if plate := d.shop.dryers[w.link]; plate != nil {
		d.drain(e.ID, e.ID, InDryer, d.dry(e, plate, c))
		return
	}
	kind, _ := d.shop.ground.shelf.Kind(e.Kind)
	switch {
	case kind.Has(catalog.Cools):
		c.temp = min(c.temp, d.roomOf(e)+d.bias.cooler)
		d.lose(e.ID, c)
	case e.Length > 0:
		d.cool(e, d.roomOf(e), c)
		c.liquid += c.settle() // a hose: it comes out at the tool
	}
	if kind.Has(catalog.Collects) && (kind.Has(catalog.Filters) || kind.Has(catalog.Separates)) {
		d.drain(e.ID, e.ID, ByDrain, c.liquid+c.settle())
		c.liquid = 0
	}
}

// lose notes what falls in a cooler; the air takes it along to the next place that collects.
func (d *walk) lose(id job.ID, c *current) {
	kg := c.settle()
	c.liquid += kg
	if d.tell && kg > 0 {
		d.shop.answer.suppose("a cooler without a trap: the air takes its water along to the next place that collects")
	}
}

// roomOf is the temperature about an element that is no run.
func (d *walk) roomOf(e *model.Element) float64 {
	if e.Outlet != "" {
		return d.shop.roomAt(e.Outlet, d.cold)
	}
	return d.shop.roomAt(e.ID, d.cold)
}

// cool brings air towards the room along a line: T falls as exp(-U π D L / (m c)).
func (d *walk) cool(e *model.Element, room float64, c *current) {
	flow := c.dry
	if d.supply {
		flow /= d.running
	}
	c.temp = Along(c.temp, room, d.bias.heat, float64(e.Bore), float64(e.Length), flow)
}

// Along is the temperature of air after a line: the room's plus what is left of the
// difference, exp(-U π D L / (m c)). A line without flow stands as the room.
func Along(in, room, heat, bore, length, flow float64) float64 {
	if flow <= 0 {
		return room
	}
	return room + (in-room)*math.Exp(-heat*math.Pi*bore*length/(flow*heatCapacity))
}

// line takes air through a run.
func (d *walk) line(run *job.Run, e *model.Element, ahead bool, c *current) {
	room := d.shop.climate(d.shop.ground.ix.ZoneOf(run), d.cold)
	before := *c
	d.cool(e, room, c)
	kg := c.settle()
	to, how := d.shop.ground.lands(run, ahead)
	if d.supply && how != ByDrain || d.supply && d.source(to) {
		c.liquid += kg // it cannot stay: the air blows it on to the receiver
	} else {
		d.drain(run.ID, to, how, kg)
	}
	if d.tell {
		d.out.Lines = append(d.out.Lines, lineOf(run.ID, room, before, *c))
	}
}

// source says whether a point is where the supply ends anyway.
func (d *walk) source(id job.ID) bool {
	for _, stores := range d.shop.stores {
		if stores == id {
			return true
		}
	}
	return false
}

// lineOf tells of a run: at rest it stands as warm as its room, whatever flows by day.
func lineOf(id job.ID, room float64, in, out current) Line {
	l := Line{ID: id, Room: unit.Temperature(room), In: unit.Temperature(in.temp), Out: unit.Temperature(out.temp), Dew: dew(in)}
	if l.Dew != nil {
		l.Collects = float64(*l.Dew) > room+1e-6
		l.Freezes = l.Collects && room < freezing
	}
	return l
}
