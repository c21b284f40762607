package extend

import (
	"context"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// concerned are the checks that speak of what must grow.
var concerned = []string{
	"over-rating", "relief-over-rating", "over-pressure-at-tool", "blow-gun-unlimited", "couplers-do-not-mate", "no-answer", "shut-off",
	"short-of-pressure", "never-full", "short-in-the-day", "motor-overworked", "supply-short", "regulator-starved", "undersized-main",
	"velocity", "takes-more-than-rated", "thin-hose", "water-class-missed", "dryer-overloaded", "desiccant-spent-soon",
}

// mostRounds bounds how many cures are taken one after the other.
const mostRounds = 8

// found tells findings apart: what is wrong, how bad, and where.
type found struct {
	code     string
	severity job.Severity
	where    job.ID
}

// past is what was found before, each with how far its figure lay beyond its limit; 0 where it
// has none.
type past map[found]float64

// worse is how much farther beyond its limit a finding must be to count anew: less is the work
// of chance in the days that are drawn.
const worse = 1.15

// beyond is how far a finding's figure lies from its limit.
func beyond(f *job.Finding) float64 {
	if f.Figure == nil || f.Limit == nil {
		return 0
	}
	return math.Abs(f.Figure.Value - f.Limit.Value)
}

// new says whether a finding was not there before, or has become worse.
func (p past) new(f *job.Finding) bool {
	was, had := p[keyOf(f)]
	return !had || was > 0 && beyond(f) > worse*was
}

func keyOf(f *job.Finding) found {
	k := found{f.Code, f.Severity, ""}
	if len(f.Where) > 0 {
		k.where = f.Where[0]
	}
	return k
}

// findings are those of the checks concerned, worse than a note and not there before. enough,
// asked after each check, may say that the rest need not be looked at.
func findings(ctx context.Context, s *study.Study, system unit.System, before past, enough func([]job.Finding) bool) ([]job.Finding, error) {
	var out []job.Finding
	for _, c := range check.All() {
		if !slices.Contains(concerned, c.Code) {
			continue
		}
		list, err := check.RunThese(ctx, s, system, []check.Check{c})
		if err != nil {
			return nil, fmt.Errorf("checking what must grow: %w", err)
		}
		for i := range list {
			if list[i].Severity != job.Note && before.new(&list[i]) {
				out = append(out, list[i])
			}
		}
		if enough(out) {
			break
		}
	}
	return out, nil
}

// grown is a draft with cures taken, and what they left.
type grown struct {
	draft
	taken []job.Cure
	open  []job.Finding // what was not there before and no cure takes away
}

// grow takes cures of what was not found before, the worst first, until nothing is left that
// has one. A cure that left its finding standing is not taken twice.
func grow(ctx context.Context, d draft, before past, system unit.System, said func(round int)) (*grown, error) {
	g := &grown{draft: draft{d.study, slices.Clone(d.edits)}}
	tried := map[found]int{}
	for round := range mostRounds + 1 {
		said(round)
		cured := false
		var err error
		g.open, err = findings(ctx, g.study, system, before, func(open []job.Finding) bool {
			cured = round < mostRounds && g.cure(open, tried)
			return cured
		})
		if err != nil {
			return nil, err
		}
		if !cured && round < mostRounds {
			if cured, err = g.stronger(ctx); err != nil {
				return nil, err
			}
		}
		if !cured {
			break
		}
	}
	return g, nil
}

// bySupply are findings that a compressor which delivers more takes away.
var bySupply = []string{"short-in-the-day", "never-full", "motor-overworked", "supply-short"}

// atLeast is how much more the next class has to deliver to be worth a look.
const atLeast = 1.2

// stronger puts the next larger class of compressor in place of the one that delivers least,
// where the supply falls short and no cure of the checks helps; false where there is none.
func (g *grown) stronger(ctx context.Context) (bool, error) {
	if !slices.ContainsFunc(g.open, func(f job.Finding) bool { return slices.Contains(bySupply, f.Code) }) {
		return false, nil
	}
	m, err := g.study.Model(ctx)
	if err != nil {
		return false, fmt.Errorf("reading the job as a network: %w", err)
	}
	now := g.least(m)
	if now == nil {
		return false, nil
	}
	var best *catalog.Machine
	for _, row := range g.study.Catalog().Machines() {
		more := row.FreeAir.Value >= atLeast*float64(now.FreeAir) && row.CutOut >= now.CutOut
		if more && (best == nil || row.FreeAir.Value < best.FreeAir.Value) {
			best = &row
		}
	}
	if best == nil {
		return false, nil
	}
	g.taken = append(g.taken, job.Cure{Words: "a larger compressor, of the class " + best.Words})
	return true, g.machine(m, best.Machine)
}

// cure takes the next cure of what is open; false where there is none.
func (g *grown) cure(open []job.Finding, tried map[found]int) bool {
	for i := range open {
		f := &open[i]
		for n := tried[keyOf(f)]; n < len(f.Cures); n++ {
			tried[keyOf(f)] = n + 1
			var edits []job.Edit
			for _, form := range f.Cures[n].Edits {
				if e, bad := job.ParseEdit(form); len(bad) == 0 {
					edits = append(edits, e)
				}
			}
			if len(edits) > 0 && len(edits) == len(f.Cures[n].Edits) && g.take(job.AllOf(f.Cures[n].Words, edits...)) == nil {
				g.taken = append(g.taken, f.Cures[n])
				return true
			}
		}
	}
	return false
}
