package hold

import (
	"math"
	"slices"

	"dropleg/engine/geom"
)

// reach is the leg that a place has in one direction: line across its movement as far
// as what first holds it.
type reach struct {
	there float64 // m, across the movement
	path  float64 // m along the line
	until string
	clip  *clip // the support that ends it; nil where a part or nothing does
	chain *chain
	from  float64 // where the leg comes onto that chain
	at    float64 // of the clip, along its chain
	sign  float64 // in which the leg passes that chain
	slant float64 // sine of the angle between that chain and the movement
	open  bool    // nothing holds it: it gives way as far as one likes
	tee   *node   // where it ends at a branch of line that gives way itself
}

// direction is that of the chain at a node.
func (c *chain) direction(i int) geom.Point {
	if i > 0 {
		return c.nodes[i].at.Minus(c.nodes[i-1].at).Unit()
	}
	return c.nodes[1].at.Minus(c.nodes[0].at).Unit()
}

// along is the slant under which line lies along a movement.
const along = 0.1

// reachOf follows the line from a bar's end round plain turns to what first holds it. A
// support in which line slides along the movement does not hold it.
func (s *shop) reachOf(e barEnd, dir geom.Point) (r reach) {
	const turns = 20 // more than any swan neck has
	for range turns {
		c, from := e.bar.chain, e.where()
		r.chain, r.from, r.sign = c, from, e.sign()
		r.slant = math.Sin(geom.Angle(e.bar.away[e.end], dir))
		stop, node := c.stop(from, r.sign, r.slant < along)
		if stop != nil {
			r.clip, r.at, r.until = stop, stop.at, "support"
			r.add(math.Abs(stop.at - from))
			return r
		}
		r.add(math.Abs(c.at[node] - from))
		n := c.nodes[node]
		switch {
		case n.fixed:
			r.until = n.id
			return r
		case len(n.ends) > 2:
			r.until, r.tee = n.id, n
			return r
		case n.flexes || len(n.ends) < 2:
			r.until, r.open = n.id, true
			return r
		}
		next := n.ends[0]
		if next.bar.chain == c {
			next = n.ends[1]
		}
		if next.bar.chain == c { // a ring of two
			r.until = n.id
			return r
		}
		e = next
	}
	return r
}

func (r *reach) add(d float64) {
	r.path += d
	r.there += d * r.slant
}

// sign is +1 where the chain runs from the bar's end into the bar, -1 where it comes out.
func (e barEnd) sign() float64 {
	for i := range e.bar.chain.links {
		if l := &e.bar.chain.links[i]; l.bar == e.bar && l.back == (e.end == 0) {
			return -1
		}
	}
	return 1
}

// stop is the first support from a place of the chain in a direction, of fast ones alone if
// so wished, or, where a fixed node or the end comes before it, that node.
func (c *chain) stop(from, sign float64, fast bool) (first *clip, node int) {
	node = len(c.nodes) - 1
	if sign < 0 {
		node = 0
	}
	for i, n := range c.nodes {
		if n.fixed && (c.at[i]-from)*sign > geom.Tiny && (c.at[i]-c.at[node])*sign < 0 {
			node = i
		}
	}
	for _, k := range c.clips {
		ahead := (k.at - from) * sign
		if (k.fast || !fast) && ahead > geom.Tiny && (k.at-c.at[node])*sign < 0 && (first == nil || ahead < (first.at-from)*sign) {
			first = k
		}
	}
	return first, node
}

// shift moves the support that ends a leg away from the turn, so that the leg becomes
// as long as it has to be: as far as the room that the spacing leaves from the turn on,
// short of the next support. Where the next one would do in its place, it goes. The
// answer is whether anything moved.
func (s *shop) shift(room float64, r *reach, needed float64) bool {
	if r.slant < along {
		return false
	}
	c := r.chain
	want := r.at + r.sign*(needed-r.there)/r.slant
	room = min(room, c.spacing(min(r.at, want), max(r.at, want)))
	most := r.at + r.sign*(room-r.path)
	next, node := c.stop(r.at, r.sign, false)
	limit := c.at[node] - r.sign*s.clearAt(c, node, r.sign)
	if s.moving(c, node) { // the turn at the other end wants a leg of its own: half of the line is for each
		limit = (r.from + c.at[node]) / 2
	}
	if next != nil {
		if (want-next.at)*r.sign > -apart && (most-next.at)*r.sign >= 0 {
			c.drop(r.clip)
			next.moved = true
			return true
		}
		limit = next.at - r.sign*apart
	}
	at := want
	for _, end := range []float64{most, limit} {
		if (at-end)*r.sign > 0 {
			at = end
		}
	}
	for _, way := range []float64{r.sign, -r.sign} { // off a fitting: beyond it, else before it
		to, ok := s.freeBeyond(c, at, way)
		if ok && (to-r.at)*r.sign > geom.Tiny && (to-most)*r.sign <= geom.Tiny && (to-limit)*r.sign <= geom.Tiny {
			r.clip.at, r.clip.moved = to, true
			return true
		}
	}
	return false
}

// clearAt is how far off a node a support has to stay that is come to in a direction.
func (s *shop) clearAt(c *chain, node int, sign float64) float64 {
	if sign > 0 {
		return s.clearOf(c, node, -1)
	}
	return s.clearOf(c, node, 1)
}

// moving says whether line across a chain moves a node of it by more than clips give way to.
func (s *shop) moving(c *chain, node int) bool {
	for _, x := range s.spans {
		for i := x.i; i <= x.k && x.chain != c; i++ {
			if x.chain.nodes[i] == c.nodes[node] && x.moves(x.chain.at[i]) > rulePlay.Value {
				return true
			}
		}
	}
	return false
}

// freeBeyond is the place itself, or where a fitting is in the way the next one beyond.
func (s *shop) freeBeyond(c *chain, x, sign float64) (float64, bool) {
	for i := range c.nodes {
		lo, hi := c.at[i]-s.clearOf(c, i, -1), c.at[i]+s.clearOf(c, i, 1)
		if x > lo && x < hi {
			if sign > 0 {
				return hi, true
			}
			return lo, true
		}
	}
	return x, x > 0 && x < c.long
}

func (c *chain) drop(gone *clip) {
	for i, k := range c.clips {
		if k == gone {
			c.clips = slices.Delete(c.clips, i, i+1)
			return
		}
	}
}
