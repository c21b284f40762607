package tree

import (
	"math"
	"slices"
)

// A label has to know the options of those places below it that meet others beside or
// above: these are what it carries. A price is taken in where the last of its places comes
// to a label, and what no price asks for any more is let go.

// meet is a price of several places, less what was put to each of them alone.
type meet struct {
	places []int
	stride []int // of Price, by place
	price  []float64
	top    int           // the lowest place that has all of them at or beneath it
	dearer [][][]float64 // by place, its option and another: by how much it is dearer at most
}

// carried is the places whose options a label knows, in the order in which it has them, and
// by how much at most another option of one is dearer in what is still to be taken in.
type carried struct {
	places []int
	dearer [][][]float64 // by place, its option and the other
}

// from says where a label finds an option: own is the option of the place at hand, else it
// is at a place in one list or the other.
type from struct {
	list int // 0: own; 1: the first list; 2: the second
	at   int
}

// taken is a price that is taken in, and where its options are.
type taken struct {
	meet  *meet
	where []from
}

// step is how lists of options become one: what is taken in, and what is carried on.
type step struct {
	takes []taken
	keeps []from
	carried
}

// steps are those of a place: for each child its options alone and then beside those
// before it, and in the end its own.
type steps struct {
	raise, join []step
	own         step
}

// spend puts what a meet costs whatever the others take to each place alone, so that less
// hangs on them together, and drops what then costs nothing.
func (s *shape) spend() {
	for _, m := range s.p.Meets {
		x := &meet{places: m.Places, price: slices.Clone(m.Price), stride: make([]int, len(m.Places)), top: s.meeting(m.Places)}
		n := 1
		for i := len(m.Places) - 1; i >= 0; i-- {
			x.stride[i] = n
			n *= len(s.p.Places[m.Places[i]].Options)
		}
		for i, v := range x.places {
			least := slices.Repeat([]float64{math.Inf(1)}, len(s.price[v]))
			x.each(s, func(at int, option func(int) int) { least[option(i)] = min(least[option(i)], x.price[at]) })
			for o, much := range least {
				if s.usable[v][o] && !math.IsInf(much, 1) {
					s.price[v][o] += much
				}
			}
			x.each(s, func(at int, option func(int) int) { x.price[at] -= least[option(i)] })
		}
		costs := false
		x.each(s, func(at int, _ func(int) int) { costs = costs || x.price[at] > 0 })
		if costs {
			for i := range x.places {
				x.dearer = append(x.dearer, x.compare(s, i))
			}
			s.meets = append(s.meets, x)
		}
	}
}

// each goes through all that may be taken together.
func (m *meet) each(s *shape, do func(at int, option func(place int) int)) {
	for at := range m.price {
		option := func(i int) int { return at / m.stride[i] % len(s.price[m.places[i]]) }
		ok := true
		for i, v := range m.places {
			ok = ok && s.usable[v][option(i)]
		}
		if ok {
			do(at, option)
		}
	}
}

// meeting is the lowest place that has all of some at or beneath it.
func (s *shape) meeting(places []int) int {
	at := places[0]
	for _, v := range places[1:] {
		for at != v { // parents come before children
			if at > v {
				at = s.p.Places[at].Parent
			} else {
				v = s.p.Places[v].Parent
			}
		}
	}
	return at
}

// plan works out the steps of all places.
func (s *shape) plan() {
	n := len(s.p.Places)
	s.steps = make([]steps, n)
	beneath := make([]map[int]bool, n) // places at or beneath each
	for v := n - 1; v >= 0; v-- {
		st := &s.steps[v]
		have := map[int]bool{v: true}
		var acc []int
		for _, child := range s.children[v] {
			with := map[int]bool{v: true}
			for x := range beneath[child] {
				with[x], have[x] = true, true
			}
			// The place's own option and those of the child; then beside the children before it.
			now := s.meetsOf(func(m *meet) bool { return m.top == v && m.within(with) })
			raised := s.step(s.steps[child].own.places, nil, now, s.left(v, have, with))
			now = s.meetsOf(func(m *meet) bool {
				return m.top == v && m.within(have) && !m.within(with) && m.hasOf(beneath[child])
			})
			joined := s.step(acc, raised.places, now, s.left(v, have, have))
			st.raise, st.join = append(st.raise, raised), append(st.join, joined)
			acc = joined.places
		}
		beneath[v] = have
		left := s.left(v, have, have)
		st.own = s.step(acc, nil, nil, left)
		if asked(left, v) {
			st.own.keeps = append(st.own.keeps, from{})
			st.own.places = append(st.own.places, v)
			st.own.dearer = s.dearer(st.own.places, left)
		}
	}
}

func (s *shape) meetsOf(is func(*meet) bool) []*meet {
	var out []*meet
	for _, m := range s.meets {
		if is(m) {
			out = append(out, m)
		}
	}
	return out
}

// left is the meets still to be taken in at a place with some of what is beneath it at hand.
func (s *shape) left(v int, beneath, hand map[int]bool) []*meet {
	return s.meetsOf(func(m *meet) bool {
		return m.hasOf(hand) && (m.top == v && !m.within(hand) || m.top != v && !beneath[m.top])
	})
}

func (m *meet) within(set map[int]bool) bool {
	return !slices.ContainsFunc(m.places, func(v int) bool { return !set[v] })
}

func (m *meet) hasOf(set map[int]bool) bool {
	return slices.ContainsFunc(m.places, func(v int) bool { return set[v] })
}

func asked(meets []*meet, v int) bool {
	return slices.ContainsFunc(meets, func(m *meet) bool { return slices.Contains(m.places, v) })
}

// step makes one list of two: now is taken in and left still to be.
func (s *shape) step(first, second []int, now, left []*meet) step {
	var st step
	find := func(x int) from {
		if i := slices.Index(first, x); i >= 0 {
			return from{1, i}
		}
		if i := slices.Index(second, x); i >= 0 {
			return from{2, i}
		}
		return from{}
	}
	for _, m := range now {
		t := taken{meet: m}
		for _, x := range m.places {
			t.where = append(t.where, find(x))
		}
		st.takes = append(st.takes, t)
	}
	for _, x := range slices.Concat(first, second) {
		if asked(left, x) {
			st.keeps = append(st.keeps, find(x))
			st.places = append(st.places, x)
		}
	}
	st.dearer = s.dearer(st.places, left)
	return st
}

// dearer is by how much an option of a place is dearer than another at most, in all that
// is left to take in, whatever else is taken there.
func (s *shape) dearer(places []int, left []*meet) [][][]float64 {
	var out [][][]float64
	for _, v := range places {
		var much [][]float64
		for _, m := range left {
			if i := slices.Index(m.places, v); i >= 0 {
				much = added(much, m.dearer[i])
			}
		}
		out = append(out, much)
	}
	return out
}

func added(a, b [][]float64) [][]float64 {
	if a == nil {
		return b
	}
	out := make([][]float64, len(a))
	for i := range a {
		out[i] = make([]float64, len(a[i]))
		for k := range a[i] {
			out[i][k] = a[i][k] + b[i][k]
		}
	}
	return out
}

// compare fills in by how much an option of place i is dearer than another at most.
func (m *meet) compare(s *shape, i int) [][]float64 {
	n := len(s.price[m.places[i]])
	out := make([][]float64, n)
	for a := range out {
		out[a] = slices.Repeat([]float64{math.Inf(-1)}, n)
	}
	m.each(s, func(at int, option func(int) int) {
		b := option(i)
		for a := range n {
			out[a][b] = max(out[a][b], m.price[at+(a-b)*m.stride[i]]-m.price[at])
		}
	})
	return out
}

// take is what a step costs with the options at hand, and what is carried on.
func (st *step) take(own int, first, second []int8) (price float64, on []int8) {
	look := func(f from) int {
		switch f.list {
		case 1:
			return int(first[f.at])
		case 2:
			return int(second[f.at])
		}
		return own
	}
	for i := range st.takes {
		t, at := &st.takes[i], 0
		for k, f := range t.where {
			at += t.meet.stride[k] * look(f)
		}
		price += t.meet.price[at]
	}
	if len(st.keeps) > 0 {
		on = make([]int8, len(st.keeps))
		for i, f := range st.keeps {
			on[i] = int8(look(f))
		}
	}
	return price, on
}

// more is by how much one list of options may come out dearer than another at most.
func (c *carried) more(a, b []int8) float64 {
	sum := 0.0
	for i := range c.dearer {
		sum += c.dearer[i][a[i]][b[i]]
	}
	return sum
}
