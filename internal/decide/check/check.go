package check

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"dropleg/engine/cite"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/job"
)

// Check is one thing looked at.
type Check struct {
	Code   string
	Title  string // what is looked for, a few words
	Why    string // one sentence
	Limit  string // what counts as too much or too little, in words
	Law    string // law by which the figure comes about; "" for none
	Source []cite.Ref
	Run    func(context.Context, *Case) error
}

// Run puts the study to every check. The findings are sorted by severity, then
// by the order of [All], then as found; the same study gives the same list.
// Findings of the model that no check takes up stand among them.
func Run(ctx context.Context, s *study.Study, system unit.System) ([]job.Finding, error) {
	return RunThese(ctx, s, system, All())
}

// RunThese puts the study to some checks only.
func RunThese(ctx context.Context, s *study.Study, system unit.System, checks []Check) ([]job.Finding, error) {
	c, err := newCase(ctx, s, system)
	if err != nil {
		return nil, fmt.Errorf("preparing the checks: %w", err)
	}
	for i := range checks {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		c.check = &checks[i]
		if err := checks[i].Run(ctx, c); err != nil {
			return nil, fmt.Errorf("checking %s: %w", checks[i].Code, err)
		}
	}
	slices.SortStableFunc(c.found, func(a, b job.Finding) int { return cmp.Compare(rank(a.Severity), rank(b.Severity)) })
	return c.found, nil
}

// rank orders severities, worst first.
func rank(s job.Severity) int {
	return slices.Index([]job.Severity{job.Danger, job.Fault, job.Caution, job.Note}, s)
}

// Worst is the worst severity among findings; "" of none.
func Worst(findings []job.Finding) job.Severity {
	worst := job.Severity("")
	for i := range findings {
		if s := findings[i].Severity; worst == "" || rank(s) < rank(worst) {
			worst = s
		}
	}
	return worst
}
