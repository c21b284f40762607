package start

import (
	"fmt"
	"math"
	"slices"

	"dropleg/engine/unit"
)

// stand is where plant and outlets stand.
type stand struct {
	plant, riser float64 // t of the compressor and of where lines begin
	dir          float64 // from the one to the other: +1 counterclockwise, −1 clockwise
	seats        []seat  // in this direction from the riser
	long         float64 // of the walls that a main to all of them would follow
	shut         int     // doors as high as a main that it could not keep clear of
}

// stands finds the place for the plant from which the outlets are reached by the least
// length of wall: over places near each corner, where nobody said one.
func (b *brief) stands(r *round, seats []seat) stand {
	const need = plantLong + plantOff + 0.1
	if !slices.ContainsFunc(r.begin, func(t float64) bool { i, _ := r.side(t); return r.long(i) >= need }) {
		b.refuse("room", "walls too short for the plant", "a wall of "+b.long(need)+" or more for compressor, receiver and filter", b.long(need))
		return stand{}
	}
	var best stand
	found := false
	for _, t := range b.plantPlaces(r) {
		for _, dir := range []float64{1, -1} {
			c, ok := b.try(r, seats, t, dir)
			if ok && (!found || c.shut < best.shut || c.shut == best.shut && c.long < best.long-0.01) {
				best, found = c, true
			}
		}
	}
	if !found && b.bad == nil {
		most := int((r.total - 2*plantLong) / apart)
		b.refuse("places", fmt.Sprintf("%d outlets and the compressor", len(seats)), fmt.Sprintf("walls with room for them, each %s from the next and from the doors", b.long(apart)), fmt.Sprint(max(1, most/2)))
	}
	return best
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

// try stands the plant at a place, in a direction, and the outlets clear of it.
func (b *brief) try(r *round, seats []seat, t, dir float64) (stand, bool) {
	i, s := r.side(t)
	long := r.long(i)
	// The plant stands on one wall, whole, moved along it where it must.
	low, high := plantOff+0.1, long-plantLong
	if dir < 0 {
		low, high = plantLong, long-plantOff-0.1
	}
	if low > high {
		return stand{}, false
	}
	s = math.Min(high, math.Max(low, s))
	c := stand{plant: r.begin[i] + s, dir: dir}
	c.riser = c.plant + dir*(plantLong-fromCorn)
	for _, d := range r.doors {
		if lo, hi := math.Min(c.plant, c.riser)-0.4, math.Max(c.plant, c.riser)+0.2; d.lo < hi && d.hi > lo {
			return stand{}, false // nobody stands a compressor in the door
		}
	}
	var ok bool
	if c.seats, ok = settle(r, seats, c.riser, dir); !ok {
		return stand{}, false
	}
	c.measure(r, math.Min(float64(b.Room.Height)-mainUnder, mainMost))
	return c, true
}

// measure is the round less its longest stretch without an outlet: the least that a main
// along the walls is long. A stretch with a door as high as the main is the one to leave.
func (c *stand) measure(r *round, main float64) {
	stops := []float64{0}
	for _, s := range c.seats {
		stops = append(stops, s.u)
	}
	stops = append(stops, r.total)
	gap, shut := 0.0, 0
	for k := 1; k < len(stops); k++ {
		within := func(d span) bool {
			u := r.ahead(c.riser, (d.lo+d.hi)/2, c.dir)
			return d.top+clearOver > main && u > stops[k-1] && u < stops[k]
		}
		long := stops[k] - stops[k-1]
		if slices.ContainsFunc(r.doors, within) {
			long += r.total
			shut++
		}
		gap = math.Max(gap, long)
	}
	c.shut = max(0, shut-1)
	c.long = r.total - gap
	if gap > r.total {
		c.long += r.total
	}
}
