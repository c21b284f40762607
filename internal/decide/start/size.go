package start

import (
	"cmp"
	"context"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/flow"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// thinnest is the bore under which no line of a shop is run, in metres.
const thinnest = 0.0115

// ladders lists what sizes are tried, low to high.
func (b *brief) ladders() *ladders {
	l := &ladders{lines: slices.Clone(b.stock.Sizes)}
	slices.SortStableFunc(l.lines, func(x, y catalog.Size) int { return cmp.Compare(x.Bore, y.Bore) })
	if k := slices.IndexFunc(l.lines, func(z catalog.Size) bool { return z.Bore >= thinnest }); k > 0 {
		l.lines = l.lines[k:]
	}
	for _, g := range grades(b.Units) {
		_, hose := b.shelf.Hose(g.hose)
		_, coupler := b.shelf.Coupler(g.coupler)
		if hose && coupler {
			l.grades = append(l.grades, g)
		}
	}
	l.filters = b.treats(func(k catalog.Kind) bool {
		return k.Has(catalog.Filters) && !k.Has(catalog.Regulates) && !k.Has(catalog.DeOils)
	})
	if len(l.filters) == 0 || l.filters[len(l.filters)-1].Rating < b.cutOut() {
		// No filter bears this pressure: a plain separator does.
		l.filters = b.treats(func(k catalog.Kind) bool { return k.Has(catalog.Separates) })
	}
	l.holders = b.treats(func(k catalog.Kind) bool { return k.Has(catalog.Filters) && k.Has(catalog.Regulates) })
	l.fine = b.treats(func(k catalog.Kind) bool { return k.Has(catalog.DeOils) })
	return l
}

// treats lists the rows of the kinds that do something, by their flow.
func (b *brief) treats(does func(catalog.Kind) bool) []catalog.Treat {
	var out []catalog.Treat
	for _, row := range b.shelf.Treatment() {
		if k, ok := b.shelf.Kind(row.Kind); ok && does(k) && row.RatedFlow > 0 {
			out = append(out, row)
		}
	}
	slices.SortStableFunc(out, func(x, y catalog.Treat) int { return cmp.Compare(x.RatedFlow, y.RatedFlow) })
	return out
}

// begin is where the search for sizes begins: lines and hoses by the velocities of
// the rules, treatment by its rated flow, for the thirstiest tool of each outlet.
func (b *brief) begin(c route, l *ladders) sizes {
	z := sizes{drops: make([]int, len(c.seats)), hoses: make([]int, len(c.seats)), holders: make([]int, len(c.seats))}
	most := 0.0
	for k, s := range c.seats {
		q := 0.0
		for _, i := range s.tools {
			q = math.Max(q, b.tools[i].Flow.Value)
		}
		most = math.Max(most, q)
		z.drops[k] = rung(len(l.lines), func(i int) bool { return b.speed(q, float64(l.lines[i].Bore)) <= dropFast })
		z.hoses[k] = rung(len(l.grades), func(i int) bool {
			h, _ := b.shelf.Hose(l.grades[i].hose)
			return b.speed(q, float64(h.Bore)) <= hoseFast
		})
		z.holders[k] = rung(len(l.holders), func(i int) bool { return float64(l.holders[i].RatedFlow) >= 1.5*q })
	}
	z.main = rung(len(l.lines), func(i int) bool { return b.speed(most, float64(l.lines[i].Bore)) <= mainFast })
	z.filter = rung(len(l.filters), func(i int) bool { return float64(l.filters[i].RatedFlow) >= most })
	return z
}

// The velocities at which the search begins, m/s: the defaults of the rules.
const mainFast, dropFast, hoseFast = 6, 15, 30

// speed is the velocity of free air q in a bore at about the cut-in pressure, m/s.
func (b *brief) speed(q, bore float64) float64 {
	const free = 1e5 // Pa, free air
	return q * free / (free + float64(b.cutIn())) / (math.Pi / 4 * bore * bore)
}

// rung is the first of n that does, else the last.
func rung(n int, does func(int) bool) int {
	for i := range n {
		if does(i) {
			return i
		}
	}
	return max(0, n-1)
}

// mostTries bounds the builds of one plan.
const mostTries = 14

// tried is one build, solved.
type tried struct {
	job   *job.Job
	of    map[job.ID]int
	model *model.Model
	flow  *flow.Answer
	study *study.Study
}

// search builds and solves, and makes larger what holds a tool under its pressure
// or runs too fast, until nothing does or nothing larger is to be had.
func (b *brief) search(ctx context.Context, room *draft, r *round, c route) (*tried, error) {
	l := b.ladders()
	z, days := b.begin(c, l), 0
	for n := 1; ; n++ {
		t, err := b.solve(ctx, room, r, c, l, z)
		if err != nil {
			return nil, err
		}
		if n == mostTries {
			return t, nil
		}
		if b.chosen && t.supplyShort() {
			if m, ok := b.better(t, 0); ok {
				b.machine = m
				continue
			}
		}
		if b.grow(t, c, l, &z) {
			continue
		}
		if b.chosen && b.anyShort(t) {
			if m, ok := b.better(t, b.machine.CutIn); ok {
				b.machine = m
				continue
			}
		}
		if b.chosen && days < mostDays {
			if m, ok, err := b.steadier(ctx, t, &days); ok || err != nil {
				if err != nil {
					return nil, err
				}
				b.machine = m
				continue
			}
		}
		return t, nil
	}
}

// A plan is wanted at once, and working days take most of its time: so many of its builds are
// worked through, of shops up to so much work (study.Work).
const (
	mostDays = 2
	mostWork = 3000
)

// steadier is the next class where a few working days are too much for the one in use: it never
// catches up, or a tool goes short for more than the job plans for. What the tools take in the
// mean tells the plainest cases without any day.
func (b *brief) steadier(ctx context.Context, t *tried, days *int) (catalog.Machine, bool, error) {
	m, more := b.next()
	if !more {
		return m, false, nil
	}
	d, err := t.study.Demand(ctx)
	if err != nil {
		return m, false, err
	}
	if float64(d.Mean) > (1-float64(t.job.RuleLeak().Value))*b.machine.FreeAir.Value {
		return m, true, nil
	}
	work, err := t.study.Work(ctx)
	if err != nil || work > mostWork {
		return m, false, err
	}
	*days++
	a, err := t.study.Few(ctx)
	if err != nil || a.Untold != "" {
		return m, false, err
	}
	rare := t.job.RuleRare().Value
	enough := a.Full && !slices.ContainsFunc(a.Tools, func(x day.Tool) bool { return x.Short > rare })
	return m, !enough, nil
}

func (b *brief) solve(ctx context.Context, room *draft, r *round, c route, l *ladders, z sizes) (*tried, error) {
	j, of, err := b.build(room, r, c, l, z)
	if err != nil {
		return nil, err
	}
	s := study.Of(j, b.shelf)
	t := &tried{job: j, of: of, study: s}
	if t.model, err = s.Model(ctx); err != nil {
		return nil, err
	}
	t.flow, err = s.Flow(ctx)
	return t, err
}

// supplyShort says whether some set takes more than is delivered for longer than
// the receiver bridges it.
func (t *tried) supplyShort() bool {
	burst := map[job.ID]unit.Duration{}
	for _, tool := range t.model.Tools() {
		burst[tool.ID] = tool.Burst
	}
	for i := range t.flow.Sets {
		s := &t.flow.Sets[i]
		if s.Supply.Short <= 0 {
			continue
		}
		longest := unit.Duration(0)
		for _, u := range s.Running {
			longest = max(longest, burst[u.Tool])
		}
		if s.Supply.Rides == nil || *s.Supply.Rides < longest {
			return true
		}
	}
	return false
}
