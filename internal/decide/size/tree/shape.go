package tree

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// shape is what of a problem does not hang on the choice of options.
type shape struct {
	p        *Problem
	children [][]int
	// Of each place: the patterns of flows and wants that its cases make below it. Cases
	// that are alike there ask alike. pattern is by case, -1 where nothing is asked;
	// first is a case of each pattern.
	pattern [][]int
	first   [][]int
	floor   [][]float64 // by place and pattern: what is asked for at least, Pa
	// By place and case: what can stand at the upper end at most and at least, Pa; and the
	// least of either among the cases of each pattern.
	top, low     [][]float64
	limit, given [][]float64
	usable       [][]bool    // by place and option
	price        [][]float64 // by place and option, with what it costs to meet others at least
	meets        []*meet
	steps        []steps
	least        []float64 // by place: the least price of a usable option
	total        float64   // of all least
	inlets       map[inletKey]float64
}

func newShape(p *Problem) *shape {
	s := &shape{p: p, children: make([][]int, len(p.Places))}
	for i := range p.Places {
		if up := p.Places[i].Parent; up >= 0 {
			s.children[up] = append(s.children[up], i)
		}
	}
	s.patterns()
	return s
}

// patterns finds the cases that are alike below each place.
func (s *shape) patterns() {
	n := len(s.p.Places)
	s.pattern, s.first = make([][]int, n), make([][]int, n)
	for v := n - 1; v >= 0; v-- {
		place := &s.p.Places[v]
		s.pattern[v] = make([]int, s.p.Cases)
		known := map[string]int{}
		for c := range s.p.Cases {
			var key strings.Builder
			asks := place.Flow[c] > 0 && place.Least[c] > 0
			fmt.Fprintf(&key, "%x %x", math.Float64bits(place.Flow[c]), math.Float64bits(place.Least[c]))
			if place.Mark != nil {
				fmt.Fprintf(&key, " %x", math.Float64bits(place.Mark[c]))
			}
			for _, child := range s.children[v] {
				fmt.Fprintf(&key, " %d", s.pattern[child][c])
				asks = asks || s.pattern[child][c] >= 0
			}
			if !asks {
				s.pattern[v][c] = -1
				continue
			}
			at, ok := known[key.String()]
			if !ok {
				at = len(s.first[v])
				known[key.String()] = at
				s.first[v] = append(s.first[v], c)
			}
			s.pattern[v][c] = at
		}
	}
}

// inletKey is one question to a place.
type inletKey struct {
	place, option, kase, port int
	out                       float64
}

// inlet asks a place, once for each question: labels bring the same ones again and again.
func (s *shape) inlet(v, option, kase, port int, out float64) float64 {
	key := inletKey{v, option, kase, port, out}
	if in, ok := s.inlets[key]; ok {
		return in
	}
	in := s.p.Places[v].Inlet(option, kase, port, out)
	if math.IsNaN(in) || in < out {
		in = math.Inf(1)
	}
	s.inlets[key] = in
	return in
}

// asked is what the places below a place and its own end ask of an option in a case, where
// the children ask as the function says.
func (s *shape) asked(v, option, c int, below func(child, pattern int) float64) float64 {
	place := &s.p.Places[v]
	most := 0.0
	if place.Least[c] > 0 {
		most = s.inlet(v, option, c, 0, place.Least[c])
	}
	for _, child := range s.children[v] {
		if q := s.pattern[child][c]; q >= 0 {
			if out := below(child, q); out > 0 {
				most = max(most, s.inlet(v, option, c, s.p.Places[child].Port, out))
			}
		}
	}
	return most
}

// bound works out what is asked for at least, what can stand at most and at least, and
// which options are of use at all.
func (s *shape) bound() {
	s.inlets = map[inletKey]float64{}
	n := len(s.p.Places)
	s.floor, s.top, s.low = make([][]float64, n), make([][]float64, n), make([][]float64, n)
	s.limit, s.given = make([][]float64, n), make([][]float64, n)
	s.usable, s.least = make([][]bool, n), make([]float64, n)
	byFloor := func(child, q int) float64 { return s.floor[child][q] }
	for v := n - 1; v >= 0; v-- {
		s.floor[v] = make([]float64, len(s.first[v]))
		for q, c := range s.first[v] {
			s.floor[v][q] = math.Inf(1)
			for o := range s.p.Places[v].Options {
				s.floor[v][q] = min(s.floor[v][q], s.asked(v, o, c, byFloor))
			}
		}
	}
	for v := range n {
		s.tops(v)
		s.limit[v] = s.leastOf(v, s.top[v])
		place := &s.p.Places[v]
		s.usable[v] = make([]bool, len(place.Options))
		for o := range place.Options {
			s.usable[v][o] = true
			for q, c := range s.first[v] {
				if s.asked(v, o, c, byFloor) > s.limit[v][q] {
					s.usable[v][o] = false
				}
			}
		}
		s.lows(v)
		s.given[v] = s.leastOf(v, s.low[v])
	}
}

// spread works out what each option costs at least, and what all places do.
func (s *shape) spread() {
	for v := range s.p.Places {
		s.price = append(s.price, make([]float64, len(s.usable[v])))
		for o := range s.price[v] {
			s.price[v][o] = s.p.Places[v].Options[o].Price
		}
	}
	s.spend()
	for v := range s.p.Places {
		s.least[v] = math.Inf(1)
		for o, price := range s.price[v] {
			if s.usable[v][o] {
				s.least[v] = min(s.least[v], price)
			}
		}
		s.total += s.least[v]
	}
	s.plan()
}

// leastOf is the least of the cases of each pattern.
func (s *shape) leastOf(v int, byCase []float64) []float64 {
	out := slices.Repeat([]float64{math.Inf(1)}, len(s.first[v]))
	for c, q := range s.pattern[v] {
		if q >= 0 {
			out[q] = min(out[q], byCase[c])
		}
	}
	return out
}

// lows bounds the pressure at the upper end of a place from beneath by what the one above
// gives where it loses most, out of what is of use. Whoever asks for less is served.
func (s *shape) lows(v int) {
	place := &s.p.Places[v]
	s.low[v] = make([]float64, s.p.Cases)
	for c, q := range s.pattern[v] {
		if q < 0 {
			continue
		}
		if place.Parent < 0 {
			s.low[v][c] = place.Supply[c]
			continue
		}
		up := place.Parent
		in := s.low[up][c]
		least := math.Inf(1)
		for o := range s.p.Places[up].Options {
			if s.usable[up][o] {
				least = min(least, s.surely(up, o, c, place.Port, in))
			}
		}
		s.low[v][c] = least
	}
}

// surely is an outlet pressure that a place surely gives from an inlet pressure; 0 where
// none was found.
func (s *shape) surely(v, option, c, port int, in float64) float64 {
	if in <= 0 {
		return 0
	}
	out := in
	for range surelySteps {
		asked := s.p.Places[v].Inlet(option, c, port, out)
		if asked <= in {
			return out
		}
		square := out*out - (asked*asked - in*in)
		if !(square > 0) {
			return 0
		}
		out = math.Sqrt(square) * (1 - outletSlack)
	}
	return 0
}

const surelySteps = 12

// tops bounds the pressure at the upper end of a place by what the one above can give
// where it loses least: Inlet(out)² − out² falls with out, so that a few steps from no
// loss come down towards the greatest outlet pressure and never beneath it.
func (s *shape) tops(v int) {
	place := &s.p.Places[v]
	s.top[v] = make([]float64, s.p.Cases)
	for c, q := range s.pattern[v] {
		if q < 0 {
			continue
		}
		if place.Parent < 0 {
			s.top[v][c] = place.Supply[c]
			continue
		}
		up := place.Parent
		in := s.top[up][c]
		best := 0.0
		for o := range s.p.Places[up].Options {
			best = max(best, s.outlet(up, o, c, place.Port, in))
		}
		s.top[v][c] = best
	}
}

// steps towards an outlet pressure, and what is left above it for what the numbers lose.
const (
	outletSteps = 3
	outletSlack = 1e-9
)

func (s *shape) outlet(v, option, c, port int, in float64) float64 {
	out := in
	for range outletSteps {
		asked := s.p.Places[v].Inlet(option, c, port, out)
		if math.IsInf(asked, 1) || math.IsNaN(asked) {
			return in
		}
		square := in*in - (asked*asked - out*out)
		if square <= 0 {
			return out
		}
		out = min(in, math.Sqrt(square)*(1+outletSlack))
	}
	return out
}
