package parts

import (
	"fmt"
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// leastTurn is the angle from which a change of direction is a corner: a
// line follows less than that without a fitting.
const leastTurn = catalog.StraightOn * math.Pi / 180

// farOff is by how many degrees an elbow may miss a corner and still be sprung into it.
const farOff = 15

// runs counts metres of stock and what its corners ask for.
func (c *counter) runs() {
	for i := range c.job.Net.Runs {
		r := &c.job.Net.Runs[i]
		stock, known := c.shelf.Stock(r.Stock)
		words := r.Stock
		if known {
			words = stock.Words
		}
		t := c.lines.tally(Line{
			Article: r.Stock + " " + r.Size, Group: Stock, Words: words + ", " + SizeWords(r.Size),
			Stock: r.Stock, Size: r.Size,
		}, stateOf(r.State), 0)
		t.line.From = append(t.line.From, string(r.ID))
		c.metres(t, r)
		path := c.index.Centreline(r)
		for n, corner := range geom.Corners(path, leastTurn) {
			c.corner(r, corner.Turn, stateOf(r.State), fmt.Sprintf("%s/corner-%d", r.ID, n+1), c.roomAt(corner.At, true))
		}
	}
}

// metres adds a run's length, leg by leg to the room in which the leg's middle is.
func (c *counter) metres(t *tally, r *job.Run) {
	long, known := c.index.LengthOf(r)
	if !known {
		t.line.Unknown++
		return
	}
	t.metres += float64(long)
	path := c.index.Centreline(r)
	if len(path) < 2 || r.Length != nil {
		t.addMetres(c.roomOfEnds(r), float64(long))
		return
	}
	for i := 1; i < len(path); i++ {
		leg := path[i-1 : i+1]
		middle := geom.Point{(leg[0][0] + leg[1][0]) / 2, (leg[0][1] + leg[1][1]) / 2, (leg[0][2] + leg[1][2]) / 2}
		t.addMetres(c.roomAt(middle, true), geom.Length(leg))
	}
}

func (t *tally) addMetres(room job.ID, metres float64) {
	r := t.room(room)
	r.Length = new(lengthOf(r.Length) + unit.Length(metres))
}

// roomOfEnds is the room of a run that has no drawing: that of its first end.
func (c *counter) roomOfEnds(r *job.Run) job.ID {
	if p := c.index.Point(r.From.Point); p != nil {
		return c.roomAt(c.index.Where(p))
	}
	return ""
}

// corner counts what one corner of a run asks for: an elbow for stick stock, a
// bend made in the line for stock that sweeps.
func (c *counter) corner(r *job.Run, turn float64, state State, from string, room job.ID) {
	stock, known := c.shelf.Stock(r.Stock)
	if known && stock.Corners == "sweep" {
		l := Line{
			Article: fmt.Sprintf("bend %s %s", r.Stock, r.Size), Group: Made,
			Words: "bend made in the line, " + stock.Words + ", " + SizeWords(r.Size), Stock: r.Stock, Size: r.Size,
		}
		if size, ok := stock.Size(r.Size); ok && stock.LeastRadius(size) > 0 {
			l.Note = "radius at least " + c.long(stock.LeastRadius(size))
		}
		c.pieces(l, state, 1, from, room)
		return
	}
	kind, off, ok := c.elbow(degrees(turn))
	l := Line{
		Article: fmt.Sprintf("%s %s %s", r.Stock, kind.Kind, r.Size), Group: Fitting,
		Words: kind.Name("en") + " " + SizeWords(r.Size), Kind: kind.Kind, Stock: r.Stock, Size: r.Size,
	}
	if !ok || off > farOff {
		l.Article = fmt.Sprintf("%s corner %.0f° %s", r.Stock, degrees(turn), r.Size)
		l.Words = fmt.Sprintf("corner of %.0f° in %s", degrees(turn), SizeWords(r.Size))
		l.Note = "no elbow of this angle in the catalogue: move the corner or use two"
	}
	if known {
		l.Words += ", " + stock.Words
	}
	c.pieces(l, state, 1, from, room)
}

// elbow is the catalogue's fitting that turns most nearly by an angle: of several
// the one with the greater loss, the ordinary elbow and not a sweep.
func (c *counter) elbow(turned float64) (best catalog.Kind, off float64, ok bool) {
	off = math.Inf(1)
	loss := func(k catalog.Kind) float64 {
		if k.Law.LeOverD == nil {
			return 0
		}
		return *k.Law.LeOverD
	}
	for _, k := range c.kinds {
		if !k.Has(catalog.Turns) || len(k.Ports) != 2 || k.Ports[0].Joint != k.Ports[1].Joint {
			continue
		}
		miss := math.Abs(turnOf(k) - turned)
		if miss < off-1 || miss < off+1 && loss(k) > loss(best) {
			best, off, ok = k, miss, true
		}
	}
	return best, off, ok
}

// turnOf is by how many degrees a fitting with two ports turns the air.
func turnOf(k catalog.Kind) float64 {
	return 180 - geom.Angle(k.Ports[0].Toward, k.Ports[1].Toward)*180/math.Pi
}

// long is a length in the units of the job's people.
func (c *counter) long(l unit.Length) string {
	return c.system.Listed(l)
}
