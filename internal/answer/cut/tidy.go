package cut

import (
	"cmp"
	"slices"
)

// tidy takes off what is cut twice, and gathers what is open in one bar: pieces move
// from the bar with the longest open end into the open ends of others, or change places
// with shorter ones, as long as that makes the longest open end longer.
func (h *hunt) tidy() []load {
	loads := h.shape.trim(h.best)
	bars := make([]*content, len(loads))
	for i, l := range loads {
		bars[i] = h.shape.contentOf(l)
	}
	// Only bars with much open are worth emptying, and all are few.
	order := make([]int, len(bars))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(bars[j].open, bars[i].open) })
	best, longest := bars, int64(0)
	for _, at := range order[:min(len(order), targets)] {
		tried := make([]*content, len(bars))
		for i, b := range bars {
			tried[i] = &content{slices.Clone(b.kinds), b.open}
		}
		for h.shape.empty(tried, at) {
		}
		if tried[at].open > longest {
			best, longest = tried, tried[at].open
		}
	}
	for i, b := range best {
		loads[i].parts = b.parts()
	}
	return loads
}

// targets is how many bars are tried as the one with the long open end.
const targets = 6

// content is what one bar holds.
type content struct {
	kinds []int // one for each piece
	open  int64
}

func (s *shape) contentOf(l load) *content {
	c := &content{open: s.bars[l.bar].room - l.end}
	for _, part := range l.parts {
		for range part.times {
			c.kinds = append(c.kinds, int(part.kind))
		}
		c.open -= s.kinds[part.kind].size * int64(part.times)
	}
	return c
}

func (c *content) parts() []part {
	slices.Sort(c.kinds)
	var parts []part
	for _, k := range c.kinds {
		if n := len(parts); n > 0 && int(parts[n-1].kind) == k {
			parts[n-1].times++
			continue
		}
		parts = append(parts, part{int16(k), 1})
	}
	return parts
}

// trim takes off pieces that loads cut beyond what is needed, from the last loads
// first.
func (s *shape) trim(loads []load) []load {
	over := make([]int, len(s.kinds))
	for k, kind := range s.kinds {
		over[k] = -kind.need
	}
	for _, l := range loads {
		for _, part := range l.parts {
			over[part.kind] += int(part.times)
		}
	}
	out := slices.Clone(loads)
	for i := len(out) - 1; i >= 0; i-- {
		parts := slices.Clone(out[i].parts)
		for j := range parts {
			off := min(int(parts[j].times), max(over[parts[j].kind], 0))
			parts[j].times -= int16(off)
			over[parts[j].kind] -= off
		}
		out[i].parts = slices.DeleteFunc(parts, func(p part) bool { return p.times == 0 })
	}
	return out
}

// empty makes the one change that lengthens the open end of a bar most, and tells
// whether there was one. The last piece stays: the bar is paid for.
func (s *shape) empty(bars []*content, at int) bool {
	target := bars[at]
	var most int64
	var from, other, to int
	for i, k := range target.kinds {
		size := s.kinds[k].size
		for b, c := range bars {
			if b == at {
				continue
			}
			if size <= c.open && size > most && len(target.kinds) > 1 {
				most, from, other, to = size, i, b, -1
			}
			for j, back := range c.kinds {
				if gain := size - s.kinds[back].size; gain > most && gain <= c.open {
					most, from, other, to = gain, i, b, j
				}
			}
		}
	}
	if most == 0 {
		return false
	}
	c := bars[other]
	if to < 0 {
		c.kinds = append(c.kinds, target.kinds[from])
		target.kinds = slices.Delete(target.kinds, from, from+1)
	} else {
		c.kinds[to], target.kinds[from] = target.kinds[from], c.kinds[to]
	}
	c.open -= most
	target.open += most
	return true
}
