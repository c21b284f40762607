package cut

import "math"

// round makes a plan of a solution in parts: what is whole of it stays, the rest is cut
// by the patterns that serve most for their price by the multipliers. It gives nil when
// the plan would not be cheaper than cutoff.
func (r *relaxation) round(use []used, cutoff int64) []load {
	var loads []load
	left := newRest(r.shape)
	price := int64(0)
	put := func(i int) {
		l := r.pool.load(i)
		loads = append(loads, l)
		price += r.shape.bars[l.bar].price
		left.take(l)
	}
	for _, u := range use {
		for range int(u.times + whole) {
			put(u.pattern)
		}
	}
	w := r.worth(r.multipliers())
	for !left.done() {
		if price*r.shape.fine+left.value(w) > (cutoff-r.shape.grain)*r.shape.fine {
			return nil
		}
		at := r.mostServing(left, w)
		if at < 0 {
			return nil
		}
		put(at)
	}
	return loads
}

// value gives what the rest is worth: about what it will cost.
func (r *rest) value(w worth) int64 {
	sum := int64(0)
	for k, n := range r.kinds {
		sum += int64(max(n, 0)) * w.kind[k]
	}
	for b, n := range r.bars {
		sum -= (w.bar[b] - r.shape.bars[b].price*r.shape.fine) * int64(n)
	}
	if r.size > 0 {
		sum += shareUp(w.joint, r.size, r.shape.joint.size) - w.ends*int64(r.ends)
	}
	return sum
}

// mostServing gives the pattern that costs least beyond the worth of what it serves, -1
// when none serves anything.
func (r *relaxation) mostServing(left *rest, w worth) int {
	best, at := int64(math.MaxInt64), -1
	for i := range r.pool.len() {
		b := r.pool.bar[i]
		if left.bars[b] <= 0 {
			continue
		}
		c, serves := w.bar[b], false
		for _, part := range r.pool.at(i) {
			if n := left.kinds[part.kind]; n > 0 {
				c -= w.kind[part.kind] * int64(min(n, int(part.times)))
				serves = true
			}
		}
		if end := r.pool.end[i]; end > 0 && left.size > 0 && left.ends > 0 {
			if left.ends > 1 || end >= left.size {
				c -= w.endWorth(r.shape.joint, end)
				serves = true
			}
		}
		if serves && c < best {
			best, at = c, i
		}
	}
	return at
}

// greedy makes a plan without a relaxation: again and again the bar that is filled for
// the least price per length, longest pieces first. It gives what it cut, and what it
// found no place for.
func greedy(s *shape) ([]load, *rest) {
	loads := []load{}
	left := newRest(s)
	for !left.done() {
		best, ratio := load{}, math.Inf(1)
		for b, bar := range s.bars {
			if left.bars[b] <= 0 {
				continue
			}
			l, filled := left.fill(b)
			if filled == 0 {
				continue
			}
			if r := float64(bar.price) / float64(filled); r < ratio {
				best, ratio = l, r
			}
		}
		if math.IsInf(ratio, 1) {
			return loads, left
		}
		loads = append(loads, best)
		left.take(best)
	}
	return loads, left
}

// fill cuts from one bar the longest pieces that fit, an end of the joined piece last.
func (r *rest) fill(b int) (l load, filled int64) {
	l.bar = b
	room := r.shape.bars[b].room
	for k, kind := range r.shape.kinds {
		times := min(int64(max(r.kinds[k], 0)), room/kind.size)
		if times > 0 {
			l.parts = append(l.parts, part{int16(k), int16(times)})
			room -= times * kind.size
			filled += times * kind.size
		}
	}
	j := r.shape.joint
	end := min(room, j.size-j.least)
	if r.size > 0 && r.ends > 0 && end >= j.least && (r.ends > 1 || end >= r.size) {
		l.end = end
		filled += min(end, r.size)
	}
	return l, filled
}
