package check

import (
	"context"
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

var overPressureAtTool = Check{
	Code:   "over-pressure-at-tool",
	Title:  "no tool above its greatest pressure",
	Why:    "A tool above its greatest pressure overspeeds or bursts.",
	Limit:  "the tool's greatest working pressure against cut-out, or the lowest regulator on every way to it; with nothing flowing a line takes no pressure away",
	Source: custom("a tool is fed at no more than its plate allows"),
	Run:    runOverPressureAtTool,
}

func runOverPressureAtTool(_ context.Context, c *Case) error {
	told := map[job.ID]bool{}
	for _, p := range c.model.Pairs() {
		if p.Most <= 0 || told[p.Tool] {
			continue
		}
		top, ok := c.highestAt(p.Node)
		if !ok || top <= p.Most+unit.GaugePressure(1) {
			continue
		}
		told[p.Tool] = true
		c.report(job.Finding{
			Severity: job.Danger, Where: []job.ID{p.Tool, p.Outlet},
			Figure: figure("pressure_Pa_g", float64(top)), Limit: figure("pressure_Pa_g", float64(p.Most)),
			Title: sentence("%s at %s sees up to %s and bears %s.", c.named(p.Tool), c.named(p.Outlet), c.gauge(top), c.gauge(p.Most)),
		})
	}
	return nil
}

// highestAt is the highest pressure that a place of the network can come to
// with nothing flowing: cut-out, held down by the regulators on the way; of
// several ways the highest counts. ok is false where no compressor feeds it.
func (c *Case) highestAt(node int) (unit.GaugePressure, bool) {
	top := c.highest()
	if math.IsInf(top[node], -1) {
		return 0, false
	}
	return unit.GaugePressure(top[node]), true
}

// highest works that out for every node: the widest way by the least setting on it.
func (c *Case) highest() []float64 {
	if c.top != nil {
		return c.top
	}
	top := make([]float64, len(c.model.Nodes()))
	for i := range top {
		top[i] = math.Inf(-1)
	}
	limits := map[int]float64{}
	for _, r := range c.regulators() {
		limits[r.element] = float64(r.set)
	}
	at := make([][]int, len(top))
	for i := range c.model.Elements() {
		e := &c.model.Elements()[i]
		at[e.From] = append(at[e.From], i)
		at[e.To] = append(at[e.To], i)
	}
	var queue []int
	raise := func(n int, p float64) {
		if p > top[n] {
			top[n] = p
			queue = append(queue, n)
		}
	}
	for _, s := range c.model.Sources() {
		raise(s.Node, float64(s.CutOut))
	}
	for _, m := range c.model.Compressors() {
		raise(m.Node, float64(m.CutOut))
	}
	for n := 0; n < len(queue); n++ {
		here := queue[n]
		for _, l := range at[here] {
			e := &c.model.Elements()[l]
			if e.To == here && c.oneWay(e) {
				continue
			}
			p := top[here]
			if s, ok := limits[l]; ok {
				p = math.Min(p, s)
			}
			raise(e.From+e.To-here, p)
		}
	}
	c.top = top
	return top
}

// oneWay: air passes the element from its first end to its second only.
func (c *Case) oneWay(e *model.Element) bool {
	k, ok := c.shelf.Kind(e.Kind)
	return ok && e.Kind != "" && (k.Has(catalog.Regulates) || k.Has(catalog.Checks))
}
