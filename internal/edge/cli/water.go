package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// water tells where water falls out, and how dry the air is at the outlets.
func (c *call) water() *cobra.Command {
	var ask water.Ask
	var humidity, purge float64
	cmd := &cobra.Command{
		Use:   "water JOB",
		Short: "water a day at each drain, dew points, what freezes, water class by outlet",
		Long: `Follows the water of the air and the air's own temperature from the intake to every outlet, in a
cold and a warm season, by the tools' mean flows: what falls out where and where it runs to, the
pressure dew point against the cold of the lines, what dryers leave, and the water class of
ISO 8573-1 at each outlet. What the job does not state is named with its range.`,
		Example: `  dropleg water shop.json
  dropleg water shop.json --hours 10 --humidity 0.9 --json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if cmd.Flags().Changed("hours") && !(ask.Hours > 0 && ask.Hours <= 24) {
				return misused("water: read --hours %g; wanted above 0, up to 24", ask.Hours)
			}
			if cmd.Flags().Changed("humidity") {
				if !(humidity >= 0 && humidity <= 1) {
					return misused("water: read --humidity %g; wanted 0 to 1", humidity)
				}
				ask.Humidity = new(unit.Ratio)
				*ask.Humidity = unit.Ratio(humidity)
			}
			if cmd.Flags().Changed("purge") {
				if !(purge >= 0 && purge < 1) {
					return misused("water: read --purge %g; wanted 0 up to less than 1", purge)
				}
				ask.Purge = new(unit.Ratio)
				*ask.Purge = unit.Ratio(purge)
			}
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			a, err := study.Of(j, catalog.Builtin()).Water(contextOf(cmd), ask)
			if err != nil {
				return err
			}
			return c.write(j, a, func(p *paper, system unit.System) { waterPage(p, j, a, system) })
		},
	}
	cmd.Flags().Float64Var(&ask.Hours, "hours", 0, "hours worked a day (default: a fifth of the job's week, else 8)")
	cmd.Flags().Float64Var(&humidity, "humidity", 0, "relative humidity outside, 0 to 1 (default: the job's on the hot day, 0.85 in the cold)")
	cmd.Flags().Float64Var(&purge, "purge", 0, "share of its rated flow that a bed blows off to dry itself (default 0.15)")
	return cmd
}

// waterPage is the water of a shop as a page of text.
func waterPage(p *paper, j *job.Job, a *water.Answer, system unit.System) {
	ix := job.NewIndex(j)
	p.heading(j.Title)
	if a.Untold != "" {
		p.wrapped("", "", "Water cannot be told: "+a.Untold+".")
		return
	}
	p.wrapped("", "", fmt.Sprintf("%.3g hours a day, %s of free air in the mean.", a.Hours, system.Text(unit.KindFlow, a.Mean, unit.Env{})))
	for i := range a.Seasons {
		p.blank()
		seasonPage(p, ix, &a.Seasons[i], system)
	}
	p.supposed(a.Supposed)
}

func seasonPage(p *paper, ix *job.Index, s *water.Season, system unit.System) {
	warmth := func(t unit.Temperature) string { return system.Text(unit.KindTemperature, float64(t), unit.Env{}) }
	point := func(t *unit.Temperature) string {
		if t == nil {
			return "bone dry"
		}
		return warmth(*t)
	}
	p.wrapped("", "", fmt.Sprintf("In the %s season %.2f kg of water a day come in with the air; %.2f kg fall out, %.2f kg leave with it.",
		s.Name, s.In, s.Drained, s.Carried))
	t := table{{"gathers at", "litres a day", "range", "how"}}
	for _, g := range s.Gathered {
		if g.Freezes {
			g.How += ", freezes"
		}
		t = append(t, []string{nameOf(ix, g.ID), fmt.Sprintf("%.3f", g.Likely), fmt.Sprintf("%.3f to %.3f", g.Low, g.High), g.How})
	}
	if len(s.Gathered) > 0 {
		t.write(p)
	}
	for _, d := range s.Dryers {
		words := fmt.Sprintf("%s: sees the %s' %s, able to take %s here; it leaves a pressure dew point of %s", nameOf(ix, d.ID), d.Sees,
			system.Text(unit.KindFlow, float64(d.Flow), unit.Env{}), system.Text(unit.KindFlow, float64(d.Able), unit.Env{}), point(d.Out))
		if d.Purge > 0 {
			words += ", and blows off " + system.Text(unit.KindFlow, float64(d.Purge), unit.Env{})
		}
		if d.Untaking {
			words += ", that of the air that comes: it has nothing to take"
		}
		p.wrapped("- ", "  ", sentence(words+"."))
	}
	for _, l := range s.Lines {
		if l.Collects {
			words := "water collects"
			if l.Freezes {
				words = "water freezes"
			}
			p.wrapped("- ", "  ", sentence(fmt.Sprintf("%s: %s; the line stands at %s, the dew point at %s.", nameOf(ix, l.ID), words, warmth(l.Room), point(l.Dew))))
		}
	}
	outletTable(ix, s, warmth, point).write(p)
}

// outletTable lists the air at every outlet, with what its tools want and do not get.
func outletTable(ix *job.Index, s *water.Season, warmth func(unit.Temperature) string, point func(*unit.Temperature) string) table {
	t := table{{"outlet", "pressure dew point", "air", "class", "wants"}}
	for _, o := range s.Outlets {
		var wants []string
		for _, n := range o.Needs {
			if !n.Met {
				wants = append(wants, nameOf(ix, n.Tool)+" wants "+n.Class)
			}
		}
		t = append(t, []string{nameOf(ix, o.ID), point(o.Dew), warmth(o.Air), o.Class, strings.Join(wants, ", ")})
	}
	return t
}
