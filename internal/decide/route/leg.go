package route

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

// leg draws a leg off the line that passes a place, from its top; first where the leg
// begins at the plant itself.
func (a *artist) leg(p geom.Point, foot int, first bool) error {
	f := &a.maze.feet[foot]
	if first {
		return a.drawLeg(fit.Anchor{Point: a.start}, p, lShape(p, f.at), f)
	}
	ix := job.NewIndex(a.job)
	r, hit, ok := a.runAt(ix, p)
	if !ok {
		return refuse("no-way", "outlets", "no line passes over "+f.words(), "", f.outlets...)
	}
	in, on, _ := around(ix.Centreline(r), hit.Along)
	var last error
	for _, by := range a.shifts(hit.At, foot) {
		t := hit.At.Plus(on.Times(by))
		if by < 0 {
			t = hit.At.Plus(in.Times(by))
		}
		from, ok := a.room(ix, t)
		if !ok {
			continue
		}
		if last = a.drawLeg(from, t, a.over(t, f.at, by), f); last == nil {
			return nil
		}
	}
	if last == nil {
		last = refuse("no-room", "outlets", "the line has no room for a tee by "+f.words(), "move the outlet a little along the wall", f.outlets...)
	}
	return last
}

// room is the run at a place where a tee has room: on a straight piece, off its ends.
func (a *artist) room(ix *job.Index, t geom.Point) (fit.Anchor, bool) {
	r, hit, ok := a.runAt(ix, t)
	if !ok || hit.Distance > 2*merge {
		return fit.Anchor{}, false
	}
	way := ix.Centreline(r)
	if hit.Along < tapRoom/2 || hit.Along > geom.Length(way)-tapRoom/2 {
		return fit.Anchor{}, false
	}
	_, _, corner := around(way, hit.Along)
	return fit.Anchor{Run: r.ID, Along: new(unit.Length(hit.Along))}, !corner
}

// shifts are where a take-off may be, along from right over its outlet: beside it where
// the leg comes down, else right there.
func (a *artist) shifts(p geom.Point, foot int) []float64 {
	to, b := a.maze.feet[foot].at, a.beside
	var out []float64
	for wide := a.wide[foot]; wide > b; wide -= b / 2 { // wider, and less so where there is no room for it
		out = append(out, -wide, wide)
	}
	return append(out, a.narrow(p, to, b)...)
}

func (a *artist) narrow(p, to geom.Point, b float64) []float64 {
	if p[2] > to[2]+legLeast && p.Plan().Distance(to.Plan()) < b {
		return []float64{-b, b, -2 * b, 2 * b, -3 * b, 3 * b, -b / 2, b / 2}
	}
	return []float64{0, -2 * b, 2 * b, -b, b, -b / 2, b / 2}
}

// over is the way of a leg from its take-off: up, over and down where it comes down; else
// up to the height of its outlet and over, or, where the outlet lies aside, level first.
func (a *artist) over(t, to geom.Point, shift float64) []geom.Point {
	if t[2] <= to[2]+legLeast {
		if shift == 0 || math.Abs(to[2]-t[2]) < 2*merge {
			return lShape(t, to)
		}
		return []geom.Point{{t[0], t[1], to[2]}}
	}
	up := a.rise
	if room := spaceAt(a.maze.spaces, t); room >= 0 {
		up = math.Min(up, a.maze.spaces[room].ceiling-t[2]-0.03)
	}
	top := geom.Point{t[0], t[1], t[2] + math.Max(up, 0.04)}
	return []geom.Point{top, {to[0], to[1], top[2]}}
}

// lShape goes over at the height of the start and then up or down.
func lShape(a, b geom.Point) []geom.Point {
	if a.Plan().Distance(b.Plan()) < merge || math.Abs(a[2]-b[2]) < merge {
		return nil
	}
	return []geom.Point{{b[0], b[1], a[2]}}
}

// legFrom draws a leg on from the loose end of a line.
func (a *artist) legFrom(end job.ID, p geom.Point, foot int) error {
	f := &a.maze.feet[foot]
	return a.drawLeg(fit.Anchor{Point: end}, p, lShape(p, f.at), f)
}

// drawLeg draws a leg with its valve, and the drain of its outlet.
func (a *artist) drawLeg(from fit.Anchor, start geom.Point, via []geom.Point, f *foot) error {
	g := &fit.Line{From: from, Stock: a.pen.stock.Stock, Size: a.pen.drop, Role: "drop"}
	way := []geom.Point{start}
	for _, p := range via {
		if p.Distance(way[len(way)-1]) > 2*merge && p.Distance(f.at) > 2*merge {
			g.Via, way = append(g.Via, *at(p)), append(way, p)
		}
	}
	switch {
	case f.future:
		g.Role, g.State, g.To = "stub", "stub", fit.Anchor{Place: at(f.at)}
	default:
		g.To = fit.Anchor{Point: f.point}
	}
	made, err := a.do(g)
	if err != nil {
		return err
	}
	for _, id := range made {
		a.drawn[id] = true
	}
	before := way[len(way)-1]
	long := before.Distance(f.at)
	a.valves = append(a.valves, f.at.Plus(before.Minus(f.at).Times(math.Min(valveOver, long/2)/long)))
	return a.drainAt(f)
}

// drainAt sets a drain under an outlet that has an opening for one, where the air is not dried.
func (a *artist) drainAt(f *foot) error {
	ix := job.NewIndex(a.job)
	p := ix.Point(f.point)
	if f.future || p == nil || len(f.outlets) == 0 || a.drain == "" {
		return nil
	}
	k, _ := a.shelf.Kind(p.Part.Kind)
	port, ok := k.Port("drain")
	switch {
	case a.dried():
		return nil
	case !ok || k.Group == catalog.Treatment:
		return a.catchWater(f)
	}
	for _, e := range ix.Ends(f.point) {
		if e.Port == port.ID {
			return nil
		}
	}
	made, err := a.do(&fit.Plant{Kind: a.drain, At: at(geom.Point{f.at[0], f.at[1], f.at[2] - drainLow})})
	if err != nil {
		return err
	}
	_, err = a.do(&fit.Line{From: fit.Anchor{Point: f.point, Port: port.ID}, To: fit.Anchor{Point: made[0]}, Stock: a.pen.stock.Stock, Size: a.pen.drop, Role: "drip"})
	return err
}
