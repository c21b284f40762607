package route

import (
	"math"
	"slices"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
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

// reaches says whether air comes to all feet by what was drawn.
func (a *artist) reaches() bool {
	n := netOf(job.NewIndex(a.job), a.shelf)
	return !slices.ContainsFunc(a.maze.feet, func(f foot) bool {
		_, fed := n.depth[f.point]
		return !f.future && !fed
	})
}
