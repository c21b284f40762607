package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/demand"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
)

// demandAnswer is the document of demand.
type demandAnswer struct {
	Title  string         `json:"title"`
	Demand *demand.Answer `json:"demand"`
	// Days are what the chance of enough pressure was counted over.
	Days *day.Answer `json:"days"`
}

// demand tells who runs together and how often each has its pressure.
func (c *call) demand() *cobra.Command {
	var days int
	cmd := &cobra.Command{
		Use:   "demand JOB [--days N]",
		Short: "who runs together, and how often each tool has its pressure",
		Long: `How many tools run at once and what they take, as exact chances from each tool's share of
the time, within the crew and what excludes each other. Beside each tool: the share of its
running time with at least the pressure it needs, counted over simulated days with the
receiver's pressure as it was at each moment, and who ran beside it where it had not.
Status 1 where a tool goes short for more than the job plans for. A file that has tools with
flow_L_min and share and no shop around them is answered as it stands.`,
		Example: `  dropleg demand shop.json
  dropleg demand shop.json --days 200 --json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if days < 1 || days > mostDays {
				return misused("demand: read --days %d; wanted 1 to %d", days, mostDays)
			}
			if ok, err := c.demandOf(args[0]); ok || err != nil {
				return err
			}
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			s := study.Of(j, catalog.Builtin())
			d, err := s.Demand(contextOf(cmd))
			if err != nil {
				return err
			}
			a, err := s.Day(contextOf(cmd), day.Ask{Seed: 1, Days: days, Told: c.daysDone(days)})
			if err != nil {
				return err
			}
			return c.writeDemand(s, d, a)
		},
	}
	cmd.Flags().IntVar(&days, "days", 20, "over how many days of 8 h pressure is counted")
	return cmd
}

func (c *call) writeDemand(st *study.Study, d *demand.Answer, a *day.Answer) error {
	j := st.Job()
	if err := c.write(j, demandAnswer{j.Title, d, a}, func(p *paper, system unit.System) { demandPage(p, st, d, a, system) }); err != nil {
		return err
	}
	for _, t := range a.Tools {
		if t.Short > j.RuleRare().Value {
			return errShort
		}
	}
	return nil
}

// demandPage is demand as a page of text.
func demandPage(p *paper, st *study.Study, d *demand.Answer, a *day.Answer, system unit.System) {
	air := func(x unit.FreeAir) string { return system.Text(unit.KindFlow, float64(x), unit.Env{}) }
	p.heading(st.Job().Title)
	if len(d.Chance) < 2 {
		p.wrapped("", "", "No tool is used at an outlet yet.")
		return
	}
	if d.Crew > 0 {
		p.wrapped("", "", fmt.Sprintf("A crew of %d: no more tools than that run at once.", d.Crew))
	}
	if d.Cut < 1 {
		p.wrapped("", "", fmt.Sprintf("The crew has not the hands for all that is said to run: every share counts for %.0f %% of itself.", 100*d.Cut))
	}
	p.blank()
	t := table{{"at once", "of the time", "more than that"}}
	more := 1.0
	for n, chance := range d.Chance {
		if more -= chance; chance >= 5e-5 {
			t = append(t, []string{fmt.Sprint(n), percent(chance), percent(max(0, more))})
		}
	}
	t.write(p)
	p.blank()
	p.wrapped("", "", fmt.Sprintf("They take %s on average; all at once it would be %s. Not more than", air(d.Mean), air(d.All)))
	t = table{{"for", "of flow"}}
	for _, l := range d.Levels {
		t = append(t, []string{percent(l.Share) + " of the time", air(l.Flow)})
	}
	t.write(p)
	p.blank()
	if a.Untold != "" {
		p.wrapped("", "", "How often each has its pressure cannot be told: "+a.Untold+".")
		return
	}
	if told, err := daysTold(st, a, system); err == nil {
		toolsTable(told).write(p)
		p.wrapped("", "", told.Known)
	}
}

// percent is a chance with the digits that say something.
func percent(chance float64) string {
	if chance > 0.999 || chance < 0.01 {
		return fmt.Sprintf("%.2f %%", 100*chance)
	}
	return fmt.Sprintf("%.1f %%", 100*chance)
}
