package check

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
)

// MostWork bounds the shops whose days are worked through unasked (study.Work): two
// seconds at most. A ring main with thirty outlets is half of it.
const MostWork = 50_000

// days are working days of the shop: a few, or as many as were worked through already;
// nil where they cannot be told, or would take too long here.
func (c *Case) days(ctx context.Context) (*day.Answer, error) {
	if work, err := c.study.Work(ctx); err != nil || work > MostWork {
		return nil, err
	}
	if ample, err := c.ample(ctx); err != nil || ample {
		return nil, err
	}
	a, err := c.study.Rough(ctx)
	if err != nil || a.Untold != "" {
		return nil, err
	}
	return a, nil
}

// ample: no working day can say more than the sets of tools do already. No motor has a
// limit to be driven beyond; whatever set is not rare has its air from delivery and a
// full receiver for the longest burst; and but for what is rare all that runs takes less
// than is delivered, so that the receiver stands within its band.
func (c *Case) ample(ctx context.Context) (bool, error) {
	delivered := 0.0
	for _, k := range c.model.Compressors() {
		if k.StartsMost > 0 || k.DutyMost > 0 && k.DutyMost < 1 {
			return false, nil
		}
		delivered += float64(k.FreeAir)
	}
	if c.supplyFault() {
		return false, nil
	}
	d, err := c.study.Demand(ctx)
	if err != nil {
		return false, err
	}
	room := delivered * (1 - float64(c.job.RuleLeak().Value))
	for _, l := range d.Levels {
		if float64(l.Share) >= 1-float64(c.job.RuleRare().Value)-1e-9 {
			return float64(l.Flow) <= room, nil
		}
	}
	return false, nil
}

// shortInDays are the tools that go short for more of their time than the job plans
// for, the worst first. Those that are short with the receiver at cut-in already are
// left out: their own finding tells them, with what it takes.
func (c *Case) shortInDays(a *day.Answer) []day.Tool {
	rare := c.job.RuleRare().Value
	short := slices.DeleteFunc(slices.Clone(a.Tools), func(t day.Tool) bool {
		return t.Short <= rare || c.shortAtCutIn(t.ID)
	})
	slices.SortStableFunc(short, func(x, y day.Tool) int { return cmp.Compare(y.Short, x.Short) })
	return short
}

// shortAtCutIn: short-of-pressure tells that the tool is short.
func (c *Case) shortAtCutIn(tool job.ID) bool {
	for i := range c.flow.Tools {
		w := &c.flow.Tools[i]
		if w.Tool == tool {
			return w.Set >= 0 && w.Known && c.flow.Sets[w.Set].CutIn.Solved && w.Pressure < w.Least
		}
	}
	return false
}

// plannedFor: nobody goes short for more than the job plans for, but those told elsewhere.
func (c *Case) plannedFor(a *day.Answer) bool { return a.Full && len(c.shortInDays(a)) == 0 }

// shareWords is a share of time, with what it may well be.
func shareWords(t *day.Tool) string {
	if t.Short < 0.0005 {
		return "less than 0.1 %"
	}
	if t.Within > 0 {
		return fmt.Sprintf("%s %% (%s to %s %%)", points(t.Short), points(max(0, t.Short-t.Within)), points(min(1, t.Short+t.Within)))
	}
	return points(t.Short) + " %"
}

// points is a share in percent, to a tenth.
func points(r unit.Ratio) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", 100*float64(r)), ".0")
}

// leftShort says how the tool that is worst off then fares.
func (c *Case) leftShort(a *day.Answer) string {
	var worst *day.Tool
	for i := range a.Tools {
		if t := &a.Tools[i]; t.Short > 0 && (worst == nil || t.Short > worst.Short) {
			worst = t
		}
	}
	if worst == nil {
		return "nobody goes short then"
	}
	return c.named(worst.ID) + " is then short " + shareWords(worst) + " of its time"
}

// longestShort is the greatest share among those that no other finding tells.
func (c *Case) longestShort(a *day.Answer) float64 {
	most := 0.0
	for _, t := range a.Tools {
		if !c.shortAtCutIn(t.ID) {
			most = max(most, float64(t.Short))
		}
	}
	return most
}

// mostlyWith says beside whom a tool goes short most, up to two sets.
func (c *Case) mostlyWith(t *day.Tool) string {
	var out []string
	for _, s := range t.Spoilt[:min(len(t.Spoilt), 2)] {
		// The same tools at other outlets are the same company.
		if with := strings.TrimPrefix(c.company(s.Running, t.ID), " "); (s.Share >= 0.2 || len(out) == 0) && !slices.Contains(out, with) {
			out = append(out, with)
		}
	}
	if len(out) == 0 {
		return ""
	}
	return ", mostly " + strings.Join(out, " or ")
}

// byDays is how much was worked through.
func byDays(a *day.Answer) string { return "in " + cure.DaysWords(a.Days) }

// machines are the compressors of the days.
func machines(a *day.Answer) []job.ID {
	out := make([]job.ID, 0, len(a.Compressors))
	for _, k := range a.Compressors {
		out = append(out, k.ID)
	}
	return out
}
