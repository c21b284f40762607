package cli

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// parts is the take-off.
func (c *call) parts() *cobra.Command {
	return &cobra.Command{
		Use:   "parts JOB",
		Short: "the take-off: everything on the drawing, counted",
		Long: `Lines by size in metres, fittings with the elbows that corners make, valves, treatment,
plant, couplers, hoses; what stands already and what is for later apart. With --json each
line names the things that it was counted from. Prices are those of the job's own list.`,
		Example: "  dropleg parts shop.json",
		Args:    words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			a, err := study.Of(j, catalog.Builtin()).Parts(contextOf(cmd))
			if err != nil {
				return err
			}
			return c.write(j, a, func(p *paper, system unit.System) { partsPage(p, j, a, system) })
		},
	}
}

// partsPage is the take-off as a list under headings.
func partsPage(p *paper, j *job.Job, a *parts.Answer, system unit.System) {
	p.heading(j.Title)
	titles := map[parts.State]string{
		parts.Planned: "to be built", parts.Existing: "there already", parts.Stub: "for later",
	}
	numbers, wide := make([]string, len(a.Lines)), 0
	for i := range a.Lines {
		numbers[i] = numberOf(&a.Lines[i], system)
		wide = max(wide, width(numbers[i]))
	}
	state, group := parts.State(""), parts.Group("")
	for i := range a.Lines {
		l := &a.Lines[i]
		if l.State != state {
			state, group = l.State, ""
			p.blank()
			p.heading(titles[state])
		}
		if l.Group != group {
			group = l.Group
			p.line("  " + p.ink(dim, string(group)))
		}
		words := l.Words
		if l.Note != "" {
			words += " (" + l.Note + ")"
		}
		if l.Drawer > 0 {
			words += fmt.Sprintf("; %s in the drawer", strconv.FormatFloat(l.Drawer, 'g', 4, 64))
		}
		if l.Cost != nil {
			words += fmt.Sprintf("; %.2f %s", *l.Cost, a.Currency)
		}
		p.wrapped("  "+left(numbers[i], wide)+"  ", pad("", wide+4), words)
	}
	p.blank()
	switch {
	case a.Cost > 0 && a.Unpriced > 0:
		p.wrapped("", "", fmt.Sprintf("%.2f %s for what has a price; %s without one.", a.Cost, a.Currency, counted(a.Unpriced, "line")))
	case a.Cost > 0:
		p.line(fmt.Sprintf("%.2f %s altogether", a.Cost, a.Currency))
	default:
		p.line("No prices: the job's own list is empty.")
	}
}

// numberOf is how much of an article there is: pieces, or the length of a line.
func numberOf(l *parts.Line, system unit.System) string {
	if l.Group != parts.Stock {
		return strconv.Itoa(l.Pieces)
	}
	text := system.Listed(*l.Length)
	if l.Unknown > 0 {
		text += " and more"
	}
	return text
}
