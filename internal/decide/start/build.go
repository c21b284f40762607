package start

import (
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// build draws the whole shop but for its lines: tools, plant, outlets with what hangs there.
func (b *brief) build(room *draft, r *round, c stand, l *ladders, z sizes) (*job.Job, error) {
	d := *room
	tools, err := b.addTools(&d, l.grades[z.grade].coupler)
	if err != nil {
		return nil, err
	}
	if err := b.plant(&d, r, c, l, z); err != nil {
		return nil, err
	}
	kind := b.outletKind()
	for k := range c.seats {
		if err := b.outlet(&d, r, c, l, z, k, kind, tools); err != nil {
			return nil, err
		}
	}
	return d.job, nil
}

// outletKind is what outlets hang at: a block on the wall that catches water.
func (b *brief) outletKind() string {
	kind := ""
	for _, k := range b.shelf.Kinds() {
		if k.Has(catalog.Outlets) && k.FixesTo == "wall" && !k.Has(catalog.Branches) && (kind == "" || k.Has(catalog.Collects)) {
			kind = k.Kind
		}
	}
	return kind
}

// addTools puts the tools into the job and gives their ids.
func (b *brief) addTools(d *draft, coupler string) ([]job.ID, error) {
	var out []job.ID
	for i, t := range b.Tools {
		tool := job.Tool{Name: b.names[i], Item: t.Item, Plug: coupler}
		if t.Count > 1 {
			tool.Count = t.Count
		}
		raw, err := thing(&tool)
		if err != nil {
			return nil, err
		}
		made, err := d.do(&fit.Put{What: "tool", Thing: raw})
		if err != nil {
			return nil, err
		}
		out = append(out, made[0])
	}
	return out, nil
}

// plant draws compressor, receiver and what belongs to them, up to the main filter, behind
// which lines begin.
func (b *brief) plant(d *draft, r *round, c stand, l *ladders, z sizes) error {
	link := pen{b.stock.Stock, z.line, "link"}
	where := func(along, off, up float64) fit.Place { return at(r.at(c.plant+c.dir*along, off, up)) }
	opens := relief(b.cutOut(), l.filters[z.filter].Rating)
	rating, volume := stamp(opens), b.volume()
	var fail error
	put := func(kind, item, name string, p fit.Place, figures job.Part) job.ID {
		if fail != nil {
			return ""
		}
		var id job.ID
		id, fail = d.place(kind, item, name, p, figures)
		return id
	}
	join := func(from, to fit.Anchor, via ...fit.Place) {
		if fail != nil {
			return
		}
		way := make([]geom.Point, 0, len(via))
		for _, v := range via {
			way = append(way, *v.At)
		}
		_, fail = d.line(link, from, to, way...)
	}
	figures := job.Part{Compressor: b.plate()}
	item := b.machine.Machine
	compressor := put("compressor", item, "Compressor", where(0, plantOff, 0.9), figures)
	receiver := put("receiver", "", "Receiver", where(0.7, plantOff, 0.5), job.Part{Volume: &volume, Rating: &rating})
	valve := put("relief-valve", "", "Relief valve", where(0.7, plantOff, 0.95), job.Part{Set: &opens})
	drain := put("drain-cock", "", "Receiver drain", where(0.7, plantOff, 0.1), job.Part{})
	lock := put("lockable-valve", "", "Supply valve", where(1.05, plantOff, 0.5), job.Part{})
	flex := put("flexible-link", "", "Flexible link", where(1.3, plantOff, 0.5), job.Part{})
	name := "Main filter"
	if b.bare {
		name = "Main separator"
	}
	filter := put(l.filters[z.filter].Kind, l.filters[z.filter].Item, name, where(plantLong-fromCorn, lineOff, 1.4), job.Part{})
	join(port(compressor, "out"), port(receiver, "in"), where(0, plantOff-linkOff, 0.9), where(0.7, plantOff-linkOff, 0.9), where(0.7, plantOff-linkOff, 0.5))
	join(port(receiver, "relief"), port(valve, "in"))
	join(port(receiver, "drain"), port(drain, "in"))
	join(port(receiver, "out"), port(lock, "in"))
	join(port(lock, "out"), port(flex, "in"))
	join(port(flex, "out"), port(filter, "in"), where(plantLong-fromCorn, plantOff, 0.5), where(plantLong-fromCorn, lineOff, 0.5))
	if b.owned() {
		inState(d.job, "existing", compressor, receiver, valve, drain)
	}
	return fail
}

// outlet hangs the k-th outlet with its hose, without a line.
func (b *brief) outlet(d *draft, r *round, c stand, l *ladders, z sizes, k int, kind string, tools []job.ID) error {
	s := c.seats[k]
	point, err := d.place(kind, "", s.name, r.on(s.t, lineOff, float64(b.outletHeight())), job.Part{})
	if err != nil {
		return err
	}
	g := l.grades[z.grade]
	mark := fit.Letters(k)
	compose := &fit.Compose{
		Point: point, Name: &s.name, Mark: &mark, Hang: b.hang(l, z, k, s),
		Hose: &fit.Hose{Item: g.hose, Length: b.hoseLength(), Plug: g.coupler, Socket: g.coupler},
	}
	for _, i := range s.tools {
		compose.Tools = append(compose.Tools, tools[i])
	}
	_, err = d.do(compose)
	return err
}

func (b *brief) outletHeight() unit.Length {
	if b.OutletUp > 0 {
		return b.OutletUp
	}
	return outletUp
}

func (b *brief) hoseLength() unit.Length {
	switch {
	case b.Hose > 0:
		return b.Hose
	case b.Units == string(unit.US):
		return hoseFeet
	}
	return hoseLong
}

// hang is what hangs at an outlet before the hose.
func (b *brief) hang(l *ladders, z sizes, k int, s seat) []job.Part {
	var out []job.Part
	if s.set > 0 {
		row, set := l.holders[z.holders[k]], s.set
		out = append(out, job.Part{Kind: row.Kind, Item: row.Item, Set: &set})
	}
	if s.clean && len(l.fine) > 0 {
		row := l.fine[min(z.holders[k], len(l.fine)-1)]
		out = append(out, job.Part{Kind: row.Kind, Item: row.Item})
	}
	return append(out, job.Part{Kind: "coupler", Item: l.grades[z.grade].coupler})
}
