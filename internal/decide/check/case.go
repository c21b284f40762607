package check

import (
	"context"
	"math"

	"dropleg/engine/cite"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Case is a study laid out for the checks, and what they found.
type Case struct {
	study  *study.Study
	job    *job.Job
	idx    *job.Index
	shelf  *catalog.Catalog
	model  *model.Model
	flow   *flow.Answer
	net    *layout
	bench  *cure.Bench
	system unit.System
	env    unit.Env

	check *Check // the one that runs
	found []job.Finding
	top   []float64 // by node of the model, Pa g; see highest
}

func newCase(ctx context.Context, s *study.Study, system unit.System) (*Case, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	f, err := s.Flow(ctx)
	if err != nil {
		return nil, err
	}
	j, idx := s.Job(), s.Index()
	c := &Case{
		study: s, job: j, idx: idx, shelf: s.Catalog(), model: m, flow: f,
		system: system, env: unit.Env{Atmosphere: m.Atmosphere()},
	}
	c.net = newLayout(idx, c.shelf)
	c.bench = cure.NewBench(s, m, f, float64(j.RuleMargin().Value), system)
	return c, nil
}

// report files a finding of the check that runs: code, reason, law and source
// are the check's unless the finding brings its own, the place that of the
// first thing concerned.
func (c *Case) report(f job.Finding) {
	if f.Code == "" {
		f.Code = c.check.Code
	}
	if f.Why == "" {
		f.Why = c.check.Why
	}
	if f.Law == "" {
		f.Law = c.check.Law
	}
	if f.Source == nil {
		f.Source = c.check.Source
	}
	for _, id := range f.Where {
		if f.Place != nil {
			break
		}
		f.Place = c.place(id)
	}
	c.found = append(c.found, f)
}

// place is where a thing stands on the drawing; nil where that is not known.
func (c *Case) place(id job.ID) *geom.Point {
	if r := c.idx.Run(id); r != nil {
		line := c.idx.Centreline(r)
		if at, _, ok := geom.OnPath(line, geom.Length(line)/2); ok {
			return &at
		}
		return nil
	}
	point := id
	for _, o := range []*job.Outlet{c.idx.Outlet(id), c.idx.OutletOfHose(id), c.idx.OutletOfPart(id)} {
		if o != nil {
			point = o.Point
		}
	}
	if at, ok := c.idx.Where(c.idx.Point(point)); ok {
		return &at
	}
	return nil
}

func (c *Case) gauge(p unit.GaugePressure) string {
	return c.system.Text(unit.KindGauge, float64(p), c.env)
}

func (c *Case) diff(p unit.PressureDiff) string {
	return c.system.Text(unit.KindPressureDiff, float64(p), c.env)
}

func (c *Case) air(q unit.FreeAir) string { return c.system.Text(unit.KindFlow, float64(q), c.env) }

func (c *Case) speed(v unit.Velocity) string {
	return c.system.Text(unit.KindVelocity, float64(v), c.env)
}

func (c *Case) temp(t unit.Temperature) string {
	return c.system.Text(unit.KindTemperature, float64(t), c.env)
}

// time is a duration in words, to two figures: it rests on averages.
func (c *Case) time(t unit.Duration) string {
	if s := float64(t); s > 0 {
		step := math.Pow(10, math.Floor(math.Log10(s))-1)
		if s >= 100 && s < 3600 {
			step = 60 * math.Pow(10, math.Floor(math.Log10(s/60))-1) // shown in minutes
		}
		t = unit.Duration(math.Round(s/step) * step)
	}
	return c.system.Text(unit.KindDuration, float64(t), c.env)
}

// figure is a number in SI with the key that names it.
func figure(key string, v float64) *job.Figure { return &job.Figure{Key: key, Value: v} }

// custom is the source of a rule that only the trade's custom bears.
func custom(place string) []cite.Ref {
	return []cite.Ref{{Source: "common-practice", Place: place, How: cite.Common}}
}

// supplyPressures are the highest cut-out and the lowest cut-in of the sources;
// ok is false without any.
func (c *Case) supplyPressures() (cutIn, cutOut unit.GaugePressure, ok bool) {
	for i, s := range c.model.Sources() {
		if i == 0 || s.CutIn < cutIn {
			cutIn = s.CutIn
		}
		cutOut = max(cutOut, s.CutOut)
	}
	return cutIn, cutOut, len(c.model.Sources()) > 0
}

// running is the other tools of a set, in words: " while the sander runs".
func (c *Case) running(set *flow.Set, but job.ID) string { return c.company(set.Running, but) }

// company is those who run beside a tool, in words.
func (c *Case) company(running []job.InUse, but job.ID) string {
	var others []string
	for _, u := range running {
		if u.Tool != but {
			others = append(others, c.named(u.Tool))
		}
	}
	switch len(others) {
	case 0:
		return " with nothing else running"
	case 1:
		return " while " + others[0] + " runs"
	}
	return " while " + listed(others) + " run"
}
