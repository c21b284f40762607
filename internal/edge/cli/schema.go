package cli

import (
	"github.com/spf13/cobra"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/decide/start"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
)

//go:generate go run dropleg/cmd/dropleg schema --force -o ../../../docs/schema/job-1.json

// forms are the documents that people write, the first where none is named.
func forms() (names []string, text map[string]func() []byte) {
	return []string{"job", "answers", "edit", "gesture"},
		map[string]func() []byte{"job": job.Schema, "answers": start.Schema, "edit": job.EditSchema, "gesture": fit.Schema}
}

// schema is the form of what people write, for editors and other programs.
func (c *call) schema() *cobra.Command {
	var file string
	var force bool
	names, text := forms()
	cmd := &cobra.Command{
		Use:   "schema [job|answers|edit|gesture] [-o FILE]",
		Short: "the JSON Schema of the job file, of answers to start from, of edits and gestures",
		Long: `The form of the job file as JSON Schema 2020-12: its keys, words, types and bounds. An
editor that knows it completes a job file while it is typed. Answers are what dropleg start
reads; a line of dropleg edit is an edit or a gesture.`,
		Example:   "  dropleg schema -o job-1.json\n  dropleg schema gesture",
		Args:      words(0, 1, "one of "+listed(names)),
		ValidArgs: names,
		RunE: func(_ *cobra.Command, args []string) error {
			word := names[0]
			if len(args) > 0 {
				word = args[0]
			}
			write, ok := text[word]
			if !ok {
				return &badInput{"schema", []document.Problem{{Read: quote(word), Want: "one of " + listed(names), Nearest: unit.Nearest(word, names)}}}
			}
			if file != "" {
				return save(file, write(), force)
			}
			return c.writeAll(write())
		},
	}
	cmd.Flags().StringVarP(&file, "output", "o", "", "write to this file")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	return cmd
}
