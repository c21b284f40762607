package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/energy"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// cost tells what the air costs to run.
func (c *call) cost() *cobra.Command {
	return &cobra.Command{
		Use:   "cost JOB",
		Short: "a year's electricity: compressors, leaks, pressure, and what would save",
		Long: `By working days as 'day' tells them: what the compressors take in a year, what leaks cost by
their bore, and what each measure would save. Money is told where the job states the price of
electricity (site.electricity_per_kWh). What the job does not state is named with its range.`,
		Example: `  dropleg cost shop.json
  dropleg cost shop.json --json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			a, err := study.Of(j, catalog.Builtin()).Energy(contextOf(cmd))
			if err != nil {
				return err
			}
			return c.write(j, a, func(p *paper, system unit.System) { costPage(p, j, a, system) })
		},
	}
}

// costPage is a year as a page of text.
func costPage(p *paper, j *job.Job, a *energy.Answer, system unit.System) {
	ix := job.NewIndex(j)
	p.heading(j.Title)
	if a.Untold != "" {
		p.wrapped("", "", "A year cannot be told: "+a.Untold+".")
		return
	}
	p.wrapped("", "", fmt.Sprintf("%.0f hours a year: %s (%s to %s), %.3f kWh for each cubic metre of free air.",
		a.Hours, yearly(a, a.All), electricity(a.All.Low), electricity(a.All.High), a.Specific/3.6e6))
	p.blank()
	t := table{{"compressor", "motor", "a year"}}
	for _, k := range a.Machines {
		motor := fmt.Sprintf("%.3g kW", float64(k.Power)/1e3)
		if k.Supposed {
			motor += ", supposed"
		}
		t = append(t, []string{nameOf(ix, k.ID), motor, yearly(a, k.Sum)})
	}
	t.write(p)
	p.blank()
	t = table{{"a leak of", "loses", "a year of work", "never shut off"}}
	for _, h := range a.Holes {
		t = append(t, []string{
			system.Text(unit.KindLength, float64(h.Bore), unit.Env{}), system.Text(unit.KindFlow, float64(h.Air), unit.Env{}),
			yearly(a, h.Work), yearly(a, h.All),
		})
	}
	t.write(p)
	p.blank()
	p.wrapped("", "", "What would save, in a year:")
	for _, m := range a.Measures {
		words := m.Words
		if m.Tool != "" {
			words = nameOf(ix, m.Tool) + ": " + words
		}
		p.wrapped("- ", "  ", sentence(fmt.Sprintf("%s: %s, %.1f %% of it.", words, yearly(a, m.Saves), 100*m.Share)))
	}
	p.supposed(a.Supposed)
}

func electricity(e unit.Energy) string { return fmt.Sprintf("%.0f kWh", float64(e)/3.6e6) }

// yearly is electricity and what it costs.
func yearly(a *energy.Answer, s energy.Sum) string {
	if s.Money == nil {
		return electricity(s.Energy)
	}
	return fmt.Sprintf("%s, %.0f %s", electricity(s.Energy), *s.Money, a.Currency)
}
