package check

import (
	"context"
	"math"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

var undersizedMain = Check{
	Code:   "undersized-main",
	Title:  "loss of the main up to its last take-off",
	Why:    "What the main loses is lost to every tool, and costs electricity every hour; a wider main costs once.",
	Limit:  "the loss of the rules from the receiver's line to the end of the main, treatment left out, in any set at cut-in",
	Law:    "isothermal flow in lines, losses of fittings",
	Source: []cite.Ref{{Source: "isothermal-pipe", How: cite.Computed}},
	Run:    runUndersizedMain,
}

// mainLoss is the worst loss along mains found.
type mainLoss struct {
	loss  float64
	set   int
	tool  *flow.Tool
	parts map[job.ID]float64 // by line
}

func runUndersizedMain(ctx context.Context, c *Case) error {
	limit := c.job.RuleMainLoss()
	worst := mainLoss{set: -1}
	for i := range c.flow.Sets {
		tools := c.flow.Sets[i].CutIn.Tools
		for k := range tools {
			if l := c.lossInMains(&tools[k]); l.loss > worst.loss {
				l.set = i
				worst = l
			}
		}
	}
	if worst.set < 0 || worst.loss <= float64(limit.Value) {
		return nil
	}
	f := job.Finding{
		Severity: job.Caution, Figure: figure("loss_Pa", worst.loss), Limit: figure("loss_Pa", float64(limit.Value)),
		Source: append([]cite.Ref{limit.Default.Ref}, c.check.Source...), Shares: mainShares(worst),
	}
	for _, s := range f.Shares {
		f.Where = append(f.Where, s.ID)
	}
	f.Title = sentence("the main loses %s on the way to %s; %s is the limit.",
		c.diff(unit.PressureDiff(worst.loss)), c.named(worst.tool.Outlet), c.diff(limit.Value))
	cures, err := c.widerMain(ctx, worst, float64(limit.Value))
	if err != nil {
		return err
	}
	f.Cures = cures
	c.report(f)
	return nil
}

// lossInMains sums what a tool's air loses in mains and rings and in the
// fittings between them.
func (c *Case) lossInMains(t *flow.Tool) mainLoss {
	l := mainLoss{tool: t, parts: map[job.ID]float64{}}
	last := -1
	for i := range t.Path {
		if c.isMain(&t.Path[i]) {
			last = i
		}
	}
	for i := 0; i <= last; i++ {
		s := &t.Path[i]
		if s.Loss > 0 && (c.isMain(s) || s.Thing == model.ThingFitting) {
			l.loss += float64(s.Loss)
			l.parts[s.ID] += float64(s.Loss)
		}
	}
	return l
}

// isMain tells a step along a main.
func (c *Case) isMain(s *flow.Step) bool {
	role := c.model.Elements()[s.Element].Role
	return s.Thing == model.ThingLine && (role == "main" || role == "ring")
}

func mainShares(l mainLoss) []job.Share {
	all := shares(l.tool)
	out := all[:0]
	for _, s := range all {
		if _, ok := l.parts[s.ID]; ok {
			out = append(out, s)
		}
	}
	return out
}

// widerMain proposes a wider size of the stretch that loses most, by which the
// main comes under its limit.
func (c *Case) widerMain(ctx context.Context, worst mainLoss, limit float64) ([]job.Cure, error) {
	stretch, mine, bore := c.costliest(worst)
	if stretch.Runs == nil {
		return nil, nil
	}
	hopeful := func(wider float64) bool { return worst.loss-mine*(1-math.Pow(bore/wider, 5)) < 1.05*limit }
	use := job.InUse{Tool: worst.tool.Tool, Outlet: worst.tool.Outlet}
	found, ok, err := c.bench.Resized(ctx, stretch, hopeful, func(t *cure.Trial) (float64, bool, error) {
		path, err := t.Path(ctx, worst.set, use)
		if err != nil {
			return 0, false, err
		}
		after := lossOfSteps(t.Model(), path)
		return worst.loss - after, path != nil && after <= limit, nil
	})
	if err != nil || !ok {
		return nil, err
	}
	return []job.Cure{found}, nil
}

// costliest is the stretch of the main that loses most, its parts included.
func (c *Case) costliest(worst mainLoss) (best cure.Stretch, loss, bore float64) {
	for i := range worst.tool.Path {
		e := &c.model.Elements()[worst.tool.Path[i].Element]
		run := c.idx.Run(e.ID)
		if run == nil || worst.parts[e.ID] == 0 {
			continue
		}
		s := cure.StretchOf(c.idx, run)
		sum := 0.0
		for _, r := range s.Runs {
			sum += worst.parts[r.ID]
		}
		for _, p := range s.Parts {
			sum += worst.parts[p.ID]
		}
		if sum > loss {
			best, loss, bore = s, sum, float64(e.Bore)
		}
	}
	return best, loss, bore
}

// lossOfSteps is what lossInMains sums, on a way of another model.
func lossOfSteps(m *model.Model, path []model.Step) float64 {
	last, sum, kept := -1, 0.0, 0.0
	for i := range path {
		e := &m.Elements()[path[i].Element]
		line := e.Thing == model.ThingLine && (e.Role == "main" || e.Role == "ring")
		if loss := float64(path[i].Loss); loss > 0 && (line || e.Thing == model.ThingFitting) {
			sum += loss
		}
		if line {
			last, kept = i, sum
		}
	}
	if last < 0 {
		return 0
	}
	return kept
}
