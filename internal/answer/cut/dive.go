package cut

import "slices"

// nearlyOne is the part of a bar from which on a dive takes the whole bar.
const nearlyOne = 0.7

// dive settles what the relaxation uses in whole or nearly, solves the relaxation of what
// is left, and so on to the end: where patterns are too many to list, new ones are asked
// for that suit what is left. It settles nothing, and gives up once it costs too much.
func (h *hunt) dive() error {
	left, r := newRest(h.shape), h.root.relaxed
	var loads []load
	for price := int64(0); ; {
		for _, l := range r.nearly() {
			loads = append(loads, l)
			left.take(l)
			price += h.shape.bars[l.bar].price
		}
		if left.done() {
			h.found(loads)
			return nil
		}
		s := left.remainder()
		next, err := askRoot(h.ctx, s, clipped(r.pool, s))
		if err != nil {
			return err
		}
		if price+s.raise(next.bound) >= h.price {
			return nil
		}
		r = next.relaxed
	}
}

// nearly gives the loads that are used in whole or nearly, at least one.
func (r *relaxation) nearly() []load {
	var loads []load
	most, at := 0.0, -1
	for _, u := range r.use() {
		for range int(u.times + 1 - nearlyOne) {
			loads = append(loads, r.pool.load(u.pattern))
		}
		if u.times > most {
			most, at = u.times, u.pattern
		}
	}
	if len(loads) == 0 && at >= 0 {
		loads = append(loads, r.pool.load(at))
	}
	return loads
}

// remainder is the shape of what is left.
func (r *rest) remainder() *shape {
	s := *r.shape
	s.kinds, s.bars = slices.Clone(s.kinds), slices.Clone(s.bars)
	for k := range s.kinds {
		s.kinds[k].need = max(r.kinds[k], 0)
	}
	for b := range s.bars {
		s.bars[b].most, s.bars[b].scarce = max(r.bars[b], 0), true
	}
	return &s
}

// clipped gives the patterns of a pool without what is no longer needed.
func clipped(p *pool, s *shape) []load {
	var loads []load
	for i := range p.len() {
		l := load{bar: int(p.bar[i])}
		for _, part := range p.at(i) {
			part.times = min(part.times, int16(s.kinds[part.kind].need))
			if part.times > 0 {
				l.parts = append(l.parts, part)
			}
		}
		if len(l.parts) > 0 && s.bars[l.bar].most > 0 {
			loads = append(loads, l)
		}
	}
	return loads
}
