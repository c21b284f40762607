package calibrate

import (
	"context"
	"fmt"
	"math"
	"slices"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// What is a sort of figure that may be adjusted.
type What string

// The sorts of figure.
const (
	Roughness What = "roughness" // of all lines of a stock in one condition, m
	Filter    What = "filter"    // its loss at rated flow, Pa
	Leak      What = "leak"      // the share of the supply that leaks, at mid band
)

// figure is one value that may be adjusted, by its logarithm: centre·exp(spread·x), where x is
// normal of mean 0 and deviation 1 before any reading.
type figure struct {
	what   What
	stock  string
	worn   string   // condition of the lines
	ids    []job.ID // lines, or the filter
	outlet job.ID   // at which the filter hangs
	links  []int
	centre float64
	spread float64
}

// How wide a figure is taken to lie before any reading, as ln, where nothing says more:
// common practice, no source.
const (
	leastSpread  = 0.35 // a factor of two either way, 19 times in 20
	foundSpread  = 0.35 // about what earlier readings found
	usedSpread   = 0.8  // a factor of five: walls that rust or fur up
	leakSpread   = 0.7  // a factor of four
	oddsOfNormal = 1.96 // deviations either way of 19 times in 20
)

func (f *figure) at(x float64) float64 { return f.centre * math.Exp(f.spread*x) }

// figuresOf lists what may be adjusted: walls of lines, filters and the leak.
func figuresOf(ctx context.Context, s *study.Study) ([]figure, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, fmt.Errorf("reading the job as a network: %w", err)
	}
	out := append(walls(s, m), filters(s, m)...)
	supply := 0.0
	for _, c := range m.Compressors() {
		supply += float64(c.FreeAir)
	}
	if supply > 0 {
		out = append(out, figure{what: Leak, centre: max(float64(s.Job().RuleLeak().Value), 0.005), spread: leakSpread})
	}
	return out, nil
}

// walls are the stocks of the lines in their condition.
func walls(s *study.Study, m *model.Model) []figure {
	rough := map[job.ID]model.Assumption{}
	for _, a := range m.Assumptions() {
		if a.Key == "roughness_m" {
			rough[a.ID] = a
		}
	}
	var out []figure
	for i := range m.Elements() {
		e := &m.Elements()[i]
		r := s.Index().Run(e.ID)
		if e.Thing != model.ThingLine || r == nil {
			continue
		}
		a := rough[e.ID]
		f := figure{what: Roughness, stock: e.Stock, worn: r.Rough, centre: a.Value, spread: spreadOf(a)}
		switch {
		case r.Wall != nil:
			f.centre, f.spread = float64(*r.Wall), foundSpread
		case r.Rough == "used":
			f.spread = max(f.spread, usedSpread)
		}
		if f.centre <= 0 {
			continue
		}
		at := slices.IndexFunc(out, func(o figure) bool { return o.stock == f.stock && o.worn == f.worn && o.centre == f.centre })
		if at < 0 {
			out, at = append(out, f), len(out)
		}
		out[at].ids, out[at].links = append(out[at].ids, e.ID), append(out[at].links, i)
	}
	return out
}

// spreadOf makes the range of a figure 19 times in 20 of it.
func spreadOf(a model.Assumption) float64 {
	wide := leastSpread
	for _, end := range []float64{a.Low, a.High} {
		if end > 0 && a.Value > 0 {
			wide = max(wide, math.Abs(math.Log(end/a.Value))/oddsOfNormal)
		}
	}
	return wide
}

// filters are the parts that load up: half way between clean and loaded, which count as far
// as a deviation from it; where the job states the condition or what was found, that.
func filters(s *study.Study, m *model.Model) []figure {
	var out []figure
	for i := range m.Elements() {
		e := &m.Elements()[i]
		if e.Loaded <= e.Clean || e.Clean <= 0 {
			continue
		}
		span := math.Log(float64(e.Loaded / e.Clean))
		f := figure{
			what: Filter, ids: []job.ID{e.ID}, outlet: e.Outlet, links: []int{i},
			centre: float64(e.Clean) * math.Exp(span/2), spread: max(leastSpread, span/2),
		}
		p := s.Index().PartAt(e.ID, e.Outlet, e.Kind, e.Item)
		if p == nil || e.ID == e.Outlet {
			continue // no part of its own in the file that a figure could be written to
		}
		switch {
		case p.Found != nil:
			f.centre, f.spread = float64(*p.Found), foundSpread
		case p.Wear == "clean":
			f.centre = float64(e.Clean)
		case p.Wear == "loaded":
			f.centre = float64(e.Loaded)
		}
		out = append(out, f)
	}
	return out
}
