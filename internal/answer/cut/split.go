package cut

import (
	"cmp"
	"math"
	"slices"
)

// split names a set of patterns: those of one bar, and with at least so many of one
// kind and of another. How many bars are cut by one of the set is a whole number; where
// the relaxation says otherwise, the search goes both ways.
type split struct {
	bar          int16 // -1: any
	kind, other  int16 // -1: any
	times, again int16
	pattern      int32 // -1: any
	end          int64 // least room for an end of the joined piece, 0: any
}

func (s split) holds(p *pool, i int) bool {
	if s.pattern >= 0 {
		return int(s.pattern) == i
	}
	if p.end[i] < s.end {
		return false
	}
	if s.bar >= 0 && p.bar[i] != s.bar {
		return false
	}
	found := s.kind < 0
	second := s.other < 0
	for _, part := range p.at(i) {
		if part.kind == s.kind && part.times >= s.times {
			found = true
		}
		if part.kind == s.other && part.times >= s.again {
			second = true
		}
	}
	return found && second
}

func (s split) members(p *pool) []int {
	var members []int
	for i := range p.len() {
		if s.holds(p, i) {
			members = append(members, i)
		}
	}
	return members
}

// used is a pattern and how often the relaxation uses it.
type used struct {
	pattern int
	times   float64
}

// whole is how near to a whole number counts as one.
const whole = 1e-6

func fraction(x float64) float64 { return math.Abs(x - math.Round(x)) }

// tally sums the use of sets of patterns.
type tally struct {
	use   []used
	index map[split]int
	sets  []split
	sums  []float64
}

func (t *tally) add(s split, x float64) {
	k, ok := t.index[s]
	if !ok {
		k = len(t.sets)
		t.index[s] = k
		t.sets = append(t.sets, s)
		t.sums = append(t.sums, 0)
	}
	t.sums[k] += x
}

// wayOn is a set to go both ways on, and how often the relaxation uses it.
type wayOn struct {
	set split
	sum float64
}

// best gives up to so many sets whose sums are furthest from whole, no two of them with
// one sum, as these are mostly one set by two names.
func (t *tally) best(most int) []wayOn {
	var ways []wayOn
	for k, sum := range t.sums {
		if fraction(sum) > whole {
			ways = append(ways, wayOn{t.sets[k], sum})
		}
	}
	slices.SortStableFunc(ways, func(a, b wayOn) int { return cmp.Compare(fraction(b.sum), fraction(a.sum)) })
	ways = slices.CompactFunc(ways, func(a, b wayOn) bool { return math.Abs(a.sum-b.sum) < 1e-9 })
	return ways[:min(most, len(ways))]
}

// choices gives sets to go both ways on, none when all is whole. Numbers of bars come
// first, since they settle the price, then sets of many patterns, then single ones.
func choices(p *pool, use []used, most int) []wayOn {
	for _, gather := range []func(*tally, *pool, used){tallyBars, tallyEnds, tallyKinds, tallyPatterns} {
		t := tally{use: use, index: map[split]int{}}
		for _, u := range use {
			gather(&t, p, u)
		}
		if ways := t.best(most); len(ways) > 0 {
			return ways
		}
	}
	return nil
}

func tallyBars(t *tally, p *pool, u used) {
	t.add(split{bar: -1, kind: -1, other: -1, pattern: -1}, u.times)
	t.add(split{bar: p.bar[u.pattern], kind: -1, other: -1, pattern: -1}, u.times)
}

// tallyEnds counts ends that are as long as one of those in use, or longer.
func tallyEnds(t *tally, p *pool, u used) {
	for i, v := range t.use {
		end := p.end[v.pattern]
		again := slices.ContainsFunc(t.use[:i], func(w used) bool { return p.end[w.pattern] == end })
		if end > 0 && end <= p.end[u.pattern] && !again {
			t.add(split{bar: -1, kind: -1, other: -1, pattern: -1, end: end}, u.times)
		}
	}
}

func tallyKinds(t *tally, p *pool, u used) {
	parts := p.at(u.pattern)
	for i, a := range parts {
		for n := a.times; n >= 1; n-- {
			t.add(split{bar: -1, kind: a.kind, times: n, other: -1, pattern: -1}, u.times)
		}
		for _, b := range parts[i+1:] {
			t.add(split{bar: -1, kind: a.kind, times: 1, other: b.kind, again: 1, pattern: -1}, u.times)
		}
	}
}

func tallyPatterns(t *tally, _ *pool, u used) {
	t.add(split{bar: -1, kind: -1, other: -1, pattern: int32(u.pattern)}, u.times)
}
