package size

import (
	"cmp"
	"context"
	"math"
	"slices"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/size/tree"
)

// worthPolish is the share of the price that may be saved at most from which smaller sizes
// are tried one by one.
const worthPolish = 2e-3

// mostPolished bounds the smaller sizes that are tried on a pick that holds.
const mostPolished = 24

// polish tries one size smaller of each choice of a pick that took more than one round, the
// greatest saving first: what was tightened for all may be too much for some. Each is held
// to flows that follow pressure; all together to the days, else the pick stays as it was, and
// is held to them itself: days take longest, so the pick that is likely the last comes first.
func (w *work) polish(ctx context.Context, f *frame, v *verdict) (*verdict, error) {
	less, err := w.smaller(ctx, f, v)
	if err != nil {
		return nil, err
	}
	if err := w.days(ctx, less); err != nil || less.holds() || less == v {
		return less, err
	}
	return v, w.days(ctx, v)
}

// smaller is a pick with the smaller sizes by which it still holds, days not asked.
func (w *work) smaller(ctx context.Context, f *frame, v *verdict) (*verdict, error) {
	order, first := w.bySaving(v)
	for n, i := range order {
		if n == mostPolished || first[i] <= 0 {
			break
		}
		if w.saves(v, i) <= 0 { // by what was made smaller before it
			continue
		}
		picks := slices.Clone(v.picks)
		picks[i]--
		if !f.narrows(picks) {
			continue
		}
		after, err := w.after(picks)
		if err != nil {
			return nil, err
		}
		less, err := w.lesser(ctx, after, picks)
		if err != nil {
			return nil, err
		}
		if less.holds() {
			v = less
		}
	}
	return v, nil
}

// bySaving lists choices by what the next smaller size of a pick saves, most first.
func (w *work) bySaving(v *verdict) (order []int, saved []float64) {
	for i := range w.choices {
		order, saved = append(order, i), append(saved, w.saves(v, i))
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(saved[b], saved[a]) })
	return order, saved
}

// saves is what the next smaller size of a choice saves.
func (w *work) saves(v *verdict, i int) float64 {
	if v.picks[i] == 0 {
		return 0
	}
	less := slices.Clone(v.picks)
	less[i]--
	return w.total(v.picks) - w.total(less)
}

// lesser verifies a smaller pick, with all sets only where the moments hold.
func (w *work) lesser(ctx context.Context, after *study.Study, picks []int) (*verdict, error) {
	v, err := w.inMoments(ctx, after, picks)
	if err == nil && v.holds() {
		err = w.inSets(ctx, v)
	}
	return v, err
}

// narrows: no line that is free is wider than the next line above it.
func (f *frame) narrows(picks []int) bool {
	bore := func(i int) float64 {
		p := &f.places[i]
		if p.choice >= 0 && f.choices[p.choice].line {
			return f.choices[p.choice].options[picks[p.choice]].bore
		}
		most := 0.0
		if p.ring != nil {
			for _, c := range p.ring.choices {
				if f.choices[c].line {
					most = max(most, f.choices[c].options[picks[c]].bore)
				}
			}
		}
		return most
	}
	for i := range f.places {
		if !f.problem.Places[i].Line || f.problem.Places[i].Held {
			continue
		}
		up := f.problem.Places[i].Parent
		for up >= 0 && !f.problem.Places[up].Line {
			up = f.problem.Places[up].Parent
		}
		if up >= 0 && !f.problem.Places[up].Held && bore(i) > bore(up) {
			return false
		}
	}
	return true
}

// mixed is what nothing costs less than where each line of a ring may have its own size: a
// ring that loses nothing and costs its cheapest sizes asks for less than any.
func (w *work) mixed(ctx context.Context) (float64, error) {
	f := w.laid()
	f.problem.Effort, f.mixed = effort/8, true
	for i := range f.places {
		r := f.places[i].ring
		if r == nil {
			continue
		}
		v := &f.problem.Places[i]
		least := tree.Option{Price: w.leastOn(r)}
		for _, o := range v.Options {
			least.Bore = max(least.Bore, o.Bore)
		}
		v.Options = []tree.Option{least}
		v.Inlet = func(_, _, _ int, out float64) float64 { return out }
	}
	f.join()
	a, err := w.solve(ctx, f)
	if err != nil {
		return 0, err
	}
	return a.Bound, nil
}

// leastOn is what the lines of a ring cost at least, each by itself.
func (w *work) leastOn(r *ring) float64 {
	sum := 0.0
	for _, c := range r.choices {
		least := math.Inf(1)
		for _, o := range w.choices[c].options[w.choices[c].barred:] {
			least = min(least, o.price)
		}
		sum += least
	}
	return sum
}
