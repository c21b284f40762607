package demand

// widest is the size up to which every way of a part of mutual exclusions is
// listed; a larger one is cut down to its members as solos, which overstates it.
const widest = 12

// crowd lists what is independent of each other, and fits it to the shares.
//
// Groups that exclude each other hang together; every way they can run is listed. The
// odds are such that each runs for its share all the same: who waits for another works
// later. Where shares cannot be had (a clique asks for more than the whole time, all
// ask for more hands than there are) they are cut in proportion.
func (c *cast) crowd(crew int) *crowd {
	seen := make([]bool, len(c.members))
	var shapes []shape
	for g := range c.members {
		if seen[g] {
			continue
		}
		component := c.component(g, seen)
		switch {
		case c.clique(component):
			shapes = append(shapes, turns(component))
		case len(component) <= widest:
			shapes = append(shapes, c.ways(component))
		default:
			for _, k := range component {
				shapes = append(shapes, turns([]int{k}))
			}
		}
	}
	return c.fit(shapes, crew)
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

// turns is groups of which one runs at a time, or none.
func turns(list []int) shape {
	s := shape{list, []int{0}}
	for i := range list {
		s.masks = append(s.masks, 1<<i)
	}
	return s
}

// ways lists every way that breaks no exclusion.
func (c *cast) ways(list []int) shape {
	s := shape{groups: list}
	for mask := range 1 << len(list) {
		if c.allowed(list, mask) {
			s.masks = append(s.masks, mask)
		}
	}
	return s
}

// allowed says whether just the groups of a mask may run together.
func (c *cast) allowed(list []int, mask int) bool {
	for i, g := range list {
		for k := range i {
			if mask>>i&1 == 1 && mask>>k&1 == 1 && c.bars[list[k]][g] {
				return false
			}
		}
	}
	return true
}
