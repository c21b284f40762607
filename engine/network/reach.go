package network

// reach finds which nodes have a pressure to be solved for. A node counts when
// air can get to it from a source (a fixed pressure, or air put in) by links in
// the direction that they pass, and something in its part of the network sets
// a level. Nothing flows in steady state in the rest: no air gets in.
func (s *Solver) reach() {
	s.flood(s.fed, func(v *Node) bool { return v.Fixed || v.Demand < 0 }, false)
	s.flood(s.levels, func(v *Node) bool { return v.Fixed || v.Outflow != nil }, true)
	s.plain = true
	for i := range s.nodes {
		s.active[i] = s.fed[i] && s.levels[i]
		s.plain = s.plain && s.active[i]
	}
	for l := range s.laws {
		s.plain = s.plain && s.laws[l].forward && s.laws[l].reverse
	}
}

// flood marks all nodes that the starting ones reach; bothWays goes through
// one-way links against their direction too, but never through shut ones.
func (s *Solver) flood(mark []bool, starts func(*Node) bool, bothWays bool) {
	q := s.queue[:0]
	for i := range s.nodes {
		if mark[i] = starts(&s.nodes[i]); mark[i] {
			q = append(q, int32(i))
		}
	}
	for len(q) > 0 {
		i := q[len(q)-1]
		q = q[:len(q)-1]
		for _, l := range s.top.linkAt[s.top.nodePtr[i]:s.top.nodePtr[i+1]] {
			link, slot := &s.top.links[l], &s.laws[l]
			to, passes := int32(link.To), slot.forward
			if to == i {
				to, passes = int32(link.From), slot.reverse
			}
			if bothWays {
				passes = slot.forward || slot.reverse
			}
			if passes && !mark[to] {
				mark[to] = true
				q = append(q, to)
			}
		}
	}
}

// open tells whether a link takes part: both its ends do, and it is not shut.
func (s *Solver) open(l int) bool {
	link := &s.top.links[l]
	return s.active[link.From] && s.active[link.To] && (s.laws[l].forward || s.laws[l].reverse) && link.From != link.To
}
