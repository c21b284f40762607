package cli

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
	"dropleg/internal/decide/cure"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// checkAnswer is what --json writes.
type checkAnswer struct {
	Title    string        `json:"title"`
	Findings []job.Finding `json:"findings"`
}

// check gives every finding on a design.
func (c *call) check() *cobra.Command {
	var pairs bool
	cmd := &cobra.Command{
		Use:   "check JOB",
		Short: "everything found on the design, worst first, with cures",
		Long: `Looks at the whole design and tells what of it falls short: what, where, by how much, why,
by which source, and what would cure it. A cure was tried on the design unless it says so.
Status 0: nothing but notes. Status 1: a danger, a fault or a caution.
It says what was checked; it never says that a shop is without danger.`,
		Example: `  dropleg check shop.json
  dropleg check shop.json --json > findings.json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			system, err := c.system(j.Site.Units)
			if err != nil {
				return err
			}
			s := study.Of(j, catalog.Builtin())
			found, err := check.Run(contextOf(cmd), s, system)
			if err != nil {
				return err
			}
			if pairs {
				if err := addPairs(contextOf(cmd), s, found, system); err != nil {
					return err
				}
			}
			if c.json {
				err = c.writeJSON(checkAnswer{j.Title, append([]job.Finding{}, found...)})
			} else {
				err = c.checkPage(contextOf(cmd), s, found, system)
			}
			if err != nil {
				return err
			}
			if slices.ContainsFunc(found, func(f job.Finding) bool { return f.Severity != job.Note }) {
				return errShort
			}
			return nil
		},
	}
	cmd.Flags().BoolVar(&pairs, "pairs", false, "look longer: also what two changes together would do for a tool that is short")
	return cmd
}

// addPairs puts what two changes do to the findings on tools that are short.
func addPairs(ctx context.Context, s *study.Study, found []job.Finding, system unit.System) error {
	pairs, err := cure.Pairs(ctx, s, system)
	if err != nil {
		return err
	}
	for i := range found {
		f := &found[i]
		if f.Code == "short-of-pressure" && len(f.Where) > 0 {
			for _, p := range pairs[f.Where[0]] {
				if !slices.ContainsFunc(f.Cures, func(c job.Cure) bool { return c.Words == p.Words }) {
					f.Cures = append(f.Cures, p)
				}
			}
		}
	}
	return nil
}

// checkPage is the shop in a page: the questions that people have with an answer
// in a sentence each, then what was found, worst first.
func (c *call) checkPage(ctx context.Context, s *study.Study, found []job.Finding, system unit.System) error {
	j := s.Job()
	judged := func(context.Context, *study.Study, unit.System) ([]job.Finding, error) { return found, nil }
	questions, err := screen.On(s, judged).Questions(ctx, screen.Ask{System: system})
	if err != nil {
		return err
	}
	p := &findingPage{c.paper(), s, system}
	p.heading(j.Title)
	p.blank()
	for _, q := range questions {
		mark, ink := markSigns(q.Mark)
		rest := strings.TrimLeft(strings.TrimPrefix(q.Answer, q.Verdict), ":., ")
		verdict := ""
		if q.Verdict != "" {
			verdict = q.Verdict + ". "
		}
		p.wrapped(p.ink(ink, mark)+" ", "  ", q.Question+" "+verdict+sentence(rest))
	}
	p.blank()
	p.heading(tally(found))
	for i := range found {
		p.blank()
		p.finding(&found[i])
	}
	return c.writeAll(p.bytes())
}

// markSigns are the sign and ink beside a question; its verdict says the same in words.
func markSigns(m screen.Mark) (sign, ink string) {
	switch m {
	case screen.Yes:
		return "✓", green
	case screen.NotYet:
		return "✗", red
	case screen.Told:
		return "-", dim
	}
	return "?", yellow
}

// severityWords are the words beside a finding, the same in colour and without.
func severityWords(s job.Severity) (one, ink string) {
	switch s {
	case job.Danger:
		return "danger", red
	case job.Fault:
		return "fault", red
	case job.Caution:
		return "caution", yellow
	}
	return "note", dim
}

// tally counts findings in one sentence.
func tally(found []job.Finding) string {
	var counts []string
	for _, s := range []job.Severity{job.Danger, job.Fault, job.Caution, job.Note} {
		n := 0
		for i := range found {
			if found[i].Severity == s {
				n++
			}
		}
		if n > 0 {
			one, _ := severityWords(s)
			counts = append(counts, counted(n, one))
		}
	}
	if len(counts) == 0 {
		return "Nothing found that falls short, of what was checked."
	}
	return sentence(listed(counts)) + "."
}
