package cli

import (
	"context"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"dropleg/internal/edge/desk"
	"dropleg/internal/edge/store"
)

// historyRow is one step in --json.
type historyRow struct {
	Revision int    `json:"revision"`
	When     string `json:"when"`
	By       string `json:"by,omitempty"`
	Plan     string `json:"plan,omitempty"`
	Kind     string `json:"kind"`
	Of       int    `json:"of,omitempty"`
	Words    string `json:"words"`
}

// history tells what was done on a stored job.
func (c *call) history() *cobra.Command {
	var most int
	cmd := &cobra.Command{
		Use:     "history JOB",
		Short:   "what was done on a stored job, newest first",
		Long:    "Tells the steps of a job, newest first: number, time, who, and what.",
		Example: "  dropleg history alder-lane-joinery --most 20",
		Args:    words(1, 1, "one stored job"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if most < 0 {
				return misused("history: read --most %d; wanted a number of steps, or 0 for all", most)
			}
			return c.onWork(contextOf(cmd), args[0], func(ctx context.Context, w *desk.Work) error {
				steps, err := w.History(ctx, 0, most)
				if err != nil {
					return inWords(err)
				}
				return c.writeHistory(steps)
			})
		},
	}
	cmd.Flags().IntVar(&most, "most", 0, "tell no more than so many steps (0: all)")
	return cmd
}

// onWork runs f on a stored job.
func (c *call) onWork(ctx context.Context, word string, f func(context.Context, *desk.Work) error) error {
	return c.onDesk(ctx, false, func(d *desk.Desk) error {
		e, err := find(ctx, d, word)
		if err != nil {
			return err
		}
		w, err := d.Work(ctx, e.ID)
		if err != nil {
			return inWords(err)
		}
		return f(ctx, w)
	})
}

func (c *call) writeHistory(steps []store.Step) error {
	rows := []historyRow{}
	for _, s := range steps {
		rows = append(rows, historyRow{s.Revision, s.When.UTC().Format(time.RFC3339), s.By, s.Plan, s.Kind, s.Of, s.Words})
	}
	if c.json {
		return c.writeJSON(rows)
	}
	p := c.paper()
	if len(rows) == 0 {
		p.line("Nothing was done on this job yet.")
		return c.writeAll(p.bytes())
	}
	t := table{{"step", "when", "who", "what"}}
	for _, r := range rows {
		words := r.Words
		if r.Plan != "" {
			words = "[" + r.Plan + "] " + words
		}
		t = append(t, []string{whole(r.Revision), minute(r.When), r.By, words})
	}
	t.write(p)
	return c.writeAll(p.bytes())
}

func whole(n int) string { return strconv.Itoa(n) }

// minute is a time (RFC 3339) as people read it, where they are.
func minute(rfc3339 string) string {
	t, err := time.Parse(time.RFC3339, rfc3339)
	if err != nil {
		return rfc3339
	}
	return t.Local().Format("2006-01-02 15:04")
}
