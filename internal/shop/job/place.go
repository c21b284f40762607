package job

import (
	"math"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
)

// Frame is the wall as a frame of geom.
func (w *Wall) Frame() geom.Frame {
	return geom.Frame{From: w.From, To: w.To, Floor: float64(w.Floor)}
}

// Where is a point's place in space; ok is false where it has none or its wall
// is not there.
func (ix *Index) Where(p *Point) (at geom.Point, ok bool) { return placeOf(p, ix) }

// placeOf is Where with whatever knows the walls.
func placeOf(p *Point, f finder) (at geom.Point, ok bool) {
	switch {
	case p == nil:
		return at, false
	case p.At != nil:
		return *p.At, p.At.Finite()
	case p.On == nil:
		return at, false
	}
	w, ok := f.thing(p.On.Wall).(*Wall)
	if !ok {
		return at, false
	}
	at = w.Frame().Out(float64(p.On.Along), float64(p.On.Up), float64(p.On.Off))
	return at, at.Finite()
}

// Centreline is a run's way from point to point with its corners; nil where an
// end has no place or the run states its length instead.
func (ix *Index) Centreline(r *Run) []geom.Point {
	from, ok1 := ix.Where(ix.Point(r.From.Point))
	to, ok2 := ix.Where(ix.Point(r.To.Point))
	if !ok1 || !ok2 {
		return nil
	}
	line := make([]geom.Point, 0, len(r.Path)+2)
	line = append(line, from)
	line = append(line, r.Path...)
	return append(line, to)
}

// TurnBetween is the angle, rad, by which the way turns at a point from one run into another;
// known is false where one of them goes nowhere.
func (ix *Index) TurnBetween(a, b RunEnd) (turn float64, known bool) {
	from, ok1 := geom.Heading(ix.Centreline(a.Run), a.AtTo)
	to, ok2 := geom.Heading(ix.Centreline(b.Run), b.AtTo)
	if !ok1 || !ok2 {
		return 0, false
	}
	return math.Pi - geom.Angle(from, to), true
}

// LengthOf is a run's length in metres: of its drawing, or as stated where there
// is none; known is false where there is neither.
func (ix *Index) LengthOf(r *Run) (l unit.Length, known bool) {
	if r.Length != nil {
		return *r.Length, true
	}
	if line := ix.Centreline(r); line != nil {
		return unit.Length(geom.Length(line)), true
	}
	return 0, false
}

// RoomAt is the room that a place is in: of several the one with the least area,
// so that a booth within a hall wins; nil outside. Height counts where rooms
// stand above each other.
func (ix *Index) RoomAt(p geom.Point) *Room {
	var best *Room
	least := math.Inf(1)
	for i := range ix.job.Building.Rooms {
		r, b := &ix.job.Building.Rooms[i], ix.rooms[i]
		f := p.Plan()
		if f[0] < b.low[0]-geom.Tiny || f[0] > b.high[0]+geom.Tiny || f[1] < b.low[1]-geom.Tiny || f[1] > b.high[1]+geom.Tiny {
			continue
		}
		if p[2] < float64(r.Floor)-geom.Tiny || p[2] > float64(r.Ceiling+r.Void)+geom.Tiny {
			continue
		}
		if a := math.Abs(geom.Area(r.Outline)); a < least && geom.Contains(r.Outline, f) {
			best, least = r, a
		}
	}
	return best
}

// ZoneOf is the zone that a run lies in: its own, or that of the room in which
// its middle is; nil where neither is known.
func (ix *Index) ZoneOf(r *Run) *Zone {
	if r.Zone != "" {
		return ix.Zone(r.Zone)
	}
	line := ix.Centreline(r)
	middle, _, ok := geom.OnPath(line, geom.Length(line)/2)
	if !ok {
		return nil
	}
	return ix.ZoneAt(middle)
}

// ZoneAt is the zone of the room that a place is in, or nil.
func (ix *Index) ZoneAt(p geom.Point) *Zone {
	if room := ix.RoomAt(p); room != nil {
		return ix.Zone(room.Zone)
	}
	return nil
}

// Climate is the temperature about a line on the cold and on the hot design day.
type Climate struct {
	Winter, Summer unit.Temperature
	Assumed        bool // not stated for the zone, nor to be had from the site
}

// Indoor temperatures assumed where nobody stated any (common practice).
const (
	heatedC  = 18.0 // a heated shop in winter
	indoorC  = 20.0 // anywhere, where even the site says nothing
	heatOver = 5.0  // K, a shop in summer over the hot day outside
)

// ClimateOf is the climate of a zone; nil is indoors, nothing known. A zone that
// states none takes the site's design days: outside as they are, unheated as cold
// as outside, heated 18 °C in winter, indoors 5 K over the hot day in summer.
func (j *Job) ClimateOf(z *Zone) Climate {
	c := Climate{Winter: unit.Celsius(indoorC), Summer: unit.Celsius(indoorC), Assumed: true}
	climate := "heated"
	if z != nil {
		climate = z.Climate
	}
	if j.Site.Hot != nil {
		c.Summer = *j.Site.Hot
		if climate != "outside" {
			c.Summer += heatOver
		}
	}
	switch {
	case climate == "heated" && z != nil:
		c.Winter = unit.Celsius(heatedC)
	case climate != "heated" && j.Site.Cold != nil:
		c.Winter = *j.Site.Cold
	}
	if climate == "outside" {
		c.Assumed = j.Site.Hot == nil || j.Site.Cold == nil
	}
	if z != nil {
		if z.Winter != nil {
			c.Winter = *z.Winter
		}
		if z.Summer != nil {
			c.Summer = *z.Summer
		}
		if z.Winter != nil && z.Summer != nil {
			c.Assumed = false
		}
	}
	return c
}
