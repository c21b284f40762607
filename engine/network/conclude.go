package network

import (
	"math"

	"dropleg/engine/element"
)

func byPressure(v *slot, p1, p2 float64) (m0, g1, g2 float64) {
	return element.TangentByPressure(v.law, p1, p2)
}

// conclude files the residuals and what is taken, settles dead ends behind
// closed valves, and says what could not be had.
func (s *Solver) conclude() error {
	if !s.seen {
		s.look()
	}
	k := s.last
	s.file(k)
	none := s.denied(NoSource, NoLevel)
	if none == nil && (k.serves() || k.mass <= roughly*k.scale) {
		none = s.denied(NoExit, TooMuch)
	}
	if none == nil && !k.serves() {
		none = &NoAnswer{Reason: NotMet}
		if k.link >= 0 {
			i := s.top.links[k.link].To
			none.Nodes = []Short{{Node: i, Name: s.nodes[i].Name, Demand: s.nodes[i].Demand}}
		}
	}
	if none != nil {
		none.Residual = s.state.Residual
	}
	if !s.plain {
		s.settle()
	}
	if none == nil {
		return nil // not a typed nil
	}
	return none
}

// file writes down the residuals and what leaves at each node.
func (s *Solver) file(k look) {
	a := &s.state
	a.Residual = Residual{Mass: k.mass}
	for l := range s.slope {
		t := &s.slope[l]
		if g := max(t.g1, -t.g2); g > 0 {
			link := &s.top.links[l]
			up := max(s.square[link.From], s.square[link.To])
			a.Residual.Law = max(a.Residual.Law, math.Abs(t.m0-a.Flow[l])/(g*up))
		}
	}
	for i := range s.nodes {
		v := &s.nodes[i]
		a.Determined[i] = s.active[i]
		demand, _ := s.taper(v.Demand, s.square[i])
		if v.Fixed {
			demand = v.Demand
		}
		if v.Fixed || v.Outflow == nil || !s.active[i] {
			a.Taken[i] = 0
		}
		if s.active[i] {
			a.Taken[i] += demand
		}
	}
}

// denied lists the nodes that do not get what they ask for, those with the
// first of the reasons that there is.
func (s *Solver) denied(reasons ...Reason) *NoAnswer {
	for _, r := range reasons {
		var short []Short
		for i := range s.nodes {
			if s.denial(i) != r {
				continue
			}
			n := Short{Node: i, Name: s.nodes[i].Name, Demand: s.nodes[i].Demand}
			if s.active[i] {
				n.Most, _ = s.taper(n.Demand, s.square[i])
			}
			short = append(short, n)
		}
		if short != nil {
			return &NoAnswer{Reason: r, Nodes: short}
		}
	}
	return nil
}

// denial is why node i does not get what it asks for, or nothing.
func (s *Solver) denial(i int) Reason {
	v := &s.nodes[i]
	switch {
	case v.Demand == 0 || v.Fixed:
	case !s.fed[i]:
		return NoSource
	case !s.levels[i]:
		return NoLevel
	case s.square[i] > brim && v.Demand < 0:
		return NoExit
	case s.square[i] < s.vacuum && v.Demand > 0:
		return TooMuch
	}
	return ""
}
