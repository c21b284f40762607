package flow

import (
	"context"
	"fmt"

	"dropleg/engine/unit"
	"dropleg/internal/answer/demand"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// near is how close to its least pressure a tool must be for its plausible
// range to be worth two more solves: a quarter above it, or anywhere below.
const near = 1.25

// Of solves every set of the demand on the job's model. start may be the zero Start.
// The error is that of ctx; a set without an answer is told in its findings.
func Of(ctx context.Context, j *job.Job, m *model.Model, d *demand.Answer, start model.Start) (*Answer, error) {
	w := &work{j: j, m: m, solver: m.NewSolver(), known: map[string]*solved{}}
	w.solver.Begin(start)
	a := &Answer{Atmosphere: m.Atmosphere(), Demand: d, Worst: -1, Assumptions: m.Assumptions()}
	a.Findings = append(a.Findings, m.Findings()...)
	for _, set := range d.Sets {
		s, err := w.set(ctx, set)
		if err != nil {
			return nil, fmt.Errorf("flow of %q: %w", set.Name, err)
		}
		a.Sets = append(a.Sets, s)
		for _, f := range s.CutIn.Result.Findings {
			f.Title = set.Name + ": " + f.Title
			a.Findings = append(a.Findings, f)
		}
	}
	a.rank(m)
	if err := w.ranges(ctx, a); err != nil {
		return nil, fmt.Errorf("range of flow: %w", err)
	}
	return a, nil
}

// work carries the solver over the sets; sets with the same tools running are
// solved once.
type work struct {
	j      *job.Job
	m      *model.Model
	solver *model.Solver
	known  map[string]*solved
}

// solved is the two ends of the band for one selection of running tools.
type solved struct{ in, out State }

// set answers one set.
func (w *work) set(ctx context.Context, set demand.Set) (Set, error) {
	key := job.KeyOf(set.Running)
	s, ok := w.known[key]
	if !ok {
		in, err := w.state(ctx, model.Case{Running: set.Running, Supply: model.CutIn})
		if err != nil {
			return Set{}, err
		}
		out, err := w.state(ctx, model.Case{Running: set.Running, Supply: model.CutOut})
		if err != nil {
			return Set{}, err
		}
		s = &solved{in, out}
		w.known[key] = s
	}
	return Set{Set: set, CutIn: s.in, CutOut: s.out, Supply: w.supply(s.in)}, nil
}

// state solves one case and puts it into words and figures.
func (w *work) state(ctx context.Context, c model.Case) (State, error) {
	r, err := w.solver.Solve(ctx, c)
	if err != nil {
		return State{}, err
	}
	s := State{
		Solved: r.Solved, Result: r,
		Tools: make([]Tool, 0, len(c.Running)), Outlets: make([]Outlet, 0, len(w.m.Outlets())),
		Elements: make([]Element, 0, len(w.m.Elements())), Sources: make([]Source, 0, len(w.m.Sources())),
	}
	flowAt := map[job.ID]unit.FreeAir{}
	for _, use := range c.Running {
		p, ok := w.m.PairOf(use)
		if !ok {
			continue
		}
		t := r.Tools[p.Index]
		flowAt[p.Outlet] += t.Flow
		s.Tools = append(s.Tools, Tool{
			Tool: p.Tool, Outlet: p.Outlet, Known: t.Known, Pressure: t.Pressure, At: t.Outlet,
			Least: p.Least, Margin: t.Pressure.Minus(p.Least), Flow: t.Flow,
		})
		if c.Supply == model.CutIn {
			s.Tools[len(s.Tools)-1].Path = w.path(r, p.Index)
		}
	}
	for _, o := range w.m.Outlets() {
		p, known := w.m.AtOutlet(r, o.ID)
		s.Outlets = append(s.Outlets, Outlet{Outlet: o.ID, Known: known, Pressure: p, Flow: flowAt[o.ID]})
	}
	for i := range w.m.Elements() {
		s.Elements = append(s.Elements, w.element(r, i))
	}
	for i, src := range w.m.Sources() {
		st := r.Sources[i]
		s.Sources = append(s.Sources, Source{ID: src.ID, Pressure: st.Pressure, Out: st.Out, In: st.In})
	}
	return s, nil
}

// element puts one element into figures.
func (w *work) element(r *model.Result, i int) Element {
	e, f := &w.m.Elements()[i], r.Flows[i]
	out := Element{ID: e.ID, Leg: e.Leg, Words: e.Words, Thing: e.Thing, Role: e.Role, Known: f.Known, Index: i}
	if !f.Known {
		return out
	}
	up, down := e.From, e.To
	if f.Mass < 0 {
		up, down = down, up
	}
	atm := w.m.Atmosphere()
	out.Flow, out.Loss, out.VIn, out.VOut, out.Mach, out.Choked = f.FreeAir(), f.Loss, f.In, f.Out, f.Mach, f.Choked
	out.In, out.Out = r.Pressure[up].Gauge(atm), r.Pressure[down].Gauge(atm)
	return out
}

// path is the way to a pair's tool in figures.
func (w *work) path(r *model.Result, pair int) []Step {
	steps := w.m.Path(r, pair)
	out := make([]Step, 0, len(steps))
	atm := w.m.Atmosphere()
	for _, s := range steps {
		e := &w.m.Elements()[s.Element]
		out = append(out, Step{
			ID: e.ID, Leg: e.Leg, Words: e.Words, Thing: e.Thing, Element: s.Element,
			In: s.In.Gauge(atm), Out: s.Out.Gauge(atm), Loss: s.Loss, Flow: s.Flow,
		})
	}
	return out
}
