package flow

import (
	"context"

	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// rank finds each tool's worst moment at cut-in, and the shop's worst set: the
// one in which a tool has the least margin over its least pressure. A tool that
// is shut off is worse than any figure.
func (a *Answer) rank(m *model.Model) {
	at := map[job.ID]int{}
	for _, t := range m.Tools() {
		at[t.ID] = len(a.Tools)
		a.Tools = append(a.Tools, Worst{Tool: t.ID, Set: -1, Least: t.Least})
	}
	for s := range a.Sets {
		for k, t := range a.Sets[s].CutIn.Tools {
			i, ok := at[t.Tool]
			if !ok {
				continue
			}
			w := Worst{Tool: t.Tool, Outlet: t.Outlet, Set: s, Known: t.Known, Pressure: t.Pressure, Least: t.Least, Margin: t.Margin, CutOut: a.Sets[s].CutOut.Tools[k].Pressure}
			if a.Tools[i].Set < 0 || w.worseThan(a.Tools[i]) {
				a.Tools[i] = w
			}
		}
	}
	lead := -1
	for i := range a.Tools {
		if a.Tools[i].Set >= 0 && (lead < 0 || a.Tools[i].worseThan(a.Tools[lead])) {
			lead = i
		}
	}
	if lead >= 0 {
		a.Worst = a.Tools[lead].Set
	}
}

func (w Worst) worseThan(o Worst) bool {
	if w.Known != o.Known {
		return !w.Known
	}
	return w.Margin < o.Margin
}

// ranges solves the worst moments of tools near their least pressure again with
// everything at its best and at its worst. The range is that of the figures of
// the rows, all at once: wider than chance would have it.
func (w *work) ranges(ctx context.Context, a *Answer) error {
	both := map[int][2]*model.Result{}
	for i := range a.Tools {
		t := &a.Tools[i]
		if t.Set < 0 || !t.Known || float64(t.Pressure) > near*float64(t.Least) {
			continue
		}
		set := &a.Sets[t.Set]
		ends, ok := both[t.Set]
		if !ok {
			for k, bias := range []model.Bias{model.Worst, model.Best} {
				r, err := w.solver.Solve(ctx, model.Case{Running: set.Running, Supply: model.CutIn, Bias: bias})
				if err != nil {
					return err
				}
				ends[k] = r
			}
			both[t.Set] = ends
		}
		p, ok := w.m.PairOf(job.InUse{Tool: t.Tool, Outlet: t.Outlet})
		if !ok || !ends[0].Solved || !ends[1].Solved {
			continue
		}
		low, high := ends[0].Tools[p.Index].Pressure, ends[1].Tools[p.Index].Pressure
		t.Range = &Range{Low: min(low, t.Pressure), High: max(high, t.Pressure)}
		for k := range set.CutIn.Tools {
			if u := &set.CutIn.Tools[k]; u.Tool == t.Tool && u.Outlet == t.Outlet {
				u.Range = t.Range
			}
		}
	}
	return nil
}
