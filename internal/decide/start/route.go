package start

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/unit"
)

// route is where plant, main and outlets lie.
type route struct {
	plant, riser float64 // t of the compressor and of the riser to the main
	dir          float64 // +1 counterclockwise, −1 clockwise
	seats        []seat  // in the order of the main
	long         float64 // of the main, on the round
	high, fall   float64 // of the main over the floor at its riser, and per metre
	under        int     // doors that it would have to pass under the top of
}

// route finds the shortest main: over both directions and, where nobody said where
// the compressor stands, over a place near each corner.
func (b *brief) route(r *round, seats []seat) (route, bool) {
	const need = plantLong + plantOff + 0.1
	if !slices.ContainsFunc(r.begin, func(t float64) bool { i, _ := r.side(t); return r.long(i) >= need }) {
		b.refuse("room", "walls too short for the plant", "a wall of "+b.long(need)+" or more for compressor, receiver and filter", b.long(need))
		return route{}, false
	}
	var best route
	found := false
	for _, t := range b.plantPlaces(r) {
		for _, dir := range []float64{1, -1} {
			c, ok := b.try(r, seats, t, dir)
			if ok && (!found || c.under < best.under || c.under == best.under && c.long < best.long-0.01) {
				best, found = c, true
			}
		}
	}
	if !found && b.bad == nil {
		most := int((r.total - 2*plantLong) / apart)
		b.refuse("places", fmt.Sprintf("%d outlets and the compressor", len(seats)), fmt.Sprintf("walls with room for them, each %s from the next and from the doors", b.long(apart)), fmt.Sprint(max(1, most/2)))
	}
	return best, found
}

// plantPlaces is where the compressor may stand, middle of it.
func (b *brief) plantPlaces(r *round) []float64 {
	if p := b.Compressor.Place; p != nil {
		t, long, ok := r.find(p.Wall, float64(p.Along))
		switch {
		case !ok && long > 0:
			b.refuse("compressor.place.along_m", b.long(float64(p.Along)), "a place on the wall, which is "+b.long(long)+" long", b.long(long))
			return nil
		case !ok:
			b.refuse("compressor.place.wall", fmt.Sprintf("%q", short(p.Wall)), "a wall of the room", unit.Nearest(fold(p.Wall), r.words()))
			return nil
		}
		return []float64{t}
	}
	var out []float64
	for i := range r.faces {
		for _, s := range []float64{plantOff + 0.15, r.long(i) - plantOff - 0.15} {
			out = append(out, r.begin[i]+s)
		}
	}
	return out
}

// try lays the main out from a place of the compressor in a direction.
func (b *brief) try(r *round, seats []seat, t, dir float64) (route, bool) {
	i, s := r.side(t)
	long := r.long(i)
	// The plant stands on one wall, whole, moved along it where it must.
	low, high := plantOff+0.1, long-plantLong
	if dir < 0 {
		low, high = plantLong, long-plantOff-0.1
	}
	if low > high {
		return route{}, false
	}
	s = math.Min(high, math.Max(low, s))
	c := route{plant: r.begin[i] + s, dir: dir}
	c.riser = c.plant + dir*(plantLong-fromCorn)
	for _, d := range r.doors {
		if lo, hi := math.Min(c.plant, c.riser)-0.4, math.Max(c.plant, c.riser)+0.2; d.lo < hi && d.hi > lo {
			return route{}, false // nobody stands a compressor in the door
		}
	}
	var ok bool
	if c.seats, ok = settle(r, seats, c.riser, dir); !ok {
		return route{}, false
	}
	c.long = c.seats[len(c.seats)-1].u + beyond
	top := float64(b.Room.Height) - underTop
	c.hang(r, math.Min(top, mainMost))
	if low := c.under; low > 0 && top > mainMost { // over the doors, if not within reach
		if c.hang(r, top); c.under >= low {
			c.hang(r, mainMost)
		}
	}
	return c, true
}

// hang hangs the main at a height and counts the doors that it passes too low.
func (c *route) hang(r *round, high float64) {
	c.high = high
	c.fall = math.Min(fall, (high-outletUp-0.5)/c.long)
	c.under = 0
	for _, d := range r.doorsOver(c.riser, c.long, c.dir) {
		if high-c.fall*d.hi < d.top+clearOver {
			c.under++
		}
	}
}
