package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/internal/edge/desk"
	"dropleg/internal/edge/server"
)

// export writes a stored job as a file.
func (c *call) export() *cobra.Command {
	var file string
	var force bool
	cmd := &cobra.Command{
		Use:   "export JOB [-o FILE]",
		Short: "write a stored job as a file",
		Long: `Writes the job as it stands to standard output, or to a file with -o: JSON, or an archive
(ZIP) where the job has pictures. Nothing is lost on the way out and in again but the
history, which a backup keeps. A file that is there stays unless --force is given.`,
		Example: "  dropleg export alder-lane-joinery -o joinery.json",
		Args:    words(1, 1, "one job"),
		RunE: func(cmd *cobra.Command, args []string) error {
			data, err := c.exported(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			if file == "" {
				return c.writeAll(data)
			}
			if err := save(file, data, force); err != nil {
				return err
			}
			what := ""
			if server.IsArchive(data) {
				what = ", an archive (ZIP): the job has pictures"
			}
			fmt.Fprintf(c.Err, "wrote %s%s\n", file, what)
			return nil
		},
	}
	cmd.Flags().StringVarP(&file, "output", "o", "", "write to this file")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	return cmd
}

func (c *call) exported(ctx context.Context, word string) (data []byte, err error) {
	err = c.onDesk(ctx, false, func(d *desk.Desk) error {
		e, err := find(ctx, d, word)
		if err != nil {
			return err
		}
		_, _, data, err = server.Export(ctx, d, e.ID)
		return inWords(err)
	})
	return data, err
}
