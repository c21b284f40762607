package size

import (
	"context"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// steps tries one size larger of each choice: what it costs more, and what it brings to the
// tool that has least to spare, in the moment in which it has that.
func (w *work) steps(ctx context.Context, v *verdict, progress func(done, total int)) ([]Step, error) {
	m, err := v.study.Model(ctx)
	if err != nil {
		return nil, err
	}
	running, use, was := w.leastToSpare(ctx, m)
	if running == nil {
		return nil, nil
	}
	var out []Step
	for i, c := range w.choices {
		progress(i, len(w.choices))
		k := v.picks[i]
		if k+1 >= len(c.options) {
			continue
		}
		picks := slices.Clone(v.picks)
		picks[i]++
		after, err := w.after(picks)
		if err != nil {
			return nil, err
		}
		wider, err := after.Model(ctx)
		if err != nil {
			return nil, err
		}
		r, err := wider.NewSolver().Solve(ctx, model.Case{Running: running, Supply: model.CutIn})
		if err != nil {
			return nil, err
		}
		p, ok := wider.PairOf(use)
		if !ok || !r.Solved || !r.Tools[p.Index].Known {
			continue
		}
		out = append(out, Step{
			IDs: c.ids, Words: c.words, To: c.options[k+1].size, Price: w.total(picks) - w.total(v.picks),
			Brings: r.Tools[p.Index].Pressure.Minus(was),
		})
	}
	return out, nil
}

// leastToSpare is the moment and the tool with the least pressure over what it needs.
func (w *work) leastToSpare(ctx context.Context, m *model.Model) (running []job.InUse, use job.InUse, was unit.GaugePressure) {
	least := 0.0
	solver := m.NewSolver()
	for i := range w.moments {
		c := model.Case{Running: w.uses(w.moments[i].running), Supply: model.CutIn}
		r, err := solver.Solve(ctx, c)
		if err != nil || !r.Solved {
			continue
		}
		for _, u := range c.Running {
			p, ok := m.PairOf(u)
			if !ok || !r.Tools[p.Index].Known {
				continue
			}
			spare := float64(r.Tools[p.Index].Pressure.Abs(m.Atmosphere())) - w.need(&p)
			if running == nil || spare < least {
				running, use, was, least = c.Running, u, r.Tools[p.Index].Pressure, spare
			}
		}
	}
	return running, use, was
}
