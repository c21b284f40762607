package parts

import (
	"fmt"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// runEnd is one end of a run with the port that it takes.
type runEnd struct {
	run  *job.Run
	atTo bool
	port string
}

// point is where the end is.
func (e runEnd) point() job.ID {
	if e.atTo {
		return e.run.To.Point
	}
	return e.run.From.Point
}

// settle gives each run end and each outlet the port that it takes: the one stated;
// else, as the air goes, a run leaves by "out" and arrives by "in" where these are
// free, and otherwise takes the first port that is.
func (c *counter) settle() {
	taken := map[string]bool{}
	name := func(p job.ID, port string) string { return string(p) + "/" + port }
	for i := range c.job.Net.Runs {
		r := &c.job.Net.Runs[i]
		taken[name(r.From.Point, r.From.Port)] = true
		taken[name(r.To.Point, r.To.Port)] = true
	}
	for i := range c.job.Outlets {
		taken[name(c.job.Outlets[i].Point, c.job.Outlets[i].Port)] = true
	}
	port := func(point job.ID, stated, want string) string {
		if stated != "" {
			return stated
		}
		p := c.freePort(point, want, func(port string) bool { return taken[name(point, port)] })
		taken[name(point, p)] = true
		return p
	}
	c.ends = make(map[job.ID][]runEnd, len(c.job.Net.Points))
	for i := range c.job.Net.Runs {
		r := &c.job.Net.Runs[i]
		c.ends[r.From.Point] = append(c.ends[r.From.Point], runEnd{r, false, port(r.From.Point, r.From.Port, "out")})
		c.ends[r.To.Point] = append(c.ends[r.To.Point], runEnd{r, true, port(r.To.Point, r.To.Port, "in")})
	}
	c.hangs = make([]string, len(c.job.Outlets))
	for i := range c.job.Outlets {
		o := &c.job.Outlets[i]
		c.hangs[i] = port(o.Point, o.Port, "out")
	}
}

// freePort picks a port for one that names none: the wanted one, else the first that
// is free, and a drain or a relief port last. A part that is not known, or has too few
// ports, gets one with a number.
func (c *counter) freePort(point job.ID, want string, taken func(string) bool) string {
	var kind catalog.Kind
	if p := c.index.Point(point); p != nil {
		kind, _ = c.shelf.Kind(p.Part.Kind)
	}
	rank := func(p catalog.Port) int {
		switch p.ID {
		case want:
			return 0
		case drainPort, reliefPort:
			return 2
		}
		return 1
	}
	best := -1
	for i, p := range kind.Ports {
		if !taken(p.ID) && (best < 0 || rank(p) < rank(kind.Ports[best])) {
			best = i
		}
	}
	if best >= 0 {
		return kind.Ports[best].ID
	}
	for n := 1; ; n++ {
		if p := fmt.Sprintf("end-%d", n); !taken(p) {
			return p
		}
	}
}

// isPlain says whether a point is a plain place on a line, with no part of its own.
func (c *counter) isPlain(point job.ID) bool {
	p := c.index.Point(point)
	if p == nil {
		return true
	}
	kind, ok := c.shelf.Kind(p.Part.Kind)
	return ok && kind.Law.Name == "none"
}

// sweeps says whether a stock's corners are bends made in the line.
func (c *counter) sweeps(stock string) bool {
	s, ok := c.shelf.Stock(stock)
	return ok && s.Corners == "sweep"
}

// onward is the run end in which a line goes on at a plain place without a joint:
// of the same stock, size and state, and straight on unless the stock sweeps.
func (c *counter) onward(e runEnd) (next runEnd, ok bool) {
	point := e.point()
	ends := c.ends[point]
	if len(ends) != 2 || ends[0].run == ends[1].run || !c.isPlain(point) || c.cutAt[point] || len(c.index.OutletsAt(point)) > 0 {
		return runEnd{}, false
	}
	i := slices.IndexFunc(ends, func(x runEnd) bool { return x.run != e.run })
	next = ends[i]
	a, b := e.run, next.run
	if a.Stock != b.Stock || a.Size != b.Size || stateOf(a.State) != stateOf(b.State) {
		return runEnd{}, false
	}
	turn, known := c.turnAt(point)
	return next, !known || turn <= leastTurn || c.sweeps(a.Stock)
}

// turnAt is by how much the way turns at a plain place where two runs meet.
func (c *counter) turnAt(point job.ID) (turn float64, ok bool) {
	ends := c.index.Ends(point)
	if len(ends) != 2 {
		return 0, false
	}
	return c.index.TurnBetween(ends[0], ends[1])
}
