package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// The most that day is asked for: beyond, a figure was mistyped.
const (
	mostDays  = 100_000
	mostHours = 24
)

// day simulates working days.
func (c *call) day() *cobra.Command {
	var days int
	var hours float64
	var seed uint64
	var trace bool
	cmd := &cobra.Command{
		Use:   "day JOB [--days N] [--hours H] [--seed S]",
		Short: "a working day, or many: compressor, receiver and tools through time",
		Long: `Tools come and go by chance, each for its share of the time and its usual burst, within
the crew and what excludes each other; the receiver fills and falls; the compressors start
and stop. What each tool had, how hard the compressors worked, how low the receiver fell.
The same seed gives the same day. Without --days there are as many as tell each tool's
share of time short of pressure to half a point (95 %), at most 200. Where a day has more
sets of tools than can be solved one by one, the network is solved at moments drawn by
chance, and the page says so. Air is taken as isothermal; leaks are the job's allowance.
Status 1 where a tool goes short for more than the job plans for, a motor starts or runs more
than it bears, or cut-out is never reached.`,
		Example: `  dropleg day shop.json
  dropleg day shop.json --days 200 --seed 7
  dropleg day shop.json --course --json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case days < 1 || days > mostDays:
				return misused("day: read --days %d; wanted 1 to %d", days, mostDays)
			case !(hours > 0 && hours <= mostHours):
				return misused("day: read --hours %v; wanted above 0, up to %d", hours, mostHours)
			}
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			ask := day.Ask{Seed: seed, Days: days, Time: unit.Duration(hours * 3600), Trace: trace, Told: c.daysDone(days), Remedies: true}
			if !cmd.Flags().Changed("days") {
				ask.Within = study.HalfPoint
			}
			a, err := study.Of(j, catalog.Builtin()).Day(contextOf(cmd), ask)
			if err != nil {
				return err
			}
			return c.writeDay(j, a)
		},
	}
	cmd.Flags().IntVar(&days, "days", study.MostDays, "how many days")
	cmd.Flags().Float64Var(&hours, "hours", float64(day.Shift)/3600, "working hours of each")
	cmd.Flags().Uint64Var(&seed, "seed", 1, "another number, other days")
	cmd.Flags().BoolVar(&trace, "course", false, "with --json: every turn of the first day")
	return cmd
}

// daysDone tells on standard error how far many days have come, tenth by tenth.
func (c *call) daysDone(days int) func(int) {
	const few = 200
	if days <= few {
		return nil
	}
	return func(done int) {
		if done*10/days > (done-1)*10/days {
			fmt.Fprintf(c.Err, "%d of %d days\n", done, days)
		}
	}
}

// writeDay writes what came of the days.
func (c *call) writeDay(j *job.Job, a *day.Answer) error {
	if err := c.write(j, a, func(p *paper, system unit.System) { dayPage(p, j, a, system) }); err != nil {
		return err
	}
	if !a.Enough(j.RuleRare().Value) {
		return errShort
	}
	return nil
}

// dayPage is working days as a page of text.
func dayPage(p *paper, j *job.Job, a *day.Answer, system unit.System) {
	ix := job.NewIndex(j)
	air := func(x unit.FreeAir) string { return system.Text(unit.KindFlow, float64(x), unit.Env{}) }
	share := func(x unit.Ratio) string { return fmt.Sprintf("%.1f %%", 100*float64(x)) }
	p.heading(j.Title)
	if a.Untold != "" {
		p.wrapped("", "", "A working day cannot be told: "+a.Untold+".")
		return
	}
	p.wrapped("", "", sentence(fmt.Sprintf("%s of %.3g h, seed %d; %s of air in receivers and open lines.",
		counted(a.Days, "day"), float64(a.Time)/3600, a.Seed, system.Text(unit.KindVolume, float64(a.Volume), unit.Env{}))))
	p.blank()
	t := table{{"compressor", "under load", "bears", "idling", "starts an hour", "bears", "delivers"}}
	for _, k := range a.Compressors {
		row := []string{nameOf(ix, k.ID), share(k.Duty), "", "", fmt.Sprintf("%.1f", k.Starts), "", air(k.Air)}
		if k.DutyMost > 0 {
			row[2] = share(k.DutyMost)
		}
		if k.Idle > 0 {
			row[3] = share(k.Idle)
		}
		if k.Most > 0 {
			row[5] = fmt.Sprintf("%.0f", k.Most)
		}
		t = append(t, row)
	}
	t.write(p)
	p.blank()
	t = table{{"tool", "hours a day", "short of pressure", "mostly with"}}
	for _, k := range a.Tools {
		row := []string{nameOf(ix, k.ID), fmt.Sprintf("%.2f", float64(k.Ran)*float64(a.Time)/3600), "never", ""}
		if k.Short > 0 {
			row[2] = share(k.Short)
			if k.Within > 0 {
				row[2] = fmt.Sprintf("%.1f ± %.1f %%", 100*float64(k.Short), 100*float64(k.Within))
			}
			row[3] = company(ix, k)
		}
		t = append(t, row)
	}
	t.write(p)
	dayWords(p, a, system)
	remedyLines(p, a, system)
}

// dayWords tell how the store stood, and how it was found out.
func dayWords(p *paper, a *day.Answer, system unit.System) {
	air := func(x unit.FreeAir) string { return system.Text(unit.KindFlow, float64(x), unit.Env{}) }
	gauge := func(x unit.GaugePressure) string { return system.Text(unit.KindGauge, float64(x), unit.Env{}) }
	p.blank()
	p.wrapped("", "", fmt.Sprintf("The receiver stood between %s and %s. Tools and leaks (%s at cut-in) took %s on average.",
		gauge(a.Lowest), gauge(a.Highest), air(a.Leak), air(a.Taken)))
	if a.Looked > 0 {
		p.wrapped("", "", fmt.Sprintf("So many sets of tools run here that the network was solved at %d moments drawn by chance. What a set takes between them is what its tools take apart, put right by those moments, which it misses by %.1f %%.",
			a.Looked, 100*float64(a.Off)))
	}
	if !a.Full {
		p.wrapped("", "", "Cut-out was never reached: the compressors cannot catch up with what is taken.")
	}
}

// remedyLines tell what would do, each by itself.
func remedyLines(p *paper, a *day.Answer, system unit.System) {
	if len(a.Remedies) == 0 {
		return
	}
	p.blank()
	p.wrapped("", "", "What would do, each by itself:")
	for _, r := range a.Remedies {
		left := fmt.Sprintf("the worst tool is then short %.1f %% of its time, the motor starts %.1f times an hour", 100*float64(r.Short), r.Starts)
		words := map[day.Lever]string{
			day.MoreStore: "more receiver", day.MoreAir: "more compressor", day.HigherIn: "a higher cut-in",
		}[r.What]
		switch {
		case !r.Does:
			words += " does not: " + left
		case r.What == day.MoreStore:
			words += ": " + system.Text(unit.KindVolume, float64(r.Volume), unit.Env{}) + " in all; " + left
		case r.What == day.MoreAir:
			words += ": " + system.Text(unit.KindFlow, float64(r.Air), unit.Env{}) + " in all; " + left
		default:
			words += ": " + system.Text(unit.KindGauge, float64(r.CutIn), unit.Env{}) + "; " + left + "; no setting goes beyond what the receiver and its relief valve are rated for"
		}
		p.wrapped("- ", "  ", sentence(words+"."))
	}
}

// company names who else ran where a tool went short longest.
func company(ix *job.Index, t day.Tool) string {
	var names []string
	for _, use := range t.Spoilt[0].Running {
		if use.Tool != t.ID {
			names = append(names, nameOf(ix, use.Tool))
		}
	}
	if len(names) == 0 {
		return "nobody: by itself"
	}
	return strings.Join(names, ", ")
}
