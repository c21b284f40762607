package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/show/screen"
)

// build lists the order of work.
func (c *call) build() *cobra.Command {
	var all bool
	cmd := &cobra.Command{
		Use:   "build JOB",
		Short: "the order of work: next cut, next joint, marks, what to test before it is hidden",
		Long: `Supports, mains, drops, plant: each step in its order with cut lengths, joints and marks on the
walls, ticked off by the records; lines that get hidden wait until their joints were found tight.
Without --all what is done is left out. On paper: dropleg sheets JOB --only order,cuts,walls -o DIR.`,
		Example: "  dropleg build shop.json",
		Args:    words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			shop, ask, err := c.shopOf(j)
			if err != nil {
				return err
			}
			told, err := shop.Build(contextOf(cmd), ask)
			if err != nil {
				return err
			}
			return c.write(j, told, func(p *paper, _ unit.System) { buildPage(p, j.Title, &told, all) })
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "with what is done")
	return cmd
}

// buildPage is the order of work as a page of text.
func buildPage(p *paper, title string, b *screen.Build, all bool) {
	p.heading(title)
	p.wrapped("", "", b.Sentence)
	for _, stage := range b.Progress {
		p.blank()
		p.heading(fmt.Sprintf("%s, %d of %d", stage.Words, stage.Done, stage.All))
		for i := range b.Steps {
			s := &b.Steps[i]
			if s.Stage != stage.Stage || s.Done && !all {
				continue
			}
			mark := "[ ] "
			if s.Done {
				mark = "[x] "
			}
			text := s.Words
			switch s.What {
			case "cut":
				text = "cut " + s.Figure + ": " + text
			case "join":
				text = "joint " + s.Figure + ": " + text
			}
			if s.Waits != "" {
				text += "; waits: " + s.Waits
			}
			p.wrapped(mark, "    ", text)
		}
	}
	rowsPage(p, "Cautions", b.Cautions)
}
