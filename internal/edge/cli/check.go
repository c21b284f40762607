package cli

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/check"
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
	return &cobra.Command{
		Use:   "check JOB",
		Short: "everything found on the design, worst first, with cures",
		Long: `Looks at the whole design and tells what of it falls short: what, where, by how much, why,
by which source, and what would cure it. Each cure was tried on the design.
Status 0: nothing but notes. Status 1: a danger, a fault or a caution.
It says what was checked; it never says that a shop is without danger.`,
		Example: `  dropleg check shop.json
  dropleg check shop.json --json > findings.json`,
		Args: words(1, 1, "one job file, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.readJob(args[0])
			if err != nil {
				return err
			}
			system, err := c.system(j.Site.Units)
			if err != nil {
				return err
			}
			found, err := check.Run(contextOf(cmd), study.Of(j, catalog.Builtin()), system)
			if err != nil {
				return err
			}
			if c.json {
				err = c.writeJSON(checkAnswer{j.Title, append([]job.Finding{}, found...)})
			} else {
				err = c.checkPage(contextOf(cmd), j, found, system)
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
}

// checkPage is the shop in a page: the questions that people have with an answer
// in a sentence each, then what was found, worst first.
func (c *call) checkPage(ctx context.Context, j *job.Job, found []job.Finding, system unit.System) error {
	judged := func(context.Context, *study.Study, unit.System) ([]job.Finding, error) { return found, nil }
	shop, refused := screen.Open(j, catalog.Builtin(), judged)
	if shop == nil {
		return &badInput{j.Title, problemsOf(refused, nil)} // readJob has seen to it that this does not happen
	}
	questions, err := shop.Questions(ctx, screen.Ask{System: system})
	if err != nil {
		return err
	}
	p := c.paper()
	p.heading(j.Title)
	p.blank()
	for _, q := range questions {
		mark, ink := markSigns(q.Mark)
		rest := strings.TrimLeft(strings.TrimPrefix(q.Answer, q.Verdict), ":., ")
		p.wrapped(p.ink(ink, mark)+" ", "  ", q.Question+" "+q.Verdict+". "+sentence(rest))
	}
	p.blank()
	p.heading(tally(found))
	for i := range found {
		p.blank()
		findingPage(p, &found[i], system)
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

// findingPage is one finding: its sentence, why, the elements that take most as
// bars, and what would cure it.
func findingPage(p *paper, f *job.Finding, system unit.System) {
	word, ink := severityWords(f.Severity)
	const indent = 9
	p.wrapped(p.ink(ink, pad(word, indent)), pad("", indent), f.Title)
	if f.Why != "" {
		p.wrapped(pad("", indent), pad("", indent), f.Why)
	}
	sharesPage(p, f.Shares, indent, system)
	for _, cure := range f.Cures {
		p.wrapped(pad("", indent)+"→ ", pad("", indent+2), cureWords(cure, system))
	}
	var where []string
	for _, id := range f.Where {
		where = append(where, string(id))
	}
	foot := f.Code
	if len(where) > 0 {
		foot += " at " + strings.Join(where[:min(len(where), 4)], ", ")
		if n := len(where) - 4; n > 0 {
			foot += fmt.Sprintf(" and %d more", n)
		}
	}
	p.line(pad("", indent) + p.ink(dim, cut(foot, p.width-indent)))
	if len(f.Source) > 0 {
		p.line(pad("", indent) + p.ink(dim, cut("source: "+f.Source[0].Text(), p.width-indent)))
	}
}

// mostBars is how many elements have a bar: the rest lose little.
const mostBars = 5

// sharesPage draws the ranked losses.
func sharesPage(p *paper, shares []job.Share, indent int, system unit.System) {
	shares = shares[:min(len(shares), mostBars)]
	if len(shares) == 0 {
		return
	}
	const room = 16
	most, figures := shares[0].LossPa, make([]string, len(shares))
	wide, label := 0, p.width-indent-room-3
	longest := 0
	for i, s := range shares {
		most = math.Max(most, s.LossPa)
		figures[i] = system.Text(unit.KindPressureDiff, s.LossPa, unit.Env{})
		wide = max(wide, width(figures[i]))
		longest = max(longest, width(s.Words))
	}
	label = min(label-wide, longest)
	for i, s := range shares {
		long := 0
		if most > 0 {
			long = int(math.Round(s.LossPa / most * room))
		}
		bar := pad(strings.Repeat("█", max(0, long)), room)
		p.line(pad("", indent) + pad(cut(s.Words, label), label) + "  " + left(figures[i], wide) + " " + bar)
	}
}

// cureWords tells a cure with what it gains and costs.
func cureWords(cure job.Cure, system unit.System) string {
	text := cure.Words
	if cure.GainPa != nil {
		text += ": gains " + system.Text(unit.KindPressureDiff, *cure.GainPa, unit.Env{})
	}
	if cure.Price != nil {
		text += fmt.Sprintf(", costs about %.0f", *cure.Price)
	}
	if cure.Cures {
		text += "; that alone is enough"
	}
	if !cure.Verified {
		text += " (not tried on the design)"
	}
	return text
}
