package energy

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Bores of leaks that are told, by the units of the job.
var (
	bores     = []unit.Length{0.5e-3, 1e-3, 2e-3, 3e-3, 5e-3}
	inchBores = []unit.Length{0.0254 / 64, 0.0254 / 32, 0.0254 / 16, 0.0254 / 8, 0.0254 * 3 / 16}
)

const (
	yearHours = 8760.0
	lowerBy   = 10e3 // Pa of set pressure that the saving is told for
	room      = 293.15
	// leastSaving is the share of the year's electricity below which nothing is said.
	leastSaving = 0.001
)

// stands is the pressure at which the store stands on average, Pa abs: the middle of
// the first source's band.
func stands(m *model.Model) float64 {
	s := m.Sources()[0]
	return float64(s.CutIn+s.CutOut)/2 + float64(m.Atmosphere())
}

// holes tells what leaks cost by their bore.
func (a *Answer) holes(j *job.Job, m *model.Model) {
	list := bores
	if j.Site.Units == "us" {
		list = inchBores
	}
	gas := element.Gas{Temperature: room, R: air.GasConstant, Z: 1}
	for _, bore := range list {
		law, err := element.NewOrifice(gas, float64(bore), sharpEdged)
		if err != nil {
			continue // a bore of the table above is in range
		}
		kg, _, _ := law.Flow(stands(m), float64(m.Atmosphere()))
		flow := air.FreeAir(unit.MassFlow(kg))
		a.Holes = append(a.Holes, Hole{bore, flow, a.flowing(flow, a.Hours), a.flowing(flow, yearHours)})
	}
}

// measures tells what there is to save.
func (a *Answer) measures(ctx context.Context, j *job.Job, m *model.Model, days *day.Answer) error {
	if a.All.Energy <= 0 {
		return nil
	}
	if share, ok := perPressure(m); ok {
		a.Measures = append(a.Measures, Measure{
			What: "lower-pressure", Words: "set cut-in and cut-out lower, as far as every tool keeps its pressure; what is told is for each tenth of a bar (1.5 psi)",
			Share: share, Saves: a.part(share),
		})
	}
	leak := a.flowing(days.Leak, a.Hours)
	a.Measures = append(a.Measures,
		Measure{
			What: "mend-leaks", Words: fmt.Sprintf("mend the leaks that the plan sets %.0f %% of the supply aside for", 100*float64(j.RuleLeak().Value)),
			Share: float64(leak.Energy / a.All.Energy), Saves: leak,
		})
	off := a.flowing(days.Leak, yearHours-a.Hours)
	a.Measures = append(a.Measures, Measure{
		What: "shut-off", Words: "shut the line off at the receiver and switch the compressor off whenever nobody works; left on, its leaks come on top of the year's electricity",
		Share: float64(off.Energy / a.All.Energy), Saves: off,
	})
	return a.unregulated(ctx, m, days)
}

// perPressure is the share of the electricity that 10 kPa of set pressure are worth, by
// the work of compression alone: isentropic, as many stages as usual. Leaks and tools
// without a regulator take less too, which comes on top.
func perPressure(m *model.Model) (share float64, ok bool) {
	work := func(p float64) (float64, error) {
		return air.Compression{In: m.Atmosphere(), Out: unit.AbsPressure(p), Stages: 1, Exponent: 1.4}.Work()
	}
	now, err := work(stands(m))
	lower, err2 := work(stands(m) - lowerBy)
	if err != nil || err2 != nil || now <= 0 {
		return 0, false
	}
	return 1 - lower/now, true
}

// unregulated tells what tools take beyond their rated flow because nothing holds their
// pressure down.
func (a *Answer) unregulated(ctx context.Context, m *model.Model, days *day.Answer) error {
	solver := m.NewSolver()
	rest, _, err := taken(ctx, m, solver)
	if err != nil {
		return err
	}
	ran := map[job.ID]unit.Ratio{}
	for _, t := range days.Tools {
		ran[t.ID] = t.Ran
	}
	seen := map[job.ID]bool{}
	for _, pair := range m.Pairs() {
		if pair.Later || seen[pair.Tool] || ran[pair.Tool] <= 0 {
			continue
		}
		all, r, err := taken(ctx, m, solver, job.InUse{Tool: pair.Tool, Outlet: pair.Outlet})
		if err != nil {
			return err
		}
		if r == nil {
			continue
		}
		seen[pair.Tool] = true
		over := all - rest - pair.FreeAir
		const worthTelling = 0.05 // of its rated flow
		saves := a.flowing(over*unit.FreeAir(ran[pair.Tool]), a.Hours)
		if over < worthTelling*pair.FreeAir || r.Tools[pair.Index].Pressure <= pair.Rated ||
			saves.Energy < leastSaving*a.All.Energy {
			continue
		}
		a.Measures = append(a.Measures, Measure{
			What: "regulate", Tool: pair.Tool, Words: "put a regulator before it, set to what it is rated at",
			Share: math.Min(1, float64(saves.Energy/a.All.Energy)), Saves: saves,
		})
	}
	slices.SortStableFunc(a.Measures, func(a, b Measure) int { return cmp.Compare(b.Saves.Energy, a.Saves.Energy) })
	return nil
}

// taken is the free air that leaves the store while tools run, in the middle of its band;
// no result where the network has no answer.
func taken(ctx context.Context, m *model.Model, solver *model.Solver, running ...job.InUse) (unit.FreeAir, *model.Result, error) {
	r, err := solver.Solve(ctx, model.Case{Running: running, Supply: model.CutIn, Held: m.MidBand(), Idle: true})
	if err != nil || !r.Solved {
		return 0, nil, err
	}
	return r.Drawn(), r, nil
}
