package check

import (
	"cmp"
	"context"
	"slices"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

var shortOfPressure = Check{
	Code:  "short-of-pressure",
	Title: "every tool gets its least pressure when it matters",
	Why:   "Below its least pressure a tool loses power, and its user waits.",
	Limit: "the tool's least working pressure and the margin of the rules, at cut-in with loaded filters, in the worst set that is not rare",
	Law:   "steady flow through the net from the source to the tool",
	Source: []cite.Ref{
		{Source: "isothermal-pipe", Place: "lines and hoses", How: cite.Computed},
		{Source: "iso6358", Place: "couplers, valves", How: cite.Computed},
	},
	Run: runShortOfPressure,
}

func runShortOfPressure(ctx context.Context, c *Case) error {
	worst := slices.Clone(c.flow.Tools)
	slices.SortStableFunc(worst, func(a, b flow.Worst) int { return cmp.Compare(a.Margin, b.Margin) })
	var perhaps []*flow.Worst
	for i := range worst {
		w := &worst[i]
		if w.Set < 0 || !w.Known || !c.flow.Sets[w.Set].CutIn.Solved {
			continue // said by other checks
		}
		if w.Pressure < c.needOf(w) {
			if err := c.judgeTool(ctx, w); err != nil {
				return err
			}
		} else if w.Range != nil && w.Range.Low < w.Least {
			perhaps = append(perhaps, w)
		}
	}
	if len(perhaps) > 0 {
		c.reportPerhaps(perhaps)
	}
	return nil
}

// needOf is a tool's least pressure and the margin.
func (c *Case) needOf(w *flow.Worst) unit.GaugePressure {
	return w.Least + unit.GaugePressure(c.job.RuleMargin().Value)
}

// reportPerhaps tells of tools that likely get enough and would not if every
// assumed figure stood at its worst end: one finding for all of them, led by
// the one with the least left.
func (c *Case) reportPerhaps(all []*flow.Worst) {
	slices.SortStableFunc(all, func(a, b *flow.Worst) int {
		return cmp.Compare(a.Range.Low-a.Least, b.Range.Low-b.Least)
	})
	w := all[0]
	f := job.Finding{
		Severity: job.Note, Figure: figure("pressure_Pa_g", float64(w.Pressure)), Limit: figure("pressure_Pa_g", float64(c.needOf(w))),
		Range: &[2]float64{float64(w.Range.Low), float64(w.Range.High)},
		Why:   "With every assumed figure at its worst end at once; the makers' own figures narrow that.",
	}
	for _, x := range all {
		f.Where = append(f.Where, x.Tool)
	}
	f.Where = append(f.Where, w.Outlet)
	others := ""
	if n := len(all) - 1; n > 0 {
		others = "; so may " + plural(n, "other tool")
		if n == 1 {
			others = "; so may one other tool"
		}
	}
	f.Title = sentence("%s at %s may fall short: it likely gets %s, but possibly only %s, and needs %s%s%s.",
		c.named(w.Tool), c.named(w.Outlet), c.gauge(w.Pressure), c.gauge(w.Range.Low), c.gauge(w.Least),
		c.running(&c.flow.Sets[w.Set], w.Tool), others)
	if got := c.toolIn(w); got != nil {
		f.Shares = shares(got)
	}
	c.report(f)
}

// toolIn is a tool's state in its worst set at cut-in.
func (c *Case) toolIn(w *flow.Worst) *flow.Tool {
	tools := c.flow.Sets[w.Set].CutIn.Tools
	for i := range tools {
		if tools[i].Tool == w.Tool && tools[i].Outlet == w.Outlet {
			return &tools[i]
		}
	}
	return nil
}

// judgeTool reports a tool that lacks pressure, with what may be done.
func (c *Case) judgeTool(ctx context.Context, w *flow.Worst) error {
	need := c.needOf(w)
	got := c.toolIn(w)
	if got == nil {
		return nil
	}
	set := &c.flow.Sets[w.Set]
	f := job.Finding{
		Where:  []job.ID{w.Tool, w.Outlet},
		Figure: figure("pressure_Pa_g", float64(w.Pressure)), Limit: figure("pressure_Pa_g", float64(need)),
	}
	if w.Range != nil {
		f.Range = &[2]float64{float64(w.Range.Low), float64(w.Range.High)}
	}
	who := c.named(w.Tool) + " at " + c.named(w.Outlet)
	switch {
	case w.Pressure >= w.Least:
		f.Severity = job.Caution
		f.Title = sentence("%s gets %s, its least and less than the margin of %s over it%s.",
			who, c.gauge(w.Pressure), c.diff(c.job.RuleMargin().Value), c.running(set, w.Tool))
	case w.Range != nil && w.Range.High >= w.Least:
		f.Severity = job.Fault
		f.Title = sentence("%s may be short of pressure: it likely gets %s, at best %s, and needs %s%s.",
			who, c.gauge(w.Pressure), c.gauge(w.Range.High), c.gauge(w.Least), c.running(set, w.Tool))
	default:
		f.Severity = job.Fault
		f.Title = sentence("%s gets %s and needs %s%s.", who, c.gauge(w.Pressure), c.gauge(w.Least), c.running(set, w.Tool))
	}
	f.Shares = shares(got)
	advice, err := c.bench.For(ctx, w.Set, got)
	if err != nil {
		return err
	}
	f.Cures, f.Why = advice.Cures, whyShort(c.check.Why, advice)
	if f.Severity == job.Fault {
		often, err := c.howOften(ctx, w.Tool)
		if err != nil {
			return err
		}
		f.Why += often
	}
	c.report(f)
	return nil
}

// howOften says how much of its time a tool goes short in the working days.
func (c *Case) howOften(ctx context.Context, tool job.ID) (string, error) {
	a, err := c.days(ctx)
	if err != nil || a == nil {
		return "", err
	}
	for i := range a.Tools {
		if t := &a.Tools[i]; t.ID == tool && t.Short > 0 {
			return sentence(" %s it goes short %s of its time.", sentence("%s", byDays(a)), shareWords(t)), nil
		}
	}
	return "", nil
}

// whyShort says what cures there are.
func whyShort(why string, a cure.Advice) string {
	switch {
	case a.SupplyUnder && a.Alone:
		return "The supply itself stands lower than that at cut-in: no line, hose or coupler cures it, a higher cut-in does."
	case a.SupplyUnder:
		return "The supply itself stands lower than that at cut-in, and its cut-in cannot be raised enough below its cut-out."
	case a.Together:
		return why + " No single change cures it; the two named first do together."
	case !a.Alone:
		return why + " No single change and no two of them were found that cure it; those named help in part."
	}
	return why
}

// mostShares is how many elements a finding names.
const mostShares = 6

// shares lists the elements on a tool's way that take most, ranked.
func shares(t *flow.Tool) []job.Share {
	out := make([]job.Share, 0, len(t.Path))
	for i := range t.Path {
		if s := &t.Path[i]; s.Loss > 0 {
			out = append(out, job.Share{ID: s.ID, Words: s.Words, LossPa: float64(s.Loss)})
		}
	}
	slices.SortStableFunc(out, func(a, b job.Share) int { return cmp.Compare(b.LossPa, a.LossPa) })
	return out[:min(len(out), mostShares)]
}
