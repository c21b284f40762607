package cli

import (
	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/show/screen"
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
			ctx := contextOf(cmd)
			j, err := c.readJob(ctx, args[0])
			if err != nil {
				return err
			}
			s := study.Of(j, catalog.Builtin())
			a, err := s.Energy(ctx)
			if err != nil {
				return err
			}
			system, err := c.system(j.Site.Units)
			if err != nil {
				return err
			}
			told, err := screen.On(s, nil).Cost(ctx, screen.Ask{System: system})
			if err != nil {
				return err
			}
			return c.write(j, a, func(p *paper, _ unit.System) { costPage(p, j.Title, told) })
		},
	}
}

// costPage is a year as a page of text.
func costPage(p *paper, title string, c screen.Cost) {
	p.heading(title)
	p.wrapped("", "", c.Sentence)
	if c.Untold != "" {
		return
	}
	p.blank()
	t := table{{"a year", ""}}
	for _, f := range c.Facts {
		t = append(t, []string{f.Words, f.Figure})
	}
	t.write(p)
	p.blank()
	t = table{{"compressor", "motor", "a year", "range", "costs"}}
	for _, k := range c.Compressors {
		t = append(t, []string{k.Name, k.Motor, k.Electricity, k.Range, k.Money})
	}
	t.write(p)
	p.blank()
	t = table{{"a leak of", "loses", "a year of work", "", "never shut off", ""}}
	for _, h := range c.Leaks {
		t = append(t, []string{h.Bore, h.Loses, h.Work.Electricity, h.Work.Money, h.Always.Electricity, h.Always.Money})
	}
	t.write(p)
	if len(c.Measures) > 0 {
		p.blank()
		p.wrapped("", "", "What would save, in a year:")
	}
	for _, m := range c.Measures {
		p.wrapped("- ", "  ", m.Words+": "+m.Electricity+comma(m.Money)+", "+m.Share+".")
	}
	p.supposed(c.Notes)
}

// comma sets a word off from what stands before it, where there is one.
func comma(word string) string {
	if word == "" {
		return ""
	}
	return ", " + word
}
