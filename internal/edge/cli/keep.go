package cli

import (
	"bytes"
	"context"
	"time"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// keep lists the upkeep.
func (c *call) keep() *cobra.Command {
	var file, on string
	cmd := &cobra.Command{
		Use:   "keep JOB",
		Short: "upkeep: what is due, what was done, the calendar",
		Long: `What is installed and wants looking after, by calendar or running hours, the next due first; the
log, its cost by year, and how the leak goes by timings of the compressor. Intervals are common
practice: the makers' instructions and the law come first. --ics writes it as a calendar;
dropleg sheets JOB --only upkeep -o DIR puts the year on paper.`,
		Example: `  dropleg keep shop.json
  dropleg keep shop.json --ics upkeep.ics`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			now := time.Now()
			if on != "" {
				at, err := time.ParseInLocation(time.DateOnly, on, time.Local)
				if err != nil {
					return misused("keep: read --on %s; wanted a day such as 2026-11-26", quote(on))
				}
				now = at
			}
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			return c.keepJob(contextOf(cmd), j, file, now)
		},
	}
	cmd.Flags().StringVar(&file, "ics", "", "write the calendar (iCalendar) to this file in place of the list")
	cmd.Flags().StringVar(&on, "on", "", "as of a day, such as 2026-11-26 (default: today)")
	return cmd
}

func (c *call) keepJob(ctx context.Context, j *job.Job, file string, now time.Time) error {
	shop, ask, err := c.shopOf(j)
	if err != nil {
		return err
	}
	ask.Now = now
	if file != "" {
		var b bytes.Buffer
		if err := shop.Calendar(ctx, &b, ask, "file", now); err != nil {
			return err
		}
		return save(file, b.Bytes(), true)
	}
	told, err := shop.Keep(ctx, ask)
	if err != nil {
		return err
	}
	return c.write(j, told, func(p *paper, _ unit.System) { keepPage(p, j.Title, &told) })
}

// keepPage is the upkeep as a page of text.
func keepPage(p *paper, title string, k *screen.Keep) {
	p.heading(title)
	p.wrapped("", "", k.Sentence)
	p.blank()
	t := table{{"due", "what", "where", "every"}}
	for i := range k.Tasks {
		x := &k.Tasks[i]
		t = append(t, []string{x.Due, x.Words, x.Name, x.Every})
	}
	t.write(p)
	p.blank()
	p.wrapped("", "", k.Trend)
	for _, r := range k.Running {
		p.wrapped("", "", r.Name+": "+r.Words+".")
	}
	if k.Cost != "" {
		p.line("Cost: " + k.Cost)
	}
	t = table{{"done", "what", "cost"}}
	for _, l := range k.Log {
		t = append(t, []string{l.When, l.Words, l.Cost})
	}
	listTable(p, t)
	rowsPage(p, "Intervals that are of nothing here", k.Unknown)
	rowsPage(p, "Cautions", k.Cautions)
}
