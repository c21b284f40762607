package size

import (
	"context"
	"fmt"
	"maps"
	"math"
	"slices"
	"sync"

	"dropleg/engine/air"
	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// verdict is a pick with flows that follow pressure.
type verdict struct {
	study *study.Study
	flow  *flow.Answer
	picks []int
	takes []map[int]float64 // kg/s, by moment and pair
	lacks map[int]float64   // Pa that a pair lacks
	fast  map[int]float64   // choices that run too fast: velocity over the limit
	days  *day.Answer       // nil where they tell nothing
	short []job.ID          // tools that go short too often in the days
	fresh bool              // a set of the flows was none of the moments, and is now
	mains []endWish         // what is wanted at the ends of mains that lose too much
}

func (v *verdict) holds() bool {
	return len(v.lacks) == 0 && len(v.fast) == 0 && len(v.short) == 0 && len(v.mains) == 0 && !v.fresh
}

// What counts as nothing: of pressure, Pa; of velocity, a share.
const (
	unseen   = 1.0
	sameFast = 1e-3
	unsolved = 20e3 // Pa: what is taken to lack where the network has no answer
)

// verify solves a pick in all moments, and in the sets that are the worst by its own sizes.
func (w *work) verify(ctx context.Context, after *study.Study, picks []int) (*verdict, error) {
	v, err := w.inMoments(ctx, after, picks)
	if err != nil {
		return nil, err
	}
	return v, w.inSets(ctx, v)
}

// inMoments solves a pick in the moments known so far alone.
func (w *work) inMoments(ctx context.Context, after *study.Study, picks []int) (*verdict, error) {
	m, err := after.Model(ctx)
	if err != nil {
		return nil, err
	}
	v := &verdict{study: after, picks: picks, lacks: map[int]float64{}, fast: map[int]float64{}}
	return v, w.judgeFrom(ctx, v, m)
}

// inSets takes in the sets that are the worst by a pick's own sizes.
func (w *work) inSets(ctx context.Context, v *verdict) error {
	m, err := v.study.Model(ctx)
	if err != nil {
		return err
	}
	if v.flow, err = v.study.Flow(ctx); err != nil {
		return err
	}
	for i := range v.flow.Sets {
		v.fresh = w.take(&v.flow.Sets[i]) || v.fresh
	}
	return w.judgeFrom(ctx, v, m)
}

// judgeFrom solves and judges the moments that a verdict has not seen yet.
func (w *work) judgeFrom(ctx context.Context, v *verdict, m *model.Model) error {
	first := len(v.takes)
	results, err := w.solved(ctx, m, w.moments[first:])
	if err != nil {
		return err
	}
	for i, r := range results {
		w.judge(v, &w.moments[first+i], m, r)
		w.judgeMains(v, first+i, m, r)
	}
	return nil
}

// shares is how many solvers go through the moments, whatever the cores: each starts from its
// last answer, and the same wish has to give the same last digit on every machine.
const shares = 4

// solved solves moments.
func (w *work) solved(ctx context.Context, m *model.Model, moments []moment) ([]*model.Result, error) {
	out := make([]*model.Result, len(moments))
	errs := make([]error, shares)
	var wg sync.WaitGroup
	for share := range shares {
		wg.Go(func() {
			solver := m.NewSolver()
			for i := share; i < len(out) && errs[share] == nil; i += shares {
				c := model.Case{Supply: model.CutIn}
				for _, p := range moments[i].running {
					c.Running = append(c.Running, job.InUse{Tool: w.model.Pairs()[p].Tool, Outlet: w.model.Pairs()[p].Outlet})
				}
				out[i], errs[share] = solver.Solve(ctx, c)
			}
		})
	}
	wg.Wait()
	for _, err := range errs { // a stop comes to all of them, and is told once
		if err != nil {
			return nil, fmt.Errorf("verifying sizes: %w", err)
		}
	}
	return out, nil
}

// judge reads one moment.
func (w *work) judge(v *verdict, x *moment, m *model.Model, r *model.Result) {
	took := map[int]float64{}
	v.takes = append(v.takes, took)
	for _, pair := range x.running {
		base := &w.model.Pairs()[pair]
		p, ok := m.PairOf(job.InUse{Tool: base.Tool, Outlet: base.Outlet})
		if !ok || !r.Solved || !r.Tools[p.Index].Known {
			v.lacks[pair] = math.Max(v.lacks[pair], unsolved)
			continue
		}
		t := &r.Tools[p.Index]
		took[pair] = float64(air.Mass(t.Flow))
		if lack := w.need(base) - float64(t.Pressure.Abs(m.Atmosphere())); lack > unseen {
			v.lacks[pair] = math.Max(v.lacks[pair], lack)
		}
	}
	for i := range m.Elements() {
		e := &m.Elements()[i]
		limit := w.limit(e.Thing, e.Role)
		if at, ok := w.choiceWith[e.ID]; ok && limit > 0 && !w.exempt[at] && float64(r.Flows[i].Out) > limit*(1+sameFast) {
			v.fast[at] = math.Max(v.fast[at], float64(r.Flows[i].Out)/limit)
		}
	}
}

// tighten takes in what verifying found: tools take as much as they took there where that
// is more, and where that is known already a tool wants more by what it lacks; a choice
// that runs too fast leaves its size and all smaller.
func (w *work) tighten(v *verdict) {
	more := false
	for i, took := range v.takes {
		for pair, m := range took {
			m *= 1 + w.wish.Growth
			if m > w.takes(&w.moments[i], pair)*(1+sameFlow) {
				w.moments[i].takes[pair], more = m, true
			}
		}
	}
	for i, p := range w.model.Pairs() {
		if slices.Contains(v.short, p.Tool) {
			w.extra[i] += w.oftener
		}
	}
	if len(v.short) > 0 {
		w.oftener *= 2
	}
	for pair, lack := range v.lacks {
		if !more || lack == unsolved {
			w.extra[pair] += lack + lackMore
		}
	}
	for _, e := range v.mains {
		w.ends[e.endKey] = math.Max(w.ends[e.endKey], e.pressure)
	}
	for at := range v.fast {
		c := w.choices[at]
		c.barred = max(c.barred, v.picks[at]+1)
		if c.barred >= len(c.options) {
			c.barred = len(c.options) - 1
			w.spare(at)
		}
	}
}

// What counts as the same flow, a share; what a tool wants more than it lacked, Pa.
const (
	sameFlow = 1e-3
	lackMore = 10
	// What a tool wants more that goes short too often in the days, Pa, at first.
	firstOftener = 3e3
)

// largest verifies the largest sizes on offer: what they do not give no size gives, and what
// is too fast in them is spared the rule.
func (w *work) largest(ctx context.Context) error {
	picks := make([]int, len(w.choices))
	for i, c := range w.choices {
		picks[i] = len(c.options) - 1
	}
	after, err := w.after(picks)
	if err != nil {
		return err
	}
	w.best = after
	v, err := w.verify(ctx, after, picks)
	if err != nil {
		return err
	}
	if len(v.lacks) > 0 {
		if !w.wish.AsFar {
			return w.lacking(ctx, v)
		}
		w.settleFor(v)
	}
	if len(v.mains) > 0 {
		w.slackMains = true
		w.note("no size on offer keeps the loss in mains within the rule of the job: they are picked for pressure and velocity")
	}
	for at := range v.fast {
		w.spare(at)
	}
	clear(v.lacks)
	clear(v.fast)
	v.mains = nil
	w.top = v
	return nil
}

// settleFor asks of each pair that the largest sizes leave short what these give it, and
// tells so.
func (w *work) settleFor(v *verdict) {
	for _, pair := range slices.Sorted(maps.Keys(v.lacks)) {
		p := &w.model.Pairs()[pair]
		w.less[pair] = v.lacks[pair] + settled
		w.note(fmt.Sprintf("with the largest sizes on offer %s still lacks %s%s: sizes are picked for what these give it",
			w.toolName(p.Tool), w.text(unit.KindPressureDiff, v.lacks[pair]), w.at(p.Outlet)))
	}
}

// settled is within how much of what the largest sizes give a pair that has to be content
// is to come, Pa.
const settled = 2e3

// spare lets a choice run faster than the rules say, but no faster than it does.
func (w *work) spare(at int) {
	w.exempt[at] = true
	c := w.choices[at]
	c.barred = max(c.barred, c.now)
	w.note(c.words + ": no size on offer keeps the air as slow as the rules want; it is picked for pressure, and no smaller than it is")
}
