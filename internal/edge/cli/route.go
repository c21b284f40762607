package cli

import (
	"context"
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"dropleg/engine/num/steiner"
	"dropleg/internal/decide/route"
)

// routeBare answers a bare graph; ok is false where the file is none.
func (c *call) routeBare(ctx context.Context, word string, limit time.Duration) (ok bool, err error) {
	if !isFile(word) {
		return false, nil
	}
	var q route.Instance
	name, ok, err := c.bare(word, &q, "edges", "terminals")
	if !ok || err != nil {
		return ok, err
	}
	limited, stop := context.WithTimeout(ctx, limit)
	defer stop()
	a, err := q.Solve(limited, c.best("length"))
	switch {
	case err == nil:
		return true, c.writeJSON(a)
	case errors.Is(err, context.DeadlineExceeded) || errors.Is(err, context.Canceled):
		return true, fmt.Errorf("no tree within %v: %w", limit, err)
	case errors.Is(err, steiner.ErrProblem):
		return true, unusable(name, err.Error(), "nodes 0 to nodes−1, edges between them, terminals among them")
	}
	return true, unusable(name, err.Error(), "edges [node, node, length] that lead to every terminal")
}

// onTerminal says whether standard error is one: progress is for people who look on.
func (c *call) onTerminal() bool {
	f, ok := c.Err.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// best tells on a terminal the best so far and what nothing goes below.
func (c *call) best(what string) func(best, bound float64) {
	if !c.onTerminal() {
		return nil
	}
	return func(best, bound float64) {
		fmt.Fprintf(c.Err, "\r%s %.4g, not below %.4g   ", what, best, bound)
	}
}

// route lays the lines.
func (c *call) route() *cobra.Command {
	var limit time.Duration
	cmd := &cobra.Command{
		Use:   "route INSTANCE",
		Short: "where lines run: the least tree of a graph",
		Long: `A file with the keys edges and terminals is answered as it stands: the least tree that joins
the terminals, with proof or with what no tree goes below.`,
		Args: words(1, 1, "one instance"),
		RunE: func(cmd *cobra.Command, args []string) error {
			ok, err := c.routeBare(contextOf(cmd), args[0], limit)
			if err != nil || ok {
				return err
			}
			return unusable(args[0], "no instance", "a file with the keys edges and terminals")
		},
	}
	cmd.Flags().DurationVar(&limit, "limit", bareLimit, "the best so far after this time")
	return cmd
}
