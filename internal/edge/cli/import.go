package cli

import (
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
			return c.onDesk(ctx, true, func(d *desk.Desk) error {
				var told error
				for _, file := range args {
					on, err := c.layFile(ctx, d, file)
					var bad *badInput
					switch {
					case errors.As(err, &bad):
						c.tellProblems(bad)
						told = errTold
					case err != nil:
						return err
					default:
						fmt.Fprintf(c.Out, "%s\n", on.id)
						if !on.fresh {
							fmt.Fprintf(c.Err, "dropleg: %s was stored before%s\n", file, on.since())
						}
					}
				}
				return told
			})
		},
	}
}
