package cli

import (
	"bytes"
	"context"

	"github.com/spf13/cobra"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

// tables is what a command writes in place of text: its list as CSV.
type tables struct{ csv bool }

func (t *tables) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&t.csv, "csv", false, "write the list as CSV, lengths in m")
}

// write writes the list of a job where it was asked for; done is false where not.
func (t *tables) write(ctx context.Context, c *call, j *job.Job, list string) (done bool, err error) {
	if !t.csv {
		return false, nil
	}
	sheet, err := screen.On(study.Of(j, catalog.Builtin()), nil).List(ctx, list)
	if err != nil {
		return true, err
	}
	var out bytes.Buffer
	if err := page.WriteCSV(&out, sheet); err != nil {
		return true, err
	}
	return true, c.writeAll(out.Bytes())
}
