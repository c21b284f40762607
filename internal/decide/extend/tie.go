package extend

import (
	"context"
	"fmt"
	"slices"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/prove"
	"dropleg/internal/shop/job"
)

// Tie is a place where a line that stands is opened.
type Tie struct {
	Point job.ID // of the new fitting, or of the one whose cap comes off
	Run   job.ID // the line that is opened; "" where none is cut
	// Shut are valves that shut the section off, and Other is plant at its ends that has to be
	// isolated otherwise.
	Shut, Other []job.ID
}

// ties are where new lines meet what stands.
func ties(ctx context.Context, s *study.Study, after *job.Index, lines []job.ID) ([]Tie, error) {
	var out []Tie
	for _, id := range lines {
		r := after.Run(id)
		for _, end := range []job.ID{r.From.Point, r.To.Point} {
			if slices.ContainsFunc(out, func(t Tie) bool { return t.Point == end }) {
				continue
			}
			for _, e := range after.Ends(end) {
				if s.Index().Run(e.Run.ID) != nil {
					out = append(out, Tie{Point: end, Run: e.Run.ID})
					break
				}
			}
			if s.Index().Point(end) != nil && !slices.ContainsFunc(out, func(t Tie) bool { return t.Point == end }) && len(s.Index().Ends(end)) > 0 {
				out = append(out, Tie{Point: end})
			}
		}
	}
	if len(out) == 0 {
		return nil, nil
	}
	plan, err := prove.Of(ctx, s)
	if err != nil {
		return nil, fmt.Errorf("finding what shuts the line off: %w", err)
	}
	for i := range out {
		out[i].isolate(plan)
	}
	return out, nil
}

// isolate finds what shuts off the section in which a line is opened.
func (t *Tie) isolate(plan *prove.Answer) {
	for i := range plan.Sections {
		s := &plan.Sections[i]
		if t.Run != "" && !slices.Contains(s.Runs, t.Run) || t.Run == "" && !slices.Contains(s.Points, t.Point) {
			continue
		}
		for _, e := range s.Ends {
			if e.Shuts {
				t.Shut = append(t.Shut, e.Point)
			} else {
				t.Other = append(t.Other, e.Point)
			}
		}
		return
	}
}
