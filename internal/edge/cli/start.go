package cli

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/decide/start"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// start makes a first job out of answers.
func (c *call) start() *cobra.Command {
	var file string
	var stands, force bool
	cmd := &cobra.Command{
		Use:   "start ANSWERS [-o JOB]",
		Short: "a whole first plan out of five answers: room, compressor, tools, places, money",
		Long: `Makes a whole first job, as the five questions of the page do: room, plant, outlets, lines laid
and sized. Tells what it comes to and what was assumed, each with the key that says otherwise;
with -o the job is written. ANSWERS is JSON; dropleg schema answers gives its form, dropleg
catalogue machines and tools the words. What is left out is chosen. With --existing everything
is taken as standing: to look for a fault in, or to add to.`,
		Example: `  echo '{"room": {"width_m": 9, "depth_m": 7, "height_m": 3.2, "doors": [{"wall": "south"}]},
    "tools": [{"item": "da-sander-6"}, {"item": "blow-gun", "count": 2}]}' > answers.json
  dropleg start answers.json -o shop.json`,
		Args: words(1, 1, "one file of answers in JSON, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.writeStart(contextOf(cmd), args[0], stands, file, force)
		},
	}
	cmd.Flags().StringVarP(&file, "output", "o", "", "write the job to this file")
	cmd.Flags().BoolVar(&force, "force", false, "write over a file that is there")
	cmd.Flags().BoolVar(&stands, "existing", false, "the shop stands already")
	return cmd
}

// startAnswer is what --json writes.
type startAnswer struct {
	Title       string             `json:"title"`
	Facts       []string           `json:"facts"`
	Assumptions []start.Assumption `json:"assumptions"`
	Written     string             `json:"written,omitempty"`
	Job         *job.Job           `json:"job,omitempty"` // where no file was named for it
}

func (c *call) writeStart(ctx context.Context, word string, stands bool, file string, force bool) error {
	name, data, err := c.read(word)
	if err != nil {
		return err
	}
	answers, bad := start.Parse(data)
	if len(bad) > 0 {
		return &badInput{name, problemsOf(bad, data)}
	}
	if c.units != "" {
		answers.Units = c.units
	}
	made := start.Of
	if stands {
		made = start.Existing
	}
	tell, told := c.doing()
	plan, err := made(ctx, answers, catalog.Builtin(), tell)
	told()
	if err != nil {
		var refusal *job.Refusal
		if errors.As(err, &refusal) {
			return &badInput{name, problemsOf(refusal.Findings, data)}
		}
		return err
	}
	j := plan.Job
	answer := startAnswer{Title: j.Title, Facts: plan.Facts, Assumptions: plan.Assumptions, Written: file}
	if answer.Job, err = handOver(j, file, force); err != nil {
		return err
	}
	err = c.write(j, answer, func(p *paper, _ unit.System) { startPage(p, j.Title, plan) })
	if err == nil && file != "" {
		fmt.Fprintf(c.Err, "wrote %s; what falls short: dropleg check %[1]s; the drawing: dropleg open %[1]s\n", file)
	}
	return err
}

// startPage is a first plan as a page of text.
func startPage(p *paper, title string, plan *start.Plan) {
	p.heading(title)
	for _, f := range plan.Facts {
		p.wrapped("", "", f)
	}
	p.blank()
	p.line("Assumed")
	for _, a := range plan.Assumptions {
		text := a.Words
		if a.Key != "" {
			text += " (" + a.Key + ")"
		}
		p.wrapped("  - ", "    ", text)
	}
}
