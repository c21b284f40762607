package start

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// sizes is what a build is made with: places in the ladders, low to high.
type sizes struct {
	main    int   // of the stock's sizes, for plant and main
	drops   []int // of the stock's sizes, by seat
	grade   int   // of the grades: the coupler of the whole shop
	hoses   []int // of the grades: the hose, by seat
	filter  int   // of the rows of the main filter
	holders []int // of the rows of regulators, by seat
}

// ladders are what sizes count.
type ladders struct {
	lines   []catalog.Size
	grades  []grade
	filters []catalog.Treat // of the main
	holders []catalog.Treat // regulators with filter, at outlets
	fine    []catalog.Treat // fine filters, at outlets for paint
}

// build draws the whole shop in some sizes. lines gives, by id, what each run is
// part of: −1 plant and main, else the seat.
func (b *brief) build(room *draft, r *round, c route, l *ladders, z sizes) (*job.Job, map[job.ID]int, error) {
	d := *room
	of := map[job.ID]int{}
	tools, err := b.addTools(&d, l.grades[z.grade].coupler)
	if err != nil {
		return nil, nil, err
	}
	start, err := b.plant(&d, r, c, l, z)
	if err != nil {
		return nil, nil, err
	}
	main, err := b.main(&d, r, c, l, z, start)
	if err != nil {
		return nil, nil, err
	}
	for k := len(c.seats) - 1; k >= 0; k-- { // from the far end: the main keeps its id up to each cut
		if err := b.drop(&d, r, c, l, z, k, main, tools, of); err != nil {
			return nil, nil, err
		}
	}
	for i := range d.job.Net.Runs {
		if id := d.job.Net.Runs[i].ID; of[id] == 0 {
			of[id] = -1
		} else {
			of[id]--
		}
	}
	inOrder(d.job, len(c.seats))
	return d.job, of, nil
}

// inOrder puts outlets, drawn from the far end, into the order of the main.
func inOrder(j *job.Job, n int) {
	for i, k := 0, n-1; i < k; i, k = i+1, k-1 {
		j.Outlets[i], j.Outlets[k] = j.Outlets[k], j.Outlets[i]
	}
}

// addTools puts the tools into the job and gives their ids.
func (b *brief) addTools(d *draft, coupler string) ([]job.ID, error) {
	var out []job.ID
	for i, t := range b.Tools {
		name := t.Name
		if name == "" {
			name = titled(b.tools[i].Words)
		}
		tool := job.Tool{Name: name, Item: t.Item, Plug: coupler}
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

// plant draws compressor, receiver and what belongs to them, and gives the port
// from which the main begins.
func (b *brief) plant(d *draft, r *round, c route, l *ladders, z sizes) (fit.Anchor, error) {
	link := pen{b.stock.Stock, l.lines[z.main].Size, "link"}
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
	filter := put(l.filters[z.filter].Kind, l.filters[z.filter].Item, "Main filter", where(plantLong-fromCorn, lineOff, 1.4), job.Part{})
	join(port(compressor, "out"), port(receiver, "in"), where(0.7, plantOff, 0.9), where(0.7, plantOff-linkOff, 0.9), where(0.7, plantOff-linkOff, 0.5))
	join(port(receiver, "relief"), port(valve, "in"))
	join(port(receiver, "drain"), port(drain, "in"))
	join(port(receiver, "out"), port(lock, "in"))
	join(port(lock, "out"), port(flex, "in"))
	join(port(flex, "out"), port(filter, "in"), where(plantLong-fromCorn, plantOff, 0.5), where(plantLong-fromCorn, lineOff, 0.5))
	return port(filter, "out"), fail
}

// main draws the riser and the main, with the drain at its end, and gives its id.
func (b *brief) main(d *draft, r *round, c route, l *ladders, z sizes, start fit.Anchor) (job.ID, error) {
	ink := pen{b.stock.Stock, l.lines[z.main].Size, "main"}
	way := r.way(c.riser, c.long, c.dir, c.high, c.fall)
	end := way[len(way)-1]
	slope := unit.Ratio(math.Round(c.fall*1e4) / 1e4)
	g := &fit.Line{From: start, To: fit.Anchor{Place: &fit.Place{At: &end}}, Stock: ink.stock, Size: ink.size, Role: ink.role, State: d.state, Slope: &slope}
	for i := range way[:len(way)-1] {
		g.Via = append(g.Via, fit.Place{At: &way[i]})
	}
	made, err := d.do(g)
	if err != nil {
		return "", err
	}
	main := job.NewIndex(d.job).Run(made[0])
	drain, err := d.place("drain-cock", "", "Drain of the main", at(geom.Point{end[0], end[1], float64(r.room.Floor) + endUp}), job.Part{})
	if err != nil {
		return "", err
	}
	ink.role = "drip"
	ink.size = l.lines[0].Size
	if _, err := d.line(ink, port(main.To.Point, ""), port(drain, "in")); err != nil {
		return "", err
	}
	return main.ID, nil
}

// drop hangs the k-th drop leg with its outlet and drain.
func (b *brief) drop(d *draft, r *round, c route, l *ladders, z sizes, k int, main job.ID, tools []job.ID, of map[job.ID]int) error {
	ix := job.NewIndex(d.job)
	s := c.seats[k]
	line := ix.Centreline(ix.Run(main))
	hit, _ := geom.NearestOnPath(r.at(s.t, lineOff, c.high-c.fall*s.u), line)
	along := length(hit.Along)
	g := &fit.Drop{
		From: fit.Anchor{Run: main, Along: &along}, To: r.on(s.t, lineOff, outletUp),
		Stock: b.stock.Stock, Size: l.lines[z.drops[k]].Size, TakeOff: "top", State: d.state, Valve: true,
		Outlet: fit.DropOutlet{
			Name: s.name, Mark: letters(k), Kind: "wall-block", Hang: b.hang(l, z, k, s),
			Hose: &fit.Hose{Item: l.grades[z.hoses[k]].hose, Length: b.hoseLength(), Plug: l.grades[z.grade].coupler, Socket: l.grades[z.grade].coupler},
		},
	}
	for _, i := range s.tools {
		g.Outlet.Tools = append(g.Outlet.Tools, tools[i])
	}
	made, err := d.do(g)
	if err != nil {
		return err
	}
	block := job.NewIndex(d.job).Outlet(made[0]).Point
	drain, err := d.place("drain-cock", "", "", r.on(s.t, lineOff, drainUp), job.Part{})
	if err != nil {
		return err
	}
	drip, err := d.line(pen{b.stock.Stock, l.lines[z.drops[k]].Size, "drip"}, port(block, "drain"), port(drain, "in"))
	if err != nil {
		return err
	}
	after := job.NewIndex(d.job)
	for _, id := range append(made, drip...) {
		if run := after.Run(id); run != nil && run.Role != "main" {
			of[id] = k + 1
		}
	}
	return nil
}

func (b *brief) hoseLength() unit.Length {
	if b.Units == string(unit.US) {
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
