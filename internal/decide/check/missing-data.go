package check

import (
	"cmp"
	"context"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/flow"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

var missingData = Check{
	Code:   "missing-data",
	Title:  "figures that had to be assumed, and what they move",
	Why:    "A figure that nobody stated is taken from its class; the maker's own narrows the answer.",
	Limit:  "a plausible range of the worst tool's pressure of less than 1 kPa is not told",
	Law:    "the net solved with every assumed figure at its best and at its worst end; shares to first order",
	Source: custom("generic classes of the catalogue"),
	Run:    runMissingData,
}

// quiet is the change of pressure below which assumptions are not worth telling, Pa.
const quiet = 1000

// gap is assumptions of one sort.
type gap struct {
	words string
	ids   []job.ID
	moves float64 // Pa, half the change across the range, summed over the way
}

func runMissingData(ctx context.Context, c *Case) error {
	worst := c.worstTool()
	if worst == nil {
		return nil
	}
	got := c.toolIn(worst)
	if got == nil || len(got.Path) == 0 || len(c.model.Assumptions()) == 0 {
		return nil
	}
	low, high, err := c.rangeOf(ctx, worst)
	if err != nil {
		return err
	}
	moves := float64(high - low)
	if moves < quiet || c.gauge(low) == c.gauge(high) {
		return nil
	}
	f := job.Finding{
		Severity: job.Note, Where: []job.ID{worst.Tool}, Range: &[2]float64{float64(low), float64(high)},
		Figure: figure("pressure_Pa", moves), Limit: figure("pressure_Pa", quiet),
	}
	for _, g := range c.gaps(got) {
		if g.moves < quiet {
			continue
		}
		f.Shares = append(f.Shares, job.Share{ID: g.ids[0], Words: g.words, LossPa: g.moves})
		f.Where = append(f.Where, g.ids...)
	}
	f.Where = unique(f.Where)
	foremost := ""
	if len(f.Shares) > 0 {
		foremost = ", foremost the " + f.Shares[0].Words
	}
	f.Title = sentence("figures that nobody stated%s, leave %s anywhere from %s to %s.", foremost, c.named(worst.Tool), c.gauge(low), c.gauge(high))
	c.report(f)
	return nil
}

// rangeOf is the plausible range of a tool's pressure in its worst moment: the
// one at hand, else solved with every assumed figure at either end.
func (c *Case) rangeOf(ctx context.Context, w *flow.Worst) (low, high unit.GaugePressure, err error) {
	if w.Range != nil {
		return w.Range.Low, w.Range.High, nil
	}
	low, high = w.Pressure, w.Pressure
	solver := c.model.NewSolver()
	solver.Begin(c.model.StartFrom(c.flow.Sets[w.Set].CutIn.Result))
	for _, bias := range []model.Bias{model.Worst, model.Best} {
		r, err := solver.Solve(ctx, model.Case{Running: c.flow.Sets[w.Set].Running, Supply: model.CutIn, Bias: bias})
		if err != nil {
			return 0, 0, err
		}
		p, ok := c.model.PairOf(job.InUse{Tool: w.Tool, Outlet: w.Outlet})
		if !ok || !r.Solved || !r.Tools[p.Index].Known {
			continue
		}
		low, high = min(low, r.Tools[p.Index].Pressure), max(high, r.Tools[p.Index].Pressure)
	}
	return low, high, nil
}

// worstTool is the tool with the least margin in its worst moment.
func (c *Case) worstTool() *flow.Worst {
	var worst *flow.Worst
	for i := range c.flow.Tools {
		w := &c.flow.Tools[i]
		if w.Set >= 0 && w.Known && c.flow.Sets[w.Set].CutIn.Solved && (worst == nil || w.Margin < worst.Margin) {
			worst = w
		}
	}
	return worst
}

// gaps sorts the assumptions by what is assumed and adds up what each moves on
// the tool's way, most first.
func (c *Case) gaps(got *flow.Tool) []gap {
	type place struct {
		id      job.ID
		coupler bool // a hose and the couplers at its ends go by one id
	}
	losses := map[place]float64{}
	total := 0.0
	for i := range got.Path {
		s := &got.Path[i]
		losses[place{s.ID, s.Thing == model.ThingCoupler}] += float64(s.Loss)
		total += float64(s.Loss)
	}
	running := map[job.ID]bool{}
	for _, u := range c.flow.Sets[c.setOf(got)].Running {
		running[u.Tool] = true
	}
	var order []string
	by := map[string]*gap{}
	for _, a := range c.model.Assumptions() {
		moves := moved(&a, losses[place{a.ID, a.Words == couplerWords}])
		if a.Key == "free_air_m3_s" && running[a.ID] {
			moves = c.movedByFlow(&a, got, total)
		}
		if moves <= 0 {
			continue
		}
		g, ok := by[a.Words]
		if !ok {
			g = &gap{words: a.Words}
			by[a.Words] = g
			order = append(order, a.Words)
		}
		g.moves += moves
		if !slices.Contains(g.ids, a.ID) {
			g.ids = append(g.ids, a.ID)
		}
	}
	out := make([]gap, 0, len(order))
	for _, w := range order {
		out = append(out, *by[w])
	}
	slices.SortStableFunc(out, func(a, b gap) int { return cmp.Compare(b.moves, a.moves) })
	return out
}

// couplerWords are the model's words for the conductance of a coupler.
const couplerWords = "conductance of the coupler"

// setOf finds the set in which a tool's state stands.
func (c *Case) setOf(got *flow.Tool) int {
	for i := range c.flow.Tools {
		if w := &c.flow.Tools[i]; w.Tool == got.Tool && w.Outlet == got.Outlet && w.Set >= 0 {
			return w.Set
		}
	}
	return 0
}

// moved is by how much a figure's range moves the loss of its own element: half
// of the change from one end to the other, by the power with which the loss
// goes with the figure. Keys not named move no steady pressure.
func moved(a *model.Assumption, loss float64) float64 {
	if loss <= 0 || a.Value == 0 {
		return 0
	}
	powers := map[string]float64{
		"C_m3_s_Pa": -2, "roughness_m": 0.15, "end_bore": -4, "insert_bore": -4, "bore_m": -5,
		"Le_over_D": 1, "clean_Pa": 1, "loaded_Pa": 1, "free_air_m3_s": -2,
	}
	n, ok := powers[a.Key]
	if !ok {
		return 0
	}
	low, high := math.Pow(a.Low/a.Value, n), math.Pow(a.High/a.Value, n)
	m := loss / 2 * math.Abs(high-low)
	if a.Key == "end_bore" || a.Key == "insert_bore" || a.Key == "Le_over_D" {
		m *= 0.3 // ends and bends are but a part of the element's loss
	}
	if math.IsNaN(m) || math.IsInf(m, 0) {
		return loss // a range without bound moves all of it
	}
	return m
}

// movedByFlow is what the range of a tool's flow moves: the losses go with the
// square of the flow on each part of the way that the tool's air passes.
func (c *Case) movedByFlow(a *model.Assumption, got *flow.Tool, total float64) float64 {
	set := &c.flow.Sets[c.setOf(got)]
	mine := 0.0
	for i := range set.CutIn.Tools {
		if set.CutIn.Tools[i].Tool == a.ID {
			mine = float64(set.CutIn.Tools[i].Flow)
		}
	}
	if a.ID == got.Tool {
		return total * (a.High - a.Low) / math.Max(a.Value, 1e-12)
	}
	m := 0.0
	for i := range got.Path {
		// Others share the way only where more than the tool's own air passes.
		if s := &got.Path[i]; float64(s.Flow) > float64(got.Flow)*1.01 {
			m += float64(s.Loss) * math.Min(1, mine/float64(s.Flow)) * math.Abs(a.High-a.Low) / math.Max(a.Value, 1e-12)
		}
	}
	return m
}
