package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/engine/document"
	"dropleg/engine/unit"
	"dropleg/internal/shop/example"
)

// exampleRow is one example in the list of --json.
type exampleRow struct {
	Name  string `json:"name"`
	Title string `json:"title"`
}

// example lists or writes the built-in examples.
func (c *call) example() *cobra.Command {
	var file string
	var force bool
	cmd := &cobra.Command{
		Use:   "example [NAME] [-o JOB]",
		Short: "list the built-in examples, or write one",
		Long: `Without NAME it lists the examples. With NAME it writes that job to standard output, or
to a file with -o; a file that is there stays unless --force is given.`,
		Example: `  dropleg example
  dropleg example boat-shop -o mine.json`,
		Args:              words(0, 1, "the name of one example, or none for a list"),
		ValidArgsFunction: exampleWords,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				if file != "" {
					return misused("example: read -o without the name of an example; wanted a name such as %s", exampleNames()[0])
				}
				return c.listExamples()
			}
			text, err := exampleText(args[0])
			if err != nil {
				return err
			}
			if file == "" {
				return c.writeAll(text)
			}
			if err := save(file, text, force); err != nil {
				return err
			}
			fmt.Fprintf(c.Err, "wrote %s; see it with: dropleg open %s\n", file, file)
			return nil
		},
	}
	cmd.Flags().StringVarP(&file, "output", "o", "", "write to this file")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	return cmd
}

func (c *call) listExamples() error {
	if c.json {
		rows := []exampleRow{}
		for _, e := range example.All() {
			rows = append(rows, exampleRow{e.Name, e.Title})
		}
		return c.writeJSON(rows)
	}
	p := c.paper()
	wide := 0
	for _, e := range example.All() {
		wide = max(wide, width(e.Name))
	}
	for _, e := range example.All() {
		p.wrapped("  "+pad(e.Name, wide+2), "  "+pad("", wide+2), e.Title)
	}
	return c.writeAll(p.bytes())
}

// exampleText is the job file of an example, or what was wrong with its name.
func exampleText(name string) ([]byte, error) {
	text, ok := example.Read(name)
	if !ok {
		return nil, &badInput{"example", []document.Problem{{
			Read: quote(name), Want: "one of " + listed(exampleNames()), Nearest: unit.Nearest(name, exampleNames()),
		}}}
	}
	return text, nil
}

func exampleNames() []string {
	var names []string
	for _, e := range example.All() {
		names = append(names, e.Name)
	}
	return names
}

func exampleWords(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var words []string
	for _, e := range example.All() {
		words = append(words, e.Name+"\t"+e.Title)
	}
	return words, cobra.ShellCompDirectiveNoFileComp
}
