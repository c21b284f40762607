package cut

import (
	"context"
	"math"
)

// fullMost is how many patterns are listed without being asked for one by one, and after
// how many steps that is given up; listMost is how many a search may have at all.
const (
	fullMost  = 20_000
	fullSteps = 5_000_000
	listMost  = 150_000
	askSteps  = 400_000 // that are taken to find the best patterns of one bar
)

// root is a bound that holds for every plan, and the multipliers that prove it.
type root struct {
	worth    worth // no pattern is worth more than it costs
	bound    int64 // fine parts
	relaxed  *relaxation
	complete bool // the relaxation has all full patterns
}

// material gives the multipliers that say: a length is worth its share of a bar. They
// need no programme, and where all bars can come out full they are exact.
func material(s *shape) root {
	most := math.Inf(1)
	for _, b := range s.bars {
		if !b.scarce {
			most = min(most, float64(b.price)/float64(b.room))
		}
	}
	best := root{bound: math.MinInt64}
	for _, b := range s.bars {
		if r := s.rate(min(most, float64(b.price)/float64(b.room))); r.bound > best.bound {
			best = r
		}
	}
	return best
}

// rate gives the multipliers and the bound for one price per length.
func (s *shape) rate(price float64) root {
	var r root
	for _, k := range s.kinds {
		v := int64(math.Floor(float64(k.size) * price * float64(s.fine)))
		r.worth.kind = append(r.worth.kind, v)
		r.bound += v * int64(k.need)
	}
	if s.joint.size > 0 {
		r.worth.joint = int64(math.Floor(float64(s.joint.size) * price * float64(s.fine)))
		r.bound += r.worth.joint
	}
	for _, b := range s.bars {
		// A filled bar's pieces are worth no more than this, rounding included.
		full := int64(math.Ceil(float64(b.room)*price*float64(s.fine)*(1+1e-12))) + 1
		rent := max(0, full-b.price*s.fine)
		r.worth.bar = append(r.worth.bar, b.price*s.fine+rent)
		r.bound -= rent * int64(b.most)
	}
	return r
}

// solveRoot solves the relaxation over all patterns: over a list of them where they are
// few, else over those that are asked for.
func solveRoot(ctx context.Context, s *shape, start []load) (root, error) {
	all, complete := patternsWithin(ctx, s, s.free(), 0, fullMost, fullSteps)
	if !complete {
		return askRoot(ctx, s, start)
	}
	r := relax(ctx, s, all)
	if err := r.lp.Dual(ctx, math.Inf(1)); err != nil {
		return root{}, err
	}
	return r.conclude(all, nil, true), nil
}

// free is the worth of nothing, at which every pattern is listed.
func (s *shape) free() worth {
	return worth{kind: make([]int64, len(s.kinds)), bar: make([]int64, len(s.bars))}
}

// askRoot begins with some patterns and asks again and again for those that are worth
// more than they cost, until there is none.
func askRoot(ctx context.Context, s *shape, start []load) (root, error) {
	return askRootWithin(ctx, s, start, askSteps)
}

// askRootWithin is askRoot with so many steps for the best patterns of one bar.
func askRootWithin(ctx context.Context, s *shape, start []load, steps int) (root, error) {
	some := &pool{}
	for _, l := range start {
		some.add(l)
	}
	r := relax(ctx, s, some)
	if err := r.lp.Dual(ctx, math.Inf(1)); err != nil {
		return root{}, err
	}
	for {
		w := r.worth(r.multipliers())
		// Gains below this are rounding, and are taken off the bound.
		found, _, err := useful(ctx, s, w, int64(r.unit*1e-7*float64(s.fine)), steps)
		if err != nil {
			return root{}, err
		}
		if found.len() == 0 || some.len() > listMost {
			best, over, err := useful(ctx, s, w, -math.MaxInt64/4, steps)
			return r.conclude(best, over, false), err
		}
		for i := range found.len() {
			some.add(found.load(i))
			r.addColumn(some.len() - 1)
		}
		if err := r.lp.Primal(ctx); err != nil {
			return root{}, err
		}
	}
}

// useful gives patterns that are worth more than they cost by at least so much: for
// each bar the best one, and those that it was found after. Where the best of a bar is too
// hard to find, over says what none of it is worth more than beyond its cost.
func useful(ctx context.Context, s *shape, w worth, gain int64, steps int) (out *pool, over []int64, err error) {
	out, over = &pool{start: []int32{0}}, make([]int64, len(s.bars))
	l := newLister(ctx, s, w, out, math.MaxInt)
	l.best = true
	for b := range s.bars {
		for _, end := range s.joint.endings() {
			l.steps, l.most, l.ended = 0, steps, false
			if l.run(b, end, w.bar[b]+gain) {
				continue
			}
			if ctx.Err() != nil {
				return out, over, ctx.Err()
			}
			l.now = l.now[:0]
			over[b] = max(over[b], int64(math.Ceil(l.ceiling(0, s.bars[b].room-end.keep)))+1-w.bar[b])
		}
	}
	return out, over, nil
}

// conclude makes the multipliers safe: where one of the judged patterns, the best of
// each bar among them, is worth more than its bar costs, the bar is made dearer; over has
// what that may be of bars whose best is not known, nil for none. That is allowed as no
// more than so many bars of a sort are used.
func (r *relaxation) conclude(judged *pool, over []int64, complete bool) root {
	y := r.multipliers()
	w := r.worth(y)
	bound := int64(0)
	for i, n := range r.need {
		bound += y[i] * n
	}
	worst := make([]int64, len(w.bar))
	copy(worst, over)
	for i := range judged.len() {
		b := judged.bar[i]
		worst[b] = max(worst[b], -w.overrun(r.shape.joint, judged.load(i)))
	}
	for b, c := range worst {
		w.bar[b] += c
		bound -= c * int64(r.shape.bars[b].most)
	}
	return root{w, bound, r, complete}
}
