package tree

import (
	"errors"
	"math"
	"slices"
)

// Problem is a forest of places, parents before their children.
type Problem struct {
	Cases  int
	Places []Place
	// Meets are the prices that hang on the options of several places together: a fitting
	// where lines of different sizes meet.
	Meets []Meet
	// Effort bounds the comparisons before a slack is taken in, and then before a wider one;
	// 0: Effort.
	Effort int
}

// Effort is what is compared at most, about a quarter of a second.
const Effort = 40_000_000

// Place is one choice, or a thing that stands: a single option.
type Place struct {
	Parent int // -1: it hangs on a source
	Port   int // of the parent, where its air leaves that
	// Supply is what the source has in each case, Pa absolute; only without a parent.
	Supply []float64
	// Flow is what passes in each case, kg/s; where none does, the place asks for nothing.
	Flow []float64
	// Least is what is wanted at the lower end in each case, Pa absolute; 0: nothing.
	Least []float64
	// Mark tells cases apart that the law of the place tells apart beside their flow; nil: none.
	Mark    []float64
	Options []Option
	// Inlet is the least pressure at the upper end that gives one at the lower end, Pa
	// absolute; +Inf where none does. It never falls as that rises, and is never less.
	Inlet func(option, kase, port int, out float64) float64
	// Shared numbers the places of which all take the same option, from 1; 0: its own.
	Shared int
	// Line: options have bores and no line below may have more. Held: it stays as it is
	// and binds nothing.
	Line, Held bool
}

// Meet is a price by the options of places, which all lie in one tree.
type Meet struct {
	Places []int // each once
	// Price is by the option of each place, in the order of Places; the last one's runs first.
	Price []float64
}

// Option is one way to fill a place.
type Option struct {
	Price float64
	Bore  float64 // of a line, m
}

// ErrProblem is a problem that is not one.
var ErrProblem = errors.New("tree: a problem has cases, places with options, parents before children, prices for all options where they meet, prices and flows that are numbers")

// check refuses what cannot be worked on.
func (p *Problem) check() error {
	if p.Cases < 1 || len(p.Places) == 0 {
		return ErrProblem
	}
	shared := map[int]int{}
	for i := range p.Places {
		v := &p.Places[i]
		bad := v.Parent >= i || len(v.Options) == 0 || len(v.Options) > math.MaxInt8 || v.Inlet == nil || v.Port < 0 ||
			len(v.Flow) != p.Cases || len(v.Least) != p.Cases || v.Mark != nil && len(v.Mark) != p.Cases || v.Parent < 0 && len(v.Supply) != p.Cases
		for _, o := range v.Options {
			bad = bad || !finite(o.Price) || o.Price < 0 || !finite(o.Bore)
		}
		for _, list := range [][]float64{v.Flow, v.Least, v.Supply} {
			bad = bad || slices.ContainsFunc(list, func(x float64) bool { return !finite(x) || x < 0 })
		}
		if n, ok := shared[v.Shared]; ok && v.Shared > 0 && n != len(v.Options) {
			bad = true
		}
		shared[v.Shared] = len(v.Options)
		if bad {
			return ErrProblem
		}
	}
	for _, m := range p.Meets {
		if !p.fits(m) {
			return ErrProblem
		}
	}
	return nil
}

// fits says whether a meet has a price for all options of its places.
func (p *Problem) fits(m Meet) bool {
	n := 1
	for i, v := range m.Places {
		if v < 0 || v >= len(p.Places) || slices.Contains(m.Places[:i], v) || p.root(v) != p.root(m.Places[0]) {
			return false
		}
		n *= len(p.Places[v].Options)
	}
	return len(m.Places) > 0 && len(m.Price) == n && !slices.ContainsFunc(m.Price, func(x float64) bool { return !finite(x) || x < 0 })
}

// root is the place above all that is above a place.
func (p *Problem) root(v int) int {
	for p.Places[v].Parent >= 0 {
		v = p.Places[v].Parent
	}
	return v
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// Answer is one option a place.
type Answer struct {
	Chosen []int
	Price  float64
	// Bound: nothing that does costs less. Proven: it is the price itself.
	Bound  float64
	Proven bool
	Labels int // looked at
}

// NoneError says that no options do, and what is lacking where everything loses least.
type NoneError struct {
	Lacks []Lack // where a case asks for more than the source has
	// Grows: the pressures could be had, but only where a line is wider than the one above.
	Grows bool
}

// Lack is a case that asks for more at a source than that has.
type Lack struct {
	Place int
	Case  int
	Asks  float64 // Pa absolute; +Inf: no pressure does
	Has   float64
}

func (e *NoneError) Error() string { return "no options give every place its pressure" }
