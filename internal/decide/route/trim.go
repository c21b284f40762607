package route

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// lowPoint drains the end of a line: a leg down with a drain.
func (a *artist) lowPoint(point job.ID) error {
	ix := job.NewIndex(a.job)
	p, ok := ix.Where(ix.Point(point))
	if !ok || a.drain == "" {
		return nil
	}
	low := p
	if room := ix.RoomAt(p); room != nil {
		low[2] = float64(room.Floor) + drainUp
	}
	if low[2] > p[2]-legLeast || a.maze.hit(low, p) {
		low[2] = p[2] - legLeast
	}
	made, err := a.do(&fit.Plant{Kind: a.drain, Name: "Drain of the main", At: at(low)})
	if err != nil {
		return err
	}
	_, err = a.do(&fit.Line{From: fit.Anchor{Point: point}, To: fit.Anchor{Point: made[0]}, Stock: a.pen.stock.Stock, Size: a.pen.drop, Role: "drip"})
	return err
}

// valveIn wants a valve in the first straight piece of a branch or main.
func (a *artist) valveIn(from, to geom.Point) {
	long := from.Distance(to)
	a.valves = append(a.valves, from.Plus(to.Minus(from).Times(math.Min(valveFrom, long/2)/long)))
}

// valveAt sets a valve into the run that passes a place, where there is room.
func (a *artist) valveAt(p geom.Point) {
	if a.setIn(a.valve, p) {
		a.set++
	}
}

// unionAt sets a union between treatment and the main's first valve, so that it comes out
// without cutting.
func (a *artist) unionAt(x *line) {
	n := netOf(job.NewIndex(a.job), a.shelf)
	if x.from != -1 || len(x.path) < 2 || !n.stands(a.start) {
		return
	}
	for _, k := range a.shelf.Kinds() {
		if k.Has(catalog.Unions) && len(k.Ports) == 2 && k.Ports[0].Joint == "stock" && k.Ports[1].Joint == "stock" {
			long := x.path[0].Distance(x.path[1])
			a.setIn(k.Kind, x.path[0].Plus(x.path[1].Minus(x.path[0]).Times(math.Min(valveFrom, long/2)/2/long)))
			return
		}
	}
}

// setIn sets a part into the run that passes a place, where there is room.
func (a *artist) setIn(kind string, p geom.Point) bool {
	ix := job.NewIndex(a.job)
	for i := range a.job.Net.Runs {
		r := &a.job.Net.Runs[i]
		if h, ok := geom.NearestOnPath(p, ix.Centreline(r)); ok && h.Distance < merge && r.Role != "drip" {
			_, ok := a.try(&fit.Plant{Kind: kind, Into: &fit.Anchor{Run: r.ID, Along: new(unit.Length(h.Along))}})
			return ok
		}
	}
	return false
}
