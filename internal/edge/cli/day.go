package cli

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/day"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/show/screen"
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
		Long: `Tools come and go by chance, each for its share of the time and its usual burst, or by their
timetable (hours), within the crew and what excludes each other; the receiver fills and falls;
the compressors start and stop. Told are what each tool had, the compressors' work and the
receiver's lowest. The same seed gives the same day. Without --days as many as tell each tool's
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
			s := study.Of(j, catalog.Builtin())
			a, err := s.Day(contextOf(cmd), ask)
			if err != nil {
				return err
			}
			return c.writeDay(s, a)
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
func (c *call) writeDay(s *study.Study, a *day.Answer) error {
	j := s.Job()
	err := c.write(j, a, func(p *paper, system unit.System) {
		if told, err := daysTold(s, a, system); err == nil {
			dayPage(p, j.Title, told)
		}
	})
	if err != nil {
		return err
	}
	if !a.Enough(j.RuleRare().Value) {
		return errShort
	}
	return nil
}

// daysTold puts days into words. They are at hand and their words take no time worth ending:
// an error cannot come.
func daysTold(s *study.Study, a *day.Answer, system unit.System) (screen.Steady, error) {
	return screen.On(s, nil).Days(context.Background(), screen.Ask{System: system}, a)
}

// toolsTable lists how often each tool goes short, worst off first.
func toolsTable(told screen.Steady) table {
	t := table{{"tool", "a day", "short of pressure", "of that"}}
	for _, k := range told.Tools {
		row := []string{k.Name, k.Hours, k.Short, ""}
		if len(k.Beside) > 0 {
			row[3] = strings.Replace(k.Beside[0], " of it", "", 1)
		}
		t = append(t, row)
	}
	return t
}

// dayPage is working days as a page of text.
func dayPage(p *paper, title string, told screen.Steady) {
	p.heading(title)
	p.wrapped("", "", told.Sentence)
	if told.Known == "" {
		return
	}
	p.wrapped("", "", told.Known)
	p.blank()
	for _, k := range told.Compressors {
		facts := make([]string, 0, len(k.Facts))
		for _, f := range k.Facts {
			facts = append(facts, strings.ToLower(f.Words[:1])+f.Words[1:]+" "+f.Figure)
		}
		p.wrapped("", "  ", k.Name+": "+strings.Join(facts, "; ")+".")
	}
	p.blank()
	toolsTable(told).write(p)
	p.blank()
	for _, f := range told.Facts {
		p.wrapped("", "", f.Words+" "+f.Figure+".")
	}
	for _, n := range told.Notes {
		p.wrapped("", "", n)
	}
	if len(told.Remedies) > 0 {
		p.blank()
		p.wrapped("", "", "What would do, each by itself:")
	}
	for _, r := range told.Remedies {
		p.wrapped("- ", "  ", r.Words)
	}
}
