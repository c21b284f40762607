package size

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// others are the changes, beside sizes, that would give a pair what it lacks: more pressure
// where it is held, a shorter hose, fewer tools at once. Each is found on the largest sizes.
func (w *work) others(ctx context.Context, v *verdict, pair int) ([]string, error) {
	lack := v.lacks[pair]
	m, err := v.study.Model(ctx)
	if err != nil {
		return nil, err
	}
	base := w.model.Pairs()[pair]
	use := job.InUse{Tool: base.Tool, Outlet: base.Outlet}
	p, ok := m.PairOf(use)
	x := w.tightest(ctx, m, pair)
	if !ok || x == nil {
		return []string{"its way to the compressor must be open"}, nil
	}
	out := []string{w.pressure(m, x.path, lack)}
	for _, s := range x.path {
		e := &m.Elements()[s.Element]
		if e.Thing == model.ThingHose && float64(s.Loss) > lack {
			out = append(out, "shorten the hose"+w.at(e.Outlet)+" to "+w.text(unit.KindLength, float64(e.Length)*(1-lack/float64(s.Loss))))
		}
	}
	if fewer := w.fewer(ctx, m, p, x.running); fewer != "" {
		out = append(out, fewer)
	}
	return out, nil
}

// tight is the moment in which a pair gets least, and the way to it there.
type tight struct {
	running []job.InUse
	path    []model.Step
}

func (w *work) tightest(ctx context.Context, m *model.Model, pair int) *tight {
	var worst *tight
	least := unit.GaugePressure(0)
	solver := m.NewSolver()
	base := w.model.Pairs()[pair]
	p, ok := m.PairOf(job.InUse{Tool: base.Tool, Outlet: base.Outlet})
	if !ok {
		return nil
	}
	for i := range w.moments {
		if !slices.Contains(w.moments[i].running, pair) {
			continue
		}
		c := model.Case{Running: w.uses(w.moments[i].running), Supply: model.CutIn}
		r, err := solver.Solve(ctx, c)
		if err != nil || !r.Solved || !r.Tools[p.Index].Known {
			continue
		}
		if got := r.Tools[p.Index].Pressure; worst == nil || got < least {
			worst, least = &tight{c.Running, m.Path(r, p.Index)}, got
		}
	}
	return worst
}

// uses names pairs.
func (w *work) uses(pairs []int) []job.InUse {
	out := make([]job.InUse, 0, len(pairs))
	for _, p := range pairs {
		out = append(out, job.InUse{Tool: w.model.Pairs()[p].Tool, Outlet: w.model.Pairs()[p].Outlet})
	}
	return out
}

// pressure says where more pressure has to come from: the last regulator on the way that
// holds, else the compressor.
func (w *work) pressure(m *model.Model, path []model.Step, lack float64) string {
	for i := len(path) - 1; i >= 0; i-- {
		e := &m.Elements()[path[i].Element]
		if k, ok := w.shelf.Kind(e.Kind); ok && k.Has(catalog.Regulates) && float64(path[i].Loss) > holds*float64(path[i].In) {
			return fmt.Sprintf("set the regulator%s higher by %s", w.at(e.Outlet), w.text(unit.KindPressureDiff, lack))
		}
	}
	return "raise the cut-in by " + w.text(unit.KindPressureDiff, lack)
}

// holds is the share of its inlet pressure that a regulator takes where it holds its set
// pressure and does not stand wide open.
const holds = 0.03

// fewer leaves tools out of a moment, those that take most first, until the pair has enough.
func (w *work) fewer(ctx context.Context, m *model.Model, p model.Pair, running []job.InUse) string {
	rest := slices.DeleteFunc(slices.Clone(running), func(u job.InUse) bool { return u.Tool == p.Tool })
	slices.SortStableFunc(rest, func(a, b job.InUse) int {
		x, _ := m.PairOf(a)
		y, _ := m.PairOf(b)
		switch {
		case x.FreeAir > y.FreeAir:
			return -1
		case x.FreeAir < y.FreeAir:
			return 1
		}
		return 0
	})
	solver := m.NewSolver()
	for n := 1; n <= len(rest); n++ {
		c := model.Case{Running: append(slices.Clone(rest[n:]), job.InUse{Tool: p.Tool, Outlet: p.Outlet}), Supply: model.CutIn}
		r, err := solver.Solve(ctx, c)
		if err != nil || !r.Solved {
			return ""
		}
		if float64(r.Tools[p.Index].Pressure.Abs(m.Atmosphere())) >= w.need(&p)-unseen {
			var names []string
			for _, u := range rest[:n] {
				names = append(names, w.toolName(u.Tool))
			}
			return "keep " + strings.Join(names, ", ") + " from running with it"
		}
	}
	return ""
}
