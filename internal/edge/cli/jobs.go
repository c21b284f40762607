package cli

import (
	"time"

	"github.com/spf13/cobra"

	"dropleg/internal/edge/desk"
)

// storedRow is one stored job in --json.
type storedRow struct {
	ID       string `json:"id"`
	Title    string `json:"title"`
	Changed  string `json:"changed"`
	Revision int    `json:"revision"`
	Origin   string `json:"origin,omitempty"`
}

// jobs lists the stored jobs.
func (c *call) jobs() *cobra.Command {
	return &cobra.Command{
		Use:   "jobs",
		Short: "list the stored jobs, the last changed first",
		Long: `Lists the jobs in the store, the last changed first: what the page and all commands that
take JOB know by their names. DROPLEG_STORE names the file that holds them, where it is
not the one in the folder for your data.`,
		Example: "  dropleg jobs",
		Args:    words(0, 0, "none"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return c.onDesk(contextOf(cmd), false, func(d *desk.Desk) error {
				list, err := d.Jobs(contextOf(cmd))
				if err != nil {
					return inWords(err)
				}
				rows := []storedRow{}
				for _, e := range list {
					if !e.Removed {
						rows = append(rows, storedRow{e.ID, e.Title, e.Changed.UTC().Format(time.RFC3339), e.Revision, e.Origin})
					}
				}
				return c.writeJobs(rows)
			})
		},
	}
}

func (c *call) writeJobs(rows []storedRow) error {
	if c.json {
		return c.writeJSON(rows)
	}
	p := c.paper()
	if len(rows) == 0 {
		p.line("No jobs are stored yet: dropleg open FILE stores one, dropleg open makes a new one.")
		return c.writeAll(p.bytes())
	}
	t := table{{"job", "title", "changed", "step"}}
	for _, r := range rows {
		t = append(t, []string{r.ID, r.Title, minute(r.Changed), whole(r.Revision)})
	}
	t.write(p)
	return c.writeAll(p.bytes())
}
