package route

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// proposal draws the layout and tells what it comes to.
func (l *layout) proposal(ctx context.Context, d *draft, title string) (Proposal, error) {
	a, err := l.drawn(ctx, d)
	var refused *job.Refusal
	if errors.As(err, &refused) { // the graph leaves out what a fitting needs
		return Proposal{}, &job.Refusal{Findings: undrawn(refused.Findings)}
	}
	if err != nil {
		return Proposal{}, err
	}
	return l.proposalOf(d, a, title), nil
}

// undrawn are the reasons for which a way that was found cannot be drawn.
func undrawn(found []job.Finding) []job.Finding {
	out := slices.Clone(found)
	for i := range out {
		out[i].Code = "not-drawn"
		out[i].Title = "A way was found that cannot be drawn: " + strings.TrimSuffix(out[i].Title, ".") + "."
		out[i].Why = "What stands too near together leaves no room for a fitting."
		out[i].Path = "net"
	}
	return out
}

// proposalOf tells what a drawing comes to.
func (l *layout) proposalOf(d *draft, a *artist, title string) Proposal {
	p := Proposal{Title: title, Edit: job.AllOf("laid lines to "+several(len(l.maze.feet), "outlet"), a.edits...)}
	p.Figures = l.figures(d.job, a)
	p.Verified = a.reaches()
	if !p.Verified {
		p.Words = append(p.Words, "Air does not come to every outlet by the lines as drawn: look at the ends that are told as loose.")
	}
	p.Proven = l.price <= l.bound
	if !p.Proven {
		p.Gap = float64(l.price-l.bound) / float64(l.price)
	}
	p.Words = append(append(p.Words, l.assumed(a)...), "No other way of laying it over the same places costs less.")
	if !p.Proven {
		p.Words[len(p.Words)-1] = fmt.Sprintf("Not proved to be the least: at most %.1f %% too dear.", 100*p.Gap)
	}
	return p
}

// figures count what the drawing has more than before.
func (l *layout) figures(before *job.Job, a *artist) Figures {
	f := Figures{Holes: l.holes, Valves: a.set, Feet: len(l.maze.feet), Price: float64(l.price) / unitsOf, Least: float64(l.bound) / unitsOf, Reckons: l.maze.prices}
	measure := func(j *job.Job, sign float64) {
		ix := job.NewIndex(j)
		for i := range j.Net.Runs {
			r := &j.Net.Runs[i]
			long, _ := ix.LengthOf(r)
			switch r.Role {
			case "main", "branch", "ring":
				f.Mains += sign * float64(long)
			case "drop", "drip", "stub":
				f.Legs += sign * float64(long)
			}
			f.Length += sign * float64(long)
		}
	}
	measure(a.job, 1)
	measure(before, -1)
	count := func(j *job.Job, sign int) {
		for _, line := range parts.Of(j, a.shelf).Lines {
			k, ok := a.shelf.Kind(line.Kind)
			switch {
			case !ok || k.Group != catalog.Fitting:
			case k.Has(catalog.Turns):
				f.Bends += sign * int(line.Pieces)
			case k.Has(catalog.Branches):
				f.Tees += sign * int(line.Pieces)
			}
		}
	}
	count(a.job, 1)
	count(before, -1)
	return f
}

// assumed tells what was assumed.
func (l *layout) assumed(a *artist) []string {
	system := unit.System(a.job.Site.Units)
	if system == "" {
		system = unit.Metric
	}
	long := func(m float64) string { return system.Listed(unit.Length(m)) }
	out := []string{
		fmt.Sprintf("Lines are of %s, mains %s and drop legs %s, until they are sized.", l.pen.stock.Words, l.pen.main, l.pen.drop),
		fmt.Sprintf("Mains hang %s from the wall, at %s over the floor or %s under the ceiling where that is lower; drop legs leave from their top.", long(offWall), long(handReach), long(underTop)),
	}
	if l.slope > 0 {
		out = append(out, fmt.Sprintf("Mains fall 1 in %.0f away from the plant; the low end has a drain.", 1/l.slope))
	}
	if rule := float64(a.job.RuleSlope().Value); l.slope < rule {
		out = append(out, fmt.Sprintf("There is no height for the fall of 1 in %.0f that the rules ask for.", 1/rule))
	}
	if l.holes > 0 {
		out = append(out, fmt.Sprintf("%s to be made through walls.", capital(several(l.holes, "hole"))))
	}
	pr := l.maze.prices
	stated := "as is usual, since the job has no prices of this stock: only their proportions count"
	if pr.Stated {
		stated = "by the job's list"
	}
	out = append(out, fmt.Sprintf("Reckoned %s: a metre of main %.2f, of leg %.2f, a corner %.2f, a tee %.2f, a hole %.2f, work at %.2f an hour in all of these; under the ceiling %.0f %% more a metre, out of reach of a ladder %.0f %% more.",
		stated, pr.Metre, pr.Leg, pr.Bend, pr.Tee, pr.Hole, pr.Rate, 100*(ceilingFactor-1), 100*(highFactor-1)))
	return out
}

func several(n int, word string) string {
	if n == 1 {
		return "one " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
