package network

// settle gives dead ends behind closed one-way links the pressure that they
// fill to. Any higher one would be steady too (air trapped behind a check
// valve), so the equations alone leave it open; the least is what a network
// reaches that was filled from empty. Parts that air cannot reach have no
// pressure, unless an outflow opens them to the atmosphere.
func (s *Solver) settle() {
	a := &s.state
	blocks := s.blocks()
	level, atRest := s.trial[:blocks], s.lack[:blocks]
	s.findRest(level, atRest)
	s.fillUp(level, atRest)
	s.breathe(level, atRest)
	s.fillUp(level, atRest) // what has risen holds more behind it
	for l := range s.laws {
		if atRest[s.block[s.top.links[l].To]] == 1 {
			a.Flow[l] = 0 // but for rounding it is
		}
	}
	for i := range s.nodes {
		b := s.block[i]
		if atRest[b] == 0 && s.active[i] {
			continue
		}
		if !s.active[i] {
			a.Determined[i] = level[b] > 0 && atRest[b] == 1
		}
		a.Pressure[i] = 0
		if a.Determined[i] {
			a.Pressure[i] = level[b]
		}
	}
}

// breathe raises parts at rest that are open to the atmosphere to the pressure
// there, unless air would then flow on: outflows draw none in.
func (s *Solver) breathe(level, atRest []float64) {
	for i := range s.nodes {
		v, b := &s.nodes[i], s.block[i]
		if v.Outflow != nil && atRest[b] == 1 && v.Back > level[b] && s.staysIn(b, v.Back, level, atRest) {
			level[b] = v.Back
		}
	}
}

// staysIn tells whether nothing leaves block b at pressure p.
func (s *Solver) staysIn(b int32, p float64, level, atRest []float64) bool {
	for l := range s.laws {
		link := &s.top.links[l]
		to := s.block[link.To]
		if s.block[link.From] != b || to == b || !s.laws[l].forward {
			continue
		}
		beyond := s.state.Pressure[link.To]
		if atRest[to] == 1 {
			beyond = level[to]
		}
		if m, _, _ := s.laws[l].law.Flow(p, beyond); m != 0 && (atRest[to] == 0 || s.active[link.To]) {
			return false
		}
	}
	return true
}

// findRest marks with 1 the blocks out of which nothing flows: they hold no
// fixed pressure, take nothing, and pass nothing on to a block that does.
// Nothing flows into them then. Their level starts from zero.
func (s *Solver) findRest(level, atRest []float64) {
	for b := range level {
		level[b], atRest[b] = 0, 1
	}
	for i := range s.nodes {
		v, b := &s.nodes[i], s.block[i]
		if v.Fixed || v.Demand != 0 || s.state.Taken[i] != 0 {
			atRest[b] = 0
		}
	}
	for changed := true; changed; {
		changed = false
		for l := range s.laws {
			link := &s.top.links[l]
			from, to := s.block[link.From], s.block[link.To]
			if s.open(l) && from != to && s.state.Flow[l] != 0 && atRest[to] == 0 && atRest[from] == 1 {
				atRest[from], changed = 0, true
			}
		}
	}
}

// fillUp raises the level of blocks at rest to what their one-way links hold,
// again and again until nothing rises; a level only travels down from a block
// that flows, so this ends.
func (s *Solver) fillUp(level, atRest []float64) {
	for range s.nodes {
		rose := false
		for l := range s.laws {
			d := s.laws[l].directed
			link := &s.top.links[l]
			if d == nil || !s.open(l) || s.block[link.From] == s.block[link.To] {
				continue
			}
			from, to := s.block[link.From], s.block[link.To]
			if atRest[to] == 0 {
				continue
			}
			p := s.state.Pressure[link.From]
			if atRest[from] == 1 {
				p = level[from]
			}
			if h := d.Holds(p); h > level[to] {
				level[to], rose = h, true
			}
		}
		if !rose {
			return
		}
	}
}

// blocks numbers the parts that hang together by links that pass both ways.
func (s *Solver) blocks() int {
	for i := range s.block {
		s.block[i] = -1
	}
	count := int32(0)
	for root := range s.nodes {
		if s.block[root] >= 0 {
			continue
		}
		s.block[root] = count
		q := append(s.queue[:0], int32(root))
		for len(q) > 0 {
			i := q[len(q)-1]
			q = q[:len(q)-1]
			for _, l := range s.top.linkAt[s.top.nodePtr[i]:s.top.nodePtr[i+1]] {
				link := &s.top.links[l]
				if !s.laws[l].forward || !s.laws[l].reverse {
					continue
				}
				for _, j := range [2]int{link.From, link.To} {
					if s.block[j] < 0 {
						s.block[j] = count
						q = append(q, int32(j))
					}
				}
			}
		}
		count++
	}
	return int(count)
}
