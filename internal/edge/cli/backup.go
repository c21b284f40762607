package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"time"

	"github.com/spf13/cobra"

	"dropleg/internal/edge/store"
)

// backup copies the whole store to one file.
func (c *call) backup() *cobra.Command {
	return &cobra.Command{
		Use:   "backup [FILE]",
		Short: "copy all jobs with their history to one file",
		Long: `Writes all jobs, with history and pictures, to one file as they stand at one moment, while
work may go on, and checks the copy by opening it. Without FILE it is named by the time
and put here. A file that is there is never written over. To go back to a backup, end the
program and put the file in the place of the store, or name it by DROPLEG_STORE.`,
		Example: "  dropleg backup /media/stick/jobs.db",
		Args:    words(0, 1, "one file, or none"),
		RunE: func(cmd *cobra.Command, args []string) error {
			file := "dropleg-" + time.Now().Format("2006-01-02-150405") + ".db"
			if len(args) == 1 {
				file = args[0]
			}
			s, err := c.openStore(contextOf(cmd), false)
			if err != nil {
				return inWords(err)
			}
			if s == nil {
				return unusable(store.Path(c.Env), "no such file", "a store of jobs: nothing is stored yet")
			}
			err = s.Backup(contextOf(cmd), file)
			if closing := s.Close(); err == nil {
				err = closing
			}
			if errors.Is(err, fs.ErrExist) {
				return misused("%s is there already; a backup never writes over a file", file)
			}
			if err != nil {
				return inWords(err)
			}
			if c.json {
				return c.writeJSON(struct {
					File string `json:"file"`
				}{file})
			}
			fmt.Fprintf(c.Out, "%s\n", file)
			return nil
		},
	}
}
