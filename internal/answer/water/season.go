package water

import (
	"cmp"
	"slices"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// season walks the net with every reading and gathers what came of it.
func (w *shop) season(cold bool, ask Ask) (*Season, error) {
	s := &Season{Name: "warm", Falls: []Fall{}, Gathered: []Gather{}, Lines: []Line{}, Dryers: []Dryer{}, Outlets: []Outlet{}}
	if cold {
		s.Name = "cold"
	}
	day := w.answer.Hours * 3600
	for i, b := range biases {
		d := &walk{shop: w, cold: cold, tell: i == 0, bias: b, running: w.streams.running, out: s, nodes: make([]current, len(w.m.Nodes()))}
		if err := d.through(ask); err != nil {
			return nil, err
		}
		d.sum(s, i, day)
		if i == 0 {
			d.rest()
			w.idleLines(d)
			w.outlets(d)
		}
	}
	for i := range s.Lines {
		for _, f := range s.Falls {
			if f.ID == s.Lines[i].ID {
				s.Lines[i].Litres = f.Litres
			}
		}
	}
	for i := range s.Dryers {
		for _, f := range s.Falls {
			if f.ID == s.Dryers[i].ID {
				s.Dryers[i].Takes = f.Litres
			}
		}
		s.Dryers[i].Lasts = s.Dryers[i].lasts()
	}
	s.gather()
	for i := range s.Gathered {
		g := &s.Gathered[i]
		room := w.roomAt(g.ID, cold)
		if run := w.ground.ix.Run(g.ID); run != nil {
			room = w.climate(w.ground.ix.ZoneOf(run), cold)
		}
		g.Freezes = room < freezing
	}
	return s, nil
}

// through follows the air from the compressors to the receivers and on to the tools.
func (d *walk) through(ask Ask) error {
	w := d.shop
	at := map[int]current{}
	for _, c := range w.m.Compressors() {
		in, err := w.intake(c.ID, d.cold, ask)
		if err != nil {
			return err
		}
		in.pressure = w.streams.pressure[c.Node]
		at[c.Node] = in
	}
	isSource := map[int]bool{}
	for _, s := range w.m.Sources() {
		isSource[s.Node] = true
	}
	var pool current
	d.supply = true
	d.follow(&w.streams.supply, func(n int) current {
		d.in += at[n].vapour * w.streams.supply.feed[n]
		return at[n]
	}, func(n int, c current) {
		if isSource[n] {
			pool.mix(c)
			pool.pressure = c.pressure
			return
		}
		d.away += c.vapour*c.dry + c.liquid
	})
	d.supply = false
	// Receivers that share a band share their air; what leaks is of the same.
	left := pool.dry
	fed := 0.0
	for _, f := range w.streams.use.feed {
		fed += f
	}
	liquid := 0.0
	if left > 0 {
		liquid = pool.liquid / left
	}
	d.away += (left - fed) * (pool.vapour + liquid)
	d.follow(&w.streams.use, func(n int) current {
		c := pool
		c.liquid = liquid * w.streams.use.feed[n]
		c.pressure = d.pressureAt(n, pool.pressure)
		return c
	}, func(_ int, c current) { d.away += c.vapour*c.dry + c.liquid })
	return nil
}

// sum adds a walk's falls to the season: the first is the likely one, the others widen it.
func (d *walk) sum(s *Season, reading int, day float64) {
	total := map[job.ID]fallen{}
	drained := 0.0
	var ids []job.ID
	for _, f := range d.falls {
		t, seen := total[f.id]
		if !seen {
			ids = append(ids, f.id)
			t = fallen{id: f.id, to: f.to, how: f.how}
		}
		t.kg += f.kg
		total[f.id] = t
		if f.how == AtOutlet {
			d.away += f.kg
		} else {
			drained += f.kg
		}
	}
	if reading == 0 {
		s.In, s.Drained, s.Carried = d.in*day, drained*day, d.away*day
	}
	for _, id := range ids {
		if !slices.ContainsFunc(s.Falls, func(f Fall) bool { return f.ID == id }) {
			s.Falls = append(s.Falls, Fall{ID: id, To: total[id].to, How: total[id].how})
		}
	}
	for i := range s.Falls {
		litres := total[s.Falls[i].ID].kg * day / perLitre
		l := &s.Falls[i].Litres
		if reading == 0 {
			*l = Litres{litres, litres, litres}
		} else {
			l.Low, l.High = min(l.Low, litres), max(l.High, litres)
		}
	}
}

// gather sums the falls by where they come together.
func (s *Season) gather() {
	for _, f := range s.Falls {
		i := slices.IndexFunc(s.Gathered, func(g Gather) bool { return g.ID == f.To })
		if i < 0 {
			i = len(s.Gathered)
			s.Gathered = append(s.Gathered, Gather{ID: f.To, How: f.How})
		}
		g := &s.Gathered[i]
		g.Likely, g.Low, g.High = g.Likely+f.Likely, g.Low+f.Low, g.High+f.High
	}
}

// rest gives places where nothing flows the air of where they hang.
func (d *walk) rest() {
	next := []int{}
	for n := range d.nodes {
		if d.nodes[n].known {
			next = append(next, n)
		}
	}
	at := make([][]*model.Element, len(d.nodes))
	elements := d.shop.m.Elements()
	for i := range elements {
		e := &elements[i]
		if part := d.shop.partOf(e); part != nil && part.Shut {
			continue
		}
		at[e.From], at[e.To] = append(at[e.From], e), append(at[e.To], e)
	}
	for i := 0; i < len(next); i++ {
		from := d.nodes[next[i]]
		for _, e := range at[next[i]] {
			to := e.From + e.To - next[i]
			if d.nodes[to].known {
				continue
			}
			c := from
			c.dry, c.liquid = 0, 0
			c.pressure = d.pressureAt(to, from.pressure)
			d.shop.clean(e, &c.claim)
			d.nodes[to] = c
			next = append(next, to)
		}
	}
}

// idleLines adds the runs in which nothing flows: they stand as their room.
func (w *shop) idleLines(d *walk) {
	seen := map[job.ID]bool{}
	for _, l := range d.out.Lines {
		seen[l.ID] = true
	}
	for _, e := range w.m.Elements() {
		run := w.ground.ix.Run(e.ID)
		if run == nil || seen[e.ID] || !d.nodes[e.From].known {
			continue
		}
		room := w.climate(w.ground.ix.ZoneOf(run), d.cold)
		c := d.nodes[e.From]
		c.temp = room
		d.out.Lines = append(d.out.Lines, lineOf(run.ID, room, c, c))
	}
}

// outlets tells the air at every outlet and what its tools want of it.
func (w *shop) outlets(d *walk) {
	liquid := map[job.ID]float64{} // kg/s that runs to an outlet without a drain
	for _, f := range d.falls {
		if f.how == AtOutlet {
			for _, o := range w.ground.ix.OutletsAt(f.to) {
				liquid[o.ID] += f.kg
			}
		}
	}
	for _, o := range w.m.Outlets() {
		if o.Node < 0 || !d.nodes[o.Node].known {
			continue
		}
		c := d.nodes[o.Node]
		one := Outlet{ID: o.ID, Dew: dew(c), Air: unit.Temperature(c.temp), Idle: c.dry <= 0}
		if c.dry > 0 {
			one.Liquid = 1e3 * (c.liquid + liquid[o.ID]) / float64(air.FreeAir(unit.MassFlow(c.dry)))
		}
		one.Class, one.Claim = Class(one.Dew, one.Liquid), c.claim
		if job := w.ground.ix.Outlet(o.ID); job != nil {
			for _, id := range job.Tools {
				one.Needs = append(one.Needs, w.need(id, &one))
			}
		}
		d.out.Outlets = append(d.out.Outlets, one)
	}
}

// need is what a tool wants: the job's word, the catalogue's, else class 4 as usual for tools.
func (w *shop) need(id job.ID, got *Outlet) Need {
	n := Need{Tool: id, Class: "4", Supposed: true}
	if t := w.ground.ix.Tool(id); t != nil {
		row, known := w.ground.shelf.Tool(t.Item)
		switch {
		case t.Water != "":
			n.Class, n.Supposed = t.Water, false
		case known && row.Water != "":
			n.Class = row.Water
		}
		n.Particles, n.Oil = cmp.Or(t.Particle, row.Particles), cmp.Or(t.Oil, row.Oil)
	}
	n.Met = meets(got.Class, n.Class)
	n.Claimed = reaches(got.Claim.Particles, n.Particles) && reaches(got.Claim.Oil, n.Oil)
	return n
}
