package cli

import (
	"bytes"
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/engine/document"
	"dropleg/internal/edge/desk"
	"dropleg/internal/edge/server"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// edit makes edits and gestures on a stored job.
func (c *call) edit() *cobra.Command {
	var plan string
	cmd := &cobra.Command{
		Use:   "edit JOB FILE",
		Short: "change a stored job by edits and gestures, one a line",
		Long: `Reads one edit or gesture in JSON per line, from a file or from standard input (-), makes
them one after the other and tells each as it stands in the history. All lines are read
first: where one cannot be understood, nothing is done. Where one does not fit the job,
those before it stay done and those after it are not tried. Their forms: dropleg schema edit and
dropleg schema gesture.`,
		Example: `  echo '{"edit": "set", "id": "line.main-1", "key": "size", "value": "3/4"}' | dropleg edit shop -`,
		Args:    words(2, 2, "a stored job, and a file or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			name, data, err := c.read(args[1])
			if err != nil {
				return err
			}
			steps, bad := readSteps(name, data)
			if bad != nil {
				return bad
			}
			return c.onWork(contextOf(cmd), args[0], func(ctx context.Context, w *desk.Work) error {
				return c.makeSteps(ctx, w, name, job.ID(plan), steps)
			})
		},
	}
	cmd.Flags().StringVar(&plan, "plan", "", "make them in this alternative")
	return cmd
}

// lineStep is a step and the line that it stands on.
type lineStep struct {
	line int
	make server.Maker
}

// readSteps reads every line; blank ones are passed over.
func readSteps(name string, data []byte) ([]lineStep, error) {
	var steps []lineStep
	bad := &badInput{file: name}
	for i, raw := range bytes.Split(data, []byte("\n")) {
		if len(bytes.TrimSpace(raw)) == 0 {
			continue
		}
		make, faults := server.ReadStep(raw)
		for _, p := range problemsOf(faults, nil) {
			p.Line = i + 1
			bad.problems = append(bad.problems, p)
		}
		steps = append(steps, lineStep{i + 1, make})
	}
	if len(steps) == 0 && len(bad.problems) == 0 {
		bad.problems = []document.Problem{{Read: "no line", Want: `an edit or gesture a line, such as {"edit": "set", …}`}}
	}
	if len(bad.problems) > 0 {
		return nil, bad
	}
	return steps, nil
}

// makeSteps makes the steps and tells those that were made, as one list where JSON is asked for.
func (c *call) makeSteps(ctx context.Context, w *desk.Work, name string, plan job.ID, steps []lineStep) error {
	rows := []doneRow{}
	err := c.makeEach(ctx, w, name, plan, steps, func(done desk.Done) error {
		if !c.json {
			return c.tellDone(done)
		}
		rows = append(rows, doneRow{done.Revision, done.Words})
		return unsaved(done)
	})
	if c.json {
		if failed := c.writeJSON(rows); failed != nil {
			return failed
		}
	}
	if err != nil {
		return err
	}
	return c.stillUsable(w, name, plan)
}

func (c *call) makeEach(ctx context.Context, w *desk.Work, name string, plan job.ID, steps []lineStep, tell func(desk.Done) error) error {
	for i, s := range steps {
		now, err := w.Now("")
		if err != nil {
			return err
		}
		done, err := w.Do(ctx, desk.Ask{Base: now.Revision, Plan: plan, By: here, Make: s.make})
		if err != nil {
			if left := len(steps) - i - 1; left > 0 {
				fmt.Fprintf(c.Err, "dropleg: %s after it not tried\n", counted(left, "line"))
			}
			return asRefused(name, s.line, err)
		}
		if err := tell(done); err != nil {
			return err
		}
	}
	return nil
}

// stillUsable tells what keeps the job, as it stands after the steps, from being computed.
func (c *call) stillUsable(w *desk.Work, name string, plan job.ID) error {
	now, err := w.Now(plan)
	if err != nil {
		return err
	}
	found := job.Validate(now.Study.Job(), catalog.Builtin())
	if job.Usable(found) {
		return nil
	}
	c.tellProblems(&badInput{name, problemsOf(found, nil)})
	fmt.Fprintln(c.Err, "dropleg: done, but nothing can be computed of the job as it stands; dropleg undo takes back")
	return errTold
}
