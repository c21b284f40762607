package cli

import (
	"github.com/spf13/cobra"

	"dropleg/internal/shop/job"
)

//go:generate go run dropleg/cmd/dropleg schema --force -o ../../../docs/schema/job-1.json

// schema is the form of the job file, for editors and other programs.
func (c *call) schema() *cobra.Command {
	var file string
	var force bool
	cmd := &cobra.Command{
		Use:   "schema [-o FILE]",
		Short: "the JSON Schema of the job file",
		Long: `The form of the job file as JSON Schema 2020-12: its keys, words, types and bounds. An
editor that knows it completes a job file while it is typed.`,
		Example: "  dropleg schema -o job-1.json",
		Args:    words(0, 0, "none"),
		RunE: func(*cobra.Command, []string) error {
			if file != "" {
				return save(file, job.Schema(), force)
			}
			return c.writeAll(job.Schema())
		},
	}
	cmd.Flags().StringVarP(&file, "output", "o", "", "write to this file")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	return cmd
}
