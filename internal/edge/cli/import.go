package cli

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/internal/edge/desk"
)

// imports puts files into the store.
func (c *call) imports() *cobra.Command {
	return &cobra.Command{
		Use:   "import FILE…",
		Short: "put job files into the store",
		Long: `Makes a stored job of each file: JSON, or an archive with pictures as dropleg export
writes it. A file that was stored before is not stored twice: where it has changed since,
the stored job changes, as one step that can be undone. The files stay as they are.`,
		Example: "  dropleg import shop.json shed.json",
		Args:    words(1, -1, "one job file or more"),
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := contextOf(cmd)
			return c.onDesk(ctx, true, func(d *desk.Desk) error { return c.importFiles(ctx, d, args) })
		},
	}
}

// importRow is a file that was stored, as --json writes it.
type importRow struct {
	ID     string `json:"id"`
	File   string `json:"file"`
	Before bool   `json:"before"` // it was stored before
}

// importFiles stores files one after the other and tells what each is called now.
func (c *call) importFiles(ctx context.Context, d *desk.Desk, files []string) error {
	var told error
	rows := []importRow{}
	for _, file := range files {
		on, err := c.layFile(ctx, d, file)
		var bad *badInput
		if errors.As(err, &bad) {
			c.tellProblems(bad)
			told = errTold
			continue
		}
		if err != nil {
			told = err
			break // those before are stored, and told
		}
		rows = append(rows, importRow{on.id, file, !on.fresh})
		if !c.json {
			fmt.Fprintf(c.Out, "%s\n", on.id)
		}
		if !on.fresh {
			fmt.Fprintf(c.Err, "dropleg: %s was stored before%s\n", file, on.since())
		}
	}
	if c.json {
		if err := c.writeJSON(rows); err != nil {
			return err
		}
	}
	return told
}
