package tree

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"
)

// Solve picks the cheapest options. Where the labels become too many, dearer ones by a
// little are let go, and the answer says how much cheaper another might be. The error is
// ErrProblem, a *NoneError, or that of ctx.
func (p *Problem) Solve(ctx context.Context) (*Answer, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	s := newShape(p)
	s.bound()
	if err := s.lacking(); err != nil {
		return nil, err
	}
	s.spread()
	groups := p.groups()
	best := &Answer{Price: math.Inf(1)}
	// A quick look with few labels gives a price that the exact search need not exceed.
	quick := s.search(groups, math.Inf(1), crowd, 0)
	if err := quick.run(ctx); err != nil && !errors.Is(err, errEffort) {
		return nil, err
	}
	quick.better(best)
	if err := s.exactly(ctx, groups, best); err != nil {
		return nil, err
	}
	if math.IsInf(best.Price, 1) {
		return nil, &NoneError{Grows: true}
	}
	return best, nil
}

// exactly goes through all labels, with as little slack as the effort allows.
func (s *shape) exactly(ctx context.Context, groups []group, best *Answer) error {
	// A way to fill the places goes through two prunings a place, each of which may have let
	// it go for one dearer by the slack.
	prunings := 2 * float64(len(s.p.Places))
	for slack := 0.0; ; {
		full := s.search(groups, best.Price, 0, slack)
		if slack > s.total { // the widest slack keeps few labels: let it come to an end
			full.effort = math.MaxInt
		}
		err := full.run(ctx)
		full.better(best)
		best.Labels += full.labels
		switch {
		case err == nil:
			best.Bound = max(s.total, best.Price-slack*prunings)
			best.Proven = best.Bound >= best.Price
			return nil
		case errors.Is(err, context.DeadlineExceeded) && !math.IsInf(best.Price, 1):
			best.Bound = s.total
			return nil
		case !errors.Is(err, errEffort):
			return err
		}
		if !math.IsInf(best.Price, 1) && best.Price-slack*prunings <= s.total {
			best.Bound = s.total // a wider slack tells no more
			return nil
		}
		slack = max(4*slack, firstSlack*s.total/prunings, least)
	}
}

// The slack taken first, as a share of the price of all places at their cheapest, and the
// least that is taken.
const (
	firstSlack = 4e-3
	least      = 1e-6
)

// crowd is how many labels the quick look keeps at each place.
const crowd = 24

var errEffort = errors.New("tree: too many labels")

// lacking says where even what loses least asks for more than there is.
func (s *shape) lacking() error {
	none := &NoneError{}
	for v := range s.p.Places {
		place := &s.p.Places[v]
		if place.Parent >= 0 {
			continue
		}
		for c := range s.p.Cases {
			if q := s.pattern[v][c]; q >= 0 && s.floor[v][q] > place.Supply[c] {
				none.Lacks = append(none.Lacks, Lack{v, c, s.floor[v][q], place.Supply[c]})
			}
		}
	}
	if len(none.Lacks) > 0 {
		return none
	}
	for v := range s.p.Places {
		if !slices.Contains(s.usable[v], true) {
			return &NoneError{}
		}
	}
	return nil
}

// group is places that share their option.
type group struct{ places []int }

func (p *Problem) groups() []group {
	at := map[int]int{}
	var out []group
	for i := range p.Places {
		k := p.Places[i].Shared
		if k == 0 {
			continue
		}
		if _, ok := at[k]; !ok {
			at[k] = len(out)
			out = append(out, group{})
		}
		out[at[k]].places = append(out[at[k]].places, i)
	}
	return out
}

// search is one way through all labels.
type search struct {
	*shape
	groups []group
	set    []int // by place: the option that its group takes; -1: free
	best   float64
	found  *label
	most   int // labels at each place; 0: all
	slack  float64
	effort int // comparisons
	work   int
	labels int
}

func (s *shape) search(groups []group, best float64, most int, slack float64) *search {
	r := &search{shape: s, groups: groups, best: best, most: most, slack: slack, effort: cmp.Or(s.p.Effort, Effort), set: make([]int, len(s.p.Places))}
	for i := range r.set {
		r.set[i] = -1
	}
	return r
}

// way is one option for each group, and what all places cost with it at least.
type way struct {
	options []int
	price   float64
}

// ways lists the ways to set the groups, the cheapest first.
func (r *search) ways() []way {
	out := []way{{price: r.total}}
	for _, g := range r.groups {
		var next []way
		for _, w := range out {
			for o := range r.p.Places[g.places[0]].Options {
				more, ok := 0.0, true
				for _, v := range g.places {
					ok = ok && r.usable[v][o]
					more += r.price[v][o] - r.least[v]
				}
				if ok {
					next = append(next, way{append(slices.Clone(w.options), o), w.price + more})
				}
			}
		}
		out = next
	}
	slices.SortStableFunc(out, func(a, b way) int { return cmp.Compare(a.price, b.price) })
	return out
}

// run goes through the ways to set the groups until no more can be cheaper.
func (r *search) run(ctx context.Context) error {
	for _, w := range r.ways() {
		if w.price >= r.best {
			break
		}
		for g, o := range w.options {
			for _, v := range r.groups[g].places {
				r.set[v] = o
			}
		}
		if err := r.one(ctx); err != nil {
			return err
		}
	}
	return nil
}

// one fills the forest with the groups as they are set.
func (r *search) one(ctx context.Context) error {
	n := len(r.p.Places)
	done := make([][]label, n)
	all := []label{{place: -1}}
	// What the places outside a tree cost at least leaves less for it.
	rest := make([]float64, n)
	for v := n - 1; v >= 0; v-- {
		rest[v] += r.cheapest(v)
		if up := r.p.Places[v].Parent; up >= 0 {
			rest[up] += rest[v]
		}
	}
	total := 0.0
	for v := range n {
		if r.p.Places[v].Parent < 0 {
			total += rest[v]
		}
	}
	for v := n - 1; v >= 0; v-- {
		if err := ctx.Err(); err != nil {
			return err
		}
		list, err := r.place(v, done, r.best-(total-rest[v]))
		if err != nil {
			return err
		}
		if len(list) == 0 {
			return nil
		}
		done[v] = list
		if r.p.Places[v].Parent < 0 {
			cheapest := slices.MinFunc(list, func(a, b label) int {
				if a.price < b.price {
					return -1
				}
				return 1
			})
			all[0] = label{place: -1, price: all[0].price + cheapest.price, below: &cheapest, beside: keep(all[0])}
			done[v] = nil
		}
	}
	if all[0].price < r.best {
		r.best, r.found = all[0].price, keep(all[0])
	}
	return nil
}

func keep(l label) *label { return &l }

// cheapest is the least that a place costs as its group is set.
func (r *search) cheapest(v int) float64 {
	if o := r.set[v]; o >= 0 {
		return r.price[v][o]
	}
	return r.least[v]
}

// better takes what was found into an answer.
func (r *search) better(a *Answer) {
	if r.found == nil || r.best > a.Price {
		return
	}
	a.Price, a.Chosen = r.best, make([]int, len(r.p.Places))
	stack := []*label{r.found}
	for len(stack) > 0 {
		l := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if l == nil {
			continue
		}
		if l.place >= 0 {
			a.Chosen[l.place] = int(l.option)
		}
		stack = append(stack, l.below, l.beside)
	}
}
