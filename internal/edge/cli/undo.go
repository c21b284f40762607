package cli

import (
	"context"
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"dropleg/internal/edge/desk"
	"dropleg/internal/shop/job"
)

// here signs the steps that are made on the command line.
const here = "command line"

// undo takes back what was done last on a stored job.
func (c *call) undo() *cobra.Command {
	return c.step("undo JOB", "take back what was done last on a stored job",
		"Takes back the newest step that still stands, whoever made it, and tells what it was.",
		func(ctx context.Context, w *desk.Work) (desk.Done, error) { return w.Undo(ctx, "", here, "") })
}

// redo does again what was taken back last.
func (c *call) redo() *cobra.Command {
	return c.step("redo JOB", "do again what was taken back last on a stored job",
		"Does again what was taken back last, as long as nothing else was done since.",
		func(ctx context.Context, w *desk.Work) (desk.Done, error) { return w.Redo(ctx, "", here, "") })
}

// step is a command that makes one step and tells it.
func (c *call) step(use, short, long string, do func(context.Context, *desk.Work) (desk.Done, error)) *cobra.Command {
	return &cobra.Command{
		Use: use, Short: short, Long: long,
		Args: words(1, 1, "one stored job"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.onWork(contextOf(cmd), args[0], func(ctx context.Context, w *desk.Work) error {
				done, err := do(ctx, w)
				switch {
				case errors.Is(err, desk.ErrNothingToUndo), errors.Is(err, desk.ErrNothingToRedo):
					return misused("%s: %v", args[0], err)
				case err != nil:
					return asRefused(args[0], 0, err)
				}
				return c.tellDone(done)
			})
		},
	}
}

// doneRow is a step that was made, as --json writes it.
type doneRow struct {
	Revision int    `json:"revision"`
	Words    string `json:"words"`
}

// tellDone tells a step that was made, and that it is not saved where it is not.
func (c *call) tellDone(done desk.Done) error {
	if c.json {
		if err := c.writeJSON(doneRow{done.Revision, done.Words}); err != nil {
			return err
		}
		return unsaved(done)
	}
	fmt.Fprintf(c.Out, "%d  %s\n", done.Revision, done.Words)
	return unsaved(done)
}

func unsaved(done desk.Done) error {
	if !done.Saved {
		return fmt.Errorf("this could not be saved: %s", done.Trouble)
	}
	return nil
}

// asRefused turns a refusal of a step into its problems, with the line of the input
// that it came from.
func asRefused(name string, line int, err error) error {
	var refusal *job.Refusal
	if !errors.As(err, &refusal) {
		return inWords(err)
	}
	bad := &badInput{file: name}
	for _, p := range problemsOf(refusal.Findings, nil) {
		p.Line = line
		bad.problems = append(bad.problems, p)
	}
	return bad
}
