package demand

// widest is the size up to which every way of a part of mutual exclusions is
// listed; a larger one is cut down to its members as solos, which overstates it.
const widest = 12

// parts lists what is independent of each other.
//
// Of groups that all exclude each other one runs at a time, each for its share;
// where the shares add up to more than the whole time they are scaled to it. In
// a part where only some exclude each other the groups are taken as independent
// on condition that no exclusion is broken: each then runs a little less than
// its share, for at times it waits for another.
func (c *cast) parts() []Part {
	seen := make([]bool, len(c.members))
	var out []Part
	for g := range c.members {
		if seen[g] {
			continue
		}
		component := c.component(g, seen)
		switch {
		case len(component) == 1:
			out = append(out, c.alone(g))
		case c.clique(component):
			out = append(out, c.turns(component))
		case len(component) <= widest:
			out = append(out, c.conditioned(component))
		default:
			for _, k := range component {
				out = append(out, c.alone(k))
			}
		}
	}
	return out
}

// component lists all that hang together with g by exclusions.
func (c *cast) component(g int, seen []bool) []int {
	list := []int{g}
	seen[g] = true
	for i := 0; i < len(list); i++ {
		for k, barred := range c.bars[list[i]] {
			if barred && !seen[k] {
				seen[k] = true
				list = append(list, k)
			}
		}
	}
	return list
}

func (c *cast) clique(list []int) bool {
	for _, a := range list {
		for _, b := range list {
			if a != b && !c.bars[a][b] {
				return false
			}
		}
	}
	return true
}

// alone is a group by itself.
func (c *cast) alone(g int) Part {
	s := c.share(g)
	return Part{[]Way{{Chance: 1 - s}, {Chance: s, Number: len(c.members[g]), Flow: c.flow(g)}}}
}

// turns is a clique: one at a time.
func (c *cast) turns(list []int) Part {
	sum := 0.0
	for _, g := range list {
		sum += c.share(g)
	}
	scale := 1.0
	if sum > 1 {
		scale = 1 / sum
	}
	p := Part{[]Way{{Chance: max(0, 1-sum*scale)}}}
	for _, g := range list {
		p.Ways = append(p.Ways, Way{Chance: c.share(g) * scale, Number: len(c.members[g]), Flow: c.flow(g)})
	}
	return p
}

// conditioned lists every way that breaks no exclusion.
func (c *cast) conditioned(list []int) Part {
	var p Part
	total := 0.0
	for mask := range 1 << len(list) {
		if w, ok := c.way(list, mask); ok {
			p.Ways = append(p.Ways, w)
			total += w.Chance
		}
	}
	if total <= 0 { // all run all the time, yet exclude each other: turns, after all
		return c.turns(list)
	}
	for i := range p.Ways {
		p.Ways[i].Chance /= total
	}
	return p
}

// way is the chance of just the groups of a mask running, were they independent.
func (c *cast) way(list []int, mask int) (Way, bool) {
	w := Way{Chance: 1}
	for i, g := range list {
		s := c.share(g)
		if mask>>i&1 == 0 {
			w.Chance *= 1 - s
			continue
		}
		for k := range i {
			if mask>>k&1 == 1 && c.bars[list[k]][g] {
				return w, false
			}
		}
		w.Chance *= s
		w.Number += len(c.members[g])
		w.Flow += c.flow(g)
	}
	return w, true
}
