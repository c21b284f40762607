package start

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// seat is one outlet to be: where, for which tools, and held to which pressure.
type seat struct {
	name  string
	t, u  float64 // on the round, and from the riser in the direction of the main
	tools []int   // of the answers

	wanted float64 // t as asked for
	set    unit.GaugePressure
	clean  bool // paint and the like: a fine filter of its own
}

// seats puts tools to places: a place where tools want different pressures gets an
// outlet for each.
func (b *brief) seats(r *round) []seat {
	base := b.placesOn(r)
	uses := make([][]int, len(base))
	next := 0
	for i, t := range b.Tools {
		if len(t.At) > 0 {
			for k := range base {
				if slices.ContainsFunc(t.At, func(at string) bool { return fold(at) == fold(base[k].name) }) {
					uses[k] = append(uses[k], i)
				}
			}
			continue
		}
		n := min(max(1, t.Count), len(base))
		for k := range n {
			at := (next + k*len(base)/n) % len(base)
			uses[at] = append(uses[at], i)
		}
		next++
	}
	var out []seat
	for k, s := range base {
		out = append(out, b.split(s, uses[k])...)
	}
	return out
}

// placesOn is the places on the round, as said or evenly spread.
func (b *brief) placesOn(r *round) []seat {
	var out []seat
	for i, p := range b.Places {
		t, long, ok := r.find(p.Wall, float64(p.Along))
		switch {
		case !ok && long > 0:
			b.refuse(fmt.Sprintf("places[%d].along_m", i), b.long(float64(p.Along)), "a place on the wall, which is "+b.long(long)+" long", b.long(long))
		case !ok:
			b.refuse(fmt.Sprintf("places[%d].wall", i), fmt.Sprintf("%q", short(p.Wall)), "a wall of the room", unit.Nearest(fold(p.Wall), r.words()))
		}
		out = append(out, seat{name: p.Name, t: t, wanted: t})
	}
	for i := range b.Spread {
		t := (float64(i) + 0.5) / float64(b.Spread) * r.total
		out = append(out, seat{name: spreadName(i), t: t, wanted: t})
	}
	return out
}

// headroom is what a regulator, a hose and couplers may take between the setting
// and the tool.
const headroom = unit.GaugePressure(100e3)

// split parts the tools of a place by the pressure that they bear.
func (b *brief) split(at seat, tools []int) []seat {
	var plain, held []int
	for _, i := range tools {
		if row := b.tools[i]; row.Most > 0 && row.Most < b.cutOut() {
			held = append(held, i)
		} else {
			plain = append(plain, i)
		}
	}
	slices.SortStableFunc(held, func(x, y int) int { return cmp.Compare(b.tools[x].Most, b.tools[y].Most) })
	var groups []seat
	for _, i := range held {
		row := b.tools[i]
		k := slices.IndexFunc(groups, func(g seat) bool { return g.set >= row.Least+headroom && g.clean == row.NoOil })
		if k < 0 {
			groups = append(groups, seat{name: at.name, t: at.t, wanted: at.t, set: b.setting(row), clean: row.NoOil})
			k = len(groups) - 1
		}
		groups[k].tools = append(groups[k].tools, i)
	}
	if len(plain) == 0 && len(groups) > 0 {
		return b.named(groups)
	}
	// What needs little joins the outlet that is regulated anyway.
	if len(groups) == 1 && !groups[0].clean && !slices.ContainsFunc(plain, func(i int) bool { return groups[0].set < b.tools[i].Least+headroom }) {
		groups[0].tools = append(groups[0].tools, plain...)
		return groups
	}
	clean := len(plain) > 0 && !slices.ContainsFunc(plain, func(i int) bool { return !b.tools[i].NoOil })
	return b.named(append([]seat{{name: at.name, t: at.t, wanted: at.t, tools: plain, clean: clean}}, groups...))
}

// setting is what a regulator before a tool is set to: as much as the tool bears,
// but well under the cut-in, or it would never hold.
func (b *brief) setting(row catalog.Tool) unit.GaugePressure {
	under := b.cutIn() - unit.GaugePressure(60e3)
	if under < row.Least {
		return row.Most
	}
	return unit.GaugePressure(math.Floor(math.Min(float64(row.Most), float64(under))/1e4) * 1e4)
}

// named tells the outlets of one place apart.
func (b *brief) named(all []seat) []seat {
	if len(all) < 2 {
		return all
	}
	for i := range all {
		if all[i].set > 0 {
			all[i].name += b.apartBy(all[i].set)
		}
	}
	return all
}

// apartBy is what the name of an outlet has where another hangs beside it for other pressures.
func (b *brief) apartBy(set unit.GaugePressure) string { return ", at " + b.pressure(set) }

// settle moves seats so that each has room: off doors and corners and the plant,
// and apart from each other, in the order of the main. ok is false where the walls
// are too short for all of them.
func settle(r *round, seats []seat, riser, dir float64) (out []seat, ok bool) {
	out = slices.Clone(seats)
	last := r.total - plantLong - fromCorn
	for i := range out {
		u := r.ahead(riser, out[i].t, dir)
		if u > last { // in front of the plant
			u = 0
		}
		out[i].u = u
	}
	slices.SortStableFunc(out, func(a, b seat) int { return cmp.Compare(a.u, b.u) })
	least := fromCorn
	for i := range out {
		u, found := r.free(riser, math.Max(out[i].u, least), dir, last)
		if !found {
			return nil, false
		}
		out[i].u, out[i].t = u, r.wrap(riser+dir*u)
		least = u + apart
	}
	return out, true
}

// free is the first place from u on where an outlet has room.
func (r *round) free(riser, u, dir, last float64) (float64, bool) {
	for range 4 * (len(r.faces) + len(r.doors) + 1) {
		moved := false
		for i := range r.faces {
			moved = clear(&u, r.ahead(riser, r.begin[i], dir), fromCorn) || moved
		}
		for _, d := range r.doors {
			a, b := r.ahead(riser, d.lo, dir), r.ahead(riser, d.hi, dir)
			if math.Abs(a-b) > d.hi-d.lo+0.01 {
				continue // the door lies across the riser, which stands clear of it
			}
			moved = clear(&u, (a+b)/2, math.Abs(a-b)/2+besideIt) || moved
		}
		if !moved {
			return u, u <= last
		}
	}
	return u, false
}

// clear moves u on to where it is at least by from middle.
func clear(u *float64, middle, by float64) bool {
	if math.Abs(*u-middle) >= by-1e-9 {
		return false
	}
	*u = middle + by
	return true
}
