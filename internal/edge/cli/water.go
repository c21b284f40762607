package cli

import (
	"context"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/answer/water"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/show/screen"
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
				ask.Humidity = new(unit.Ratio(humidity))
			}
			if cmd.Flags().Changed("purge") {
				if !(purge >= 0 && purge < 1) {
					return misused("water: read --purge %g; wanted 0 up to less than 1", purge)
				}
				ask.Purge = new(unit.Ratio(purge))
			}
			return c.writeWater(contextOf(cmd), args[0], ask)
		},
	}
	cmd.Flags().Float64Var(&ask.Hours, "hours", 0, "hours worked a day (default: a fifth of the job's week, else 8)")
	cmd.Flags().Float64Var(&humidity, "humidity", 0, "relative humidity outside, 0 to 1 (default: the job's; 0.85 in the cold)")
	cmd.Flags().Float64Var(&purge, "purge", 0, "share of its rated flow that a bed blows off to dry itself (default 0.15)")
	return cmd
}

// writeWater follows the water of a job and writes what becomes of it.
func (c *call) writeWater(ctx context.Context, name string, ask water.Ask) error {
	j, err := c.readJob(ctx, name)
	if err != nil {
		return err
	}
	st := study.Of(j, catalog.Builtin())
	a, err := st.Water(ctx, ask)
	if err != nil {
		return err
	}
	system, err := c.system(j.Site.Units)
	if err != nil {
		return err
	}
	told, err := screen.On(st, nil).WaterOf(ctx, screen.Ask{System: system}, a)
	if err != nil {
		return err
	}
	return c.write(j, a, func(p *paper, _ unit.System) { waterPage(p, j.Title, told) })
}

// waterPage is the water of a shop as a page of text.
func waterPage(p *paper, title string, w screen.Water) {
	p.heading(title)
	p.wrapped("", "", w.Sentence)
	if len(w.Facts) > 0 {
		p.blank()
	}
	for _, f := range w.Facts {
		p.line(f.Words + ": " + f.Figure)
	}
	for i := range w.Seasons {
		p.blank()
		seasonPage(p, &w.Seasons[i])
	}
	if w.Unclaimed != "" {
		p.blank()
		p.wrapped("", "", w.Unclaimed)
	}
	p.supposed(w.Notes)
}

func seasonPage(p *paper, s *screen.WaterSeason) {
	p.wrapped("", "", s.Sentence)
	t := table{{"gathers at", "a day", "range", "how it leaves"}}
	for _, g := range s.Places {
		how := g.How
		if g.Freezes {
			how += "; it freezes"
		}
		t = append(t, []string{g.Name, g.Figure, g.Range, how})
	}
	listTable(p, t)
	if len(s.Dryers) > 0 {
		p.blank()
	}
	for _, d := range s.Dryers {
		p.wrapped("- ", "  ", sentence(d.Name+": "+d.Words+"."))
	}
	t = table{{"line", "stands at", "dew point", "falls a day", ""}}
	for _, l := range s.Lines {
		what := "water collects"
		if l.Freezes {
			what = "water freezes"
		}
		t = append(t, []string{l.Name, l.Stands, l.Dew, l.Falls, what})
	}
	listTable(p, t)
	t = table{{"outlet", "dew point", "air", "particles:water:oil", ""}}
	for _, o := range s.Outlets {
		words := ""
		if o.State == screen.Short {
			words = o.Words
		}
		t = append(t, []string{o.Name + " (" + o.Mark + ")", o.Dew, o.Air, o.Purity, words})
	}
	listTable(p, t)
}

// listTable writes a table that has more than its head, set apart.
func listTable(p *paper, t table) {
	if len(t) > 1 {
		p.blank()
		t.write(p)
	}
}
