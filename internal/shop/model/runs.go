package model

import (
	"fmt"
	"math"

	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

func length(x float64) unit.Length { return unit.Length(x) }

// steepest is the roughest wall that the line law takes, in bores.
const steepest = 0.05

// layRun lays a line: its length with the loss of its corners and of narrowed
// ends at places that are no element of their own.
func (b *builder) layRun(i int) {
	r := &b.j.Net.Runs[i]
	var nodes [2]int
	for n, end := range []job.End{r.From, r.To} {
		at, ok := b.nodeAt(end.Point, b.portOf(end.Point, i, n == 1))
		if !ok {
			b.trouble("unknown-point", job.Fault, fmt.Sprintf("%s ends at %s, which does not exist; it is left out", r.ID, end.Point),
				"a line needs two points", r.ID)
			return
		}
		nodes[n] = at
	}
	stock, size, ok := b.shelf.line(r.Stock, r.Size)
	if !ok || size.Bore <= 0 {
		b.trouble("unknown-line", job.Fault, fmt.Sprintf("%s is of %s %s, which the catalogue does not know; it is left out", r.ID, r.Stock, r.Size),
			"its bore is not known", r.ID)
		return
	}
	bore, long := float64(size.Bore), b.lengthOf(r)
	k := b.cornerLoss(r, stock, size).with(b.endLoss(r, i, stock, bore), add)
	wall := b.wallOf(r, stock)
	zone := b.zoneOfRun(r)
	gas := b.gasIn(zone)
	if long <= 0 && k.likely <= 0 {
		b.g.merge(nodes[0], nodes[1])
		return
	}
	b.g.add(link{
		Element: Element{
			ID: r.ID, Words: b.lineWords(r, stock, long), Thing: ThingLine, Role: r.Role,
			From: nodes[0], To: nodes[1], Bore: size.Bore, Length: unit.Length(long),
			Stock: r.Stock, Size: r.Size, K: k.likely,
		},
		zone: zone,
		law: func(v variant) (element.Law, error) {
			return element.NewPipe(gas, element.PipeSpec{
				Length: long, Bore: bore, K: k.at(v.bias),
				Roughness: math.Min(wall.at(v.bias), steepest*bore),
			})
		},
	})
}

// portOf is the port that an end of a run was settled on.
func (b *builder) portOf(point job.ID, run int, to bool) string {
	for _, e := range b.ends[point] {
		if e.run == run && e.to == to {
			return e.port
		}
	}
	return ""
}

// wallOf is the roughness: as readings found it; else as new by the row's value, used by its
// upper end.
func (b *builder) wallOf(r *job.Run, stock catalog.Stock) figure {
	if r.Wall != nil {
		return sure(float64(*r.Wall))
	}
	f := lessIsBetter(stock.Roughness)
	if r.Rough == "used" {
		f = figure{f.worst, f.likely, f.worst}
	}
	b.assume(Assumption{
		ID: r.ID, Words: "roughness of the wall", Key: "roughness_m", Value: f.likely, Low: f.best, High: f.worst,
		Ref: stock.Roughness.Ref, Row: stock.Stock,
	})
	return f
}

// insertOf is the share of the bore that a fitting for this stock leaves; 1
// where fittings go over the line.
func (b *builder) insertOf(stock catalog.Stock) (figure, bool) {
	if s := b.shelf.insert(stock); s != nil && s.Value > 0 && s.Value < 1 {
		return moreIsBetter(*s), true
	}
	return sure(1), false
}

// joining is the usual way of joining a stock.
func joining(s catalog.Stock) string {
	if len(s.Joining) == 0 {
		return ""
	}
	return s.Joining[0]
}

// transition is the loss of passing one end of an insert fitting, on the
// narrowed bore: half of what going in and coming out costs together, for
// which way the air goes is not known here.
func transition(share float64) float64 {
	return (contraction(share) + enlargement(share)) / 2
}

// cornerLoss sums the loss of the path's corners on the line's bore: an elbow
// each for stick stock, a sweep for coil stock.
func (b *builder) cornerLoss(r *job.Run, stock catalog.Stock, size catalog.Size) figure {
	bore := float64(size.Bore)
	share, narrowed := b.insertOf(stock)
	total := figure{}
	for _, degrees := range b.corners(r) {
		if stock.Corners == "sweep" {
			radii := 4.0 // in bores; a gentle hand bend
			if stock.SweepRadius != nil && size.Outside > 0 {
				radii = *stock.SweepRadius * float64(size.Outside) / bore
			}
			total = total.with(sure(bendLe(radii)*b.turbulent(bore)*degrees/90), add)
			continue
		}
		law := b.shelf.elbow(degrees)
		total = total.with(share.each(func(s float64) float64 {
			loss, _ := b.shelf.Loss(law, joining(stock), unit.Length(bore*s))
			k := loss.Through
			if narrowed {
				k += 2 * transition(s)
			}
			return scaled(k, bore*s, bore)
		}), add)
	}
	return total
}

// endLoss is what narrowed ends cost at plain places: parts that are elements
// count their own ends.
func (b *builder) endLoss(r *job.Run, run int, stock catalog.Stock, bore float64) figure {
	share, narrowed := b.insertOf(stock)
	total := figure{}
	if !narrowed {
		return total
	}
	for n, end := range []job.End{r.From, r.To} {
		here, ok := b.points[end.Point]
		if !ok || len(here.kind.Ports) >= 2 && b.countsEnds(here.kind) {
			continue
		}
		if port := portNamed(here.kind, b.portOf(end.Point, run, n == 1)); port != nil && port.Joint != "stock" {
			continue
		}
		if len(b.ends[end.Point]) < 2 && len(here.kind.Ports) < 2 {
			continue // the line just ends here
		}
		total = total.with(share.each(func(s float64) float64 { return scaled(transition(s), bore*s, bore) }), add)
	}
	return total
}

// countsEnds says whether a part's own element carries the loss of its narrowed ends.
func (b *builder) countsEnds(k catalog.Kind) bool {
	return k.Law.Name == "minor" || k.Law.Name == "tee"
}

// portNamed finds a port of a kind.
func portNamed(k catalog.Kind, id string) *catalog.Port {
	for i := range k.Ports {
		if k.Ports[i].ID == id {
			return &k.Ports[i]
		}
	}
	return nil
}

// useAt reads a port in use: the bore the air sees there and what a narrowed end costs.
func (b *builder) useAt(pt *job.Point, port catalog.Port, node int) use {
	u := use{port: port, node: node}
	stated := pt.Part.Size
	if port.Size == "branch" {
		stated = pt.Part.Size2
	}
	run := b.runAt(pt, port.ID)
	if run == nil && stated == "" {
		run = b.firstRun(pt)
	}
	if run == nil {
		u.size = stated
		u.bore = sure(b.shelf.bore("", stated))
		return u
	}
	u.size = stated
	if stated == "" {
		u.size = run.Size
	}
	u.bore = sure(b.shelf.bore(run.Stock, u.size))
	stock, _, ok := b.shelf.line(run.Stock, run.Size)
	if !ok || port.Joint != "stock" {
		return u
	}
	if share, narrowed := b.insertOf(stock); narrowed {
		u.bore = u.bore.with(share, times)
		u.step = share.each(transition)
		b.assume(Assumption{
			ID: pt.ID, Words: "share of the bore left inside the fitting", Key: "insert_bore",
			Value: share.likely, Low: share.worst, High: share.best, Ref: b.shelf.insert(stock).Ref, Row: stock.Stock,
		})
	}
	return u
}

// runAt is the run joined to a port.
func (b *builder) runAt(pt *job.Point, port string) *job.Run {
	for _, e := range b.ends[pt.ID] {
		if e.port == port {
			return &b.j.Net.Runs[e.run]
		}
	}
	return nil
}

// firstRun is the run at the first port that has one: it sets the size of a part that states none.
func (b *builder) firstRun(pt *job.Point) *job.Run {
	if ends := b.ends[pt.ID]; len(ends) > 0 {
		return &b.j.Net.Runs[ends[0].run]
	}
	return nil
}

// joinedAt is how the line at a point is joined.
func (b *builder) joinedAt(pt *job.Point) string {
	if run := b.firstRun(pt); run != nil {
		if stock, ok := b.shelf.Stock(run.Stock); ok {
			return joining(stock)
		}
	}
	return ""
}
