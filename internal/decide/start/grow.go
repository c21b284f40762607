package start

import (
	"cmp"
	"math"
	"slices"

	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// grow makes larger what should be; it says whether anything was.
func (b *brief) grow(t *tried, c route, l *ladders, z *sizes) bool {
	was := z.copy()
	b.faster(t, l, z)
	if was.same(z) {
		b.stronger(t, c, l, z)
	}
	return !was.same(z)
}

func (z *sizes) copy() sizes {
	c := *z
	c.drops, c.hoses, c.holders = slices.Clone(z.drops), slices.Clone(z.hoses), slices.Clone(z.holders)
	return c
}

func (z *sizes) same(o *sizes) bool {
	return z.main == o.main && z.grade == o.grade && z.filter == o.filter &&
		slices.Equal(z.drops, o.drops) && slices.Equal(z.hoses, o.hoses) && slices.Equal(z.holders, o.holders)
}

// faster widens what runs above the velocities of the rules, at once as far as the
// velocity found asks for.
func (b *brief) faster(t *tried, l *ladders, z *sizes) {
	main, drop, hose := t.job.RuleMainVelocity().Value, t.job.RuleDropVelocity().Value, t.job.RuleHoseVelocity().Value
	seats := seatsByHose(t.job)
	for i := range t.flow.Sets {
		for _, e := range t.flow.Sets[i].CutIn.Elements {
			if !e.Known {
				continue
			}
			k, line := t.of[e.ID]
			switch {
			case e.Thing == model.ThingHose && e.VOut > hose:
				if k, ok := seats[e.ID]; ok {
					z.hoses[k] = wider(z.hoses[k], len(l.grades), func(i int) float64 { h, _ := b.shelf.Hose(l.grades[i].hose); return float64(h.Bore) }, float64(e.VOut/hose))
				}
			case !line || e.Thing != model.ThingLine:
			case k < 0 && (e.Role == "main" || e.Role == "ring") && e.VOut > main:
				z.main = max(z.main, wider(boreAt(t, l), len(l.lines), func(i int) float64 { return float64(l.lines[i].Bore) }, float64(e.VOut/main)))
			case k >= 0 && e.VOut > drop:
				z.drops[k] = wider(z.drops[k], len(l.lines), func(i int) float64 { return float64(l.lines[i].Bore) }, float64(e.VOut/drop))
			}
		}
	}
}

// boreAt is the rung of the main as built.
func boreAt(t *tried, l *ladders) int {
	for _, r := range t.job.Net.Runs {
		if r.Role == "main" {
			return max(0, slices.IndexFunc(l.lines, func(z catalog.Size) bool { return z.Size == r.Size }))
		}
	}
	return 0
}

// wider is the rung whose bore brings a velocity down by a factor, at least the
// next, at most the last.
func wider(from, n int, bore func(int) float64, factor float64) int {
	if factor <= 1 || from >= n-1 {
		return from
	}
	return from + 1 + rung(n-from-1, func(i int) bool { return math.Pow(bore(from+1+i)/bore(from), 2) >= 0.98*factor })
}

func seatsByHose(j *job.Job) map[job.ID]int {
	out := map[job.ID]int{}
	for k := range j.Outlets {
		if h := j.Outlets[k].Hose; h != nil {
			out[h.ID] = k
		}
	}
	return out
}

// stronger makes larger, for each tool that is short, what takes most on its way.
func (b *brief) stronger(t *tried, c route, l *ladders, z *sizes) {
	margin := t.job.RuleMargin().Value
	for _, w := range t.flow.Tools {
		if w.Set < 0 || !w.Known || w.Margin >= margin || b.beyond(w) {
			continue
		}
		tools := t.flow.Sets[w.Set].CutIn.Tools
		k := slices.IndexFunc(tools, func(u flow.Tool) bool { return u.Tool == w.Tool && u.Outlet == w.Outlet })
		if k < 0 {
			continue
		}
		seat := slices.IndexFunc(t.job.Outlets, func(o job.Outlet) bool { return o.ID == w.Outlet })
		if seat >= 0 && seat < len(c.seats) {
			b.widen(t, l, z, &tools[k], seat)
		}
	}
}

// anyShort says whether some tool stays under its least pressure.
func (b *brief) anyShort(t *tried) bool {
	return slices.ContainsFunc(t.flow.Tools, func(w flow.Worst) bool { return w.Set >= 0 && w.Known && w.Margin < t.job.RuleMargin().Value })
}

// beyond says whether a tool wants more than there is at the cut-in.
func (b *brief) beyond(w flow.Worst) bool { return w.Least >= b.cutIn() }

// widen makes the costliest thing on a tool's way larger that can be.
func (b *brief) widen(t *tried, l *ladders, z *sizes, tool *flow.Tool, seat int) {
	type step struct {
		loss float64
		rung *int
		n    int
	}
	steps := []step{
		{0, &z.main, len(l.lines)},
		{0, &z.drops[seat], len(l.lines)},
		{0, &z.hoses[seat], len(l.grades)},
		{0, &z.grade, len(l.grades)},
		{0, &z.filter, len(l.filters)},
		{0, &z.holders[seat], len(l.holders)},
	}
	for _, s := range tool.Path {
		k, line := t.of[s.ID]
		e := &t.model.Elements()[s.Element]
		kind, _ := b.shelf.Kind(e.Kind)
		at := -1
		switch {
		case line && k < 0:
			at = 0
		case line:
			at = 1
		case s.Thing == model.ThingHose:
			at = 2
		case s.Thing == model.ThingCoupler:
			at = 3
		case kind.Has(catalog.Regulates):
			at = 5
		case kind.Has(catalog.Filters) || kind.Has(catalog.Separates):
			if at = 4; e.Outlet != "" {
				at = 5
			}
		case s.Thing == model.ThingFitting:
			at = 0
		}
		if at >= 0 && s.Loss > 0 {
			steps[at].loss += float64(s.Loss)
		}
	}
	slices.SortStableFunc(steps, func(x, y step) int { return cmp.Compare(y.loss, x.loss) })
	for _, s := range steps {
		if s.loss > 0 && *s.rung < s.n-1 {
			*s.rung++
			return
		}
	}
}
