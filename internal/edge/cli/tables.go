package cli

import (
	"bytes"
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/page"
	"dropleg/internal/show/screen"
)

// tables is what a command writes in place of text: its list as CSV, or with those that
// belong to it as a workbook.
type tables struct {
	csv   bool
	xlsx  string
	force bool
}

func (t *tables) flags(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&t.csv, "csv", false, "write the list as CSV, lengths in m")
	cmd.Flags().StringVar(&t.xlsx, "xlsx", "", "write the list into this file as a workbook (XLSX), sums as formulas")
	cmd.Flags().BoolVar(&t.force, "force", false, "with --xlsx: write over a file that is there")
	cmd.MarkFlagsMutuallyExclusive("csv", "xlsx")
}

// write writes the list of a job where it was asked for; done is false where not.
func (t *tables) write(ctx context.Context, c *call, j *job.Job, list string) (done bool, err error) {
	if !t.csv && t.xlsx == "" {
		return false, nil
	}
	shop := screen.On(study.Of(j, catalog.Builtin()), nil)
	var out bytes.Buffer
	if t.csv {
		sheet, err := shop.List(ctx, list)
		if err == nil {
			err = page.WriteCSV(&out, sheet)
		}
		if err != nil {
			return true, err
		}
		return true, c.writeAll(out.Bytes())
	}
	sheets, err := shop.Book(ctx, list)
	if err == nil {
		err = page.WriteXLSX(&out, j.Title, sheets...)
	}
	if err == nil {
		err = save(t.xlsx, out.Bytes(), t.force)
	}
	if err != nil {
		return true, err
	}
	fmt.Fprintf(c.Err, "wrote %s\n", t.xlsx)
	return true, nil
}
