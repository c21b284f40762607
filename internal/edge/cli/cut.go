package cli

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/cut"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// cut is the cutting of the lines.
func (c *call) cut() *cobra.Command {
	var lists tables
	var limit time.Duration
	cmd := &cobra.Command{
		Use:   "cut JOB|INSTANCE",
		Short: "which piece comes out of which stick or coil, and what is left",
		Long: `The pieces of every line with their take-outs off, cut from the lengths that the job's offers
have, at the least money; without prices from those that the stock is usually sold in, with the
least of it. Open ends worth keeping have a name. A file with the keys stocks and pieces is
answered as it stands. Status 1 where a piece comes out of no length.`,
		Example: "  dropleg cut shop.json",
		Args:    words(1, 1, "one job or instance: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := contextOf(cmd)
			if ok, err := c.cutBare(ctx, args[0], limit); ok || err != nil {
				return err
			}
			j, a, err := c.purchase(ctx, args[0])
			if err != nil {
				return err
			}
			if done, err := lists.write(ctx, c, j, screen.CutList); done || err != nil {
				return err
			}
			if err := c.write(j, a.Plans, func(p *paper, system unit.System) { cutPage(p, j, a, system) }); err != nil {
				return err
			}
			for i := range a.Plans {
				if a.Plans[i].Untold != "" {
					return errShort
				}
			}
			return nil
		},
	}
	lists.flags(cmd)
	cmd.Flags().DurationVar(&limit, "limit", bareLimit, "of an instance: the best so far after this time")
	return cmd
}

// joinedPage tells of the piece that may as well be made of two ends.
func joinedPage(p *paper, x *purchase.Plan, system unit.System) {
	if k := x.Join; k != nil {
		p.wrapped("  ", "  ", fmt.Sprintf("Or a coupling (%s) in %s, of %s and %s: saves %s.", k.Coupling, k.Piece, system.Marked(k.Ends[0]), system.Marked(k.Ends[1]), k.Saves))
	}
}

// cutBare answers a bare cutting; ok is false where the file is none.
func (c *call) cutBare(ctx context.Context, word string, limit time.Duration) (ok bool, err error) {
	if !isFile(word) {
		return false, nil
	}
	ctx, stop := context.WithTimeout(ctx, limit)
	defer stop()
	var q cut.Instance
	name, ok, err := c.bare(word, &q, "stocks", "pieces")
	if !ok || err != nil {
		return ok, err
	}
	question, err := q.Question()
	if err != nil {
		return true, unusable(name, err.Error(), "lengths in mm to a tenth, prices in hundredths")
	}
	plan, err := cut.Solve(ctx, question, nil)
	var value *cut.ValueError
	var long *cut.TooLongError
	var few *cut.NotEnoughError
	if errors.As(err, &value) || errors.As(err, &long) || errors.As(err, &few) {
		return true, unusable(name, err.Error(), "pieces that come out of the lengths given")
	}
	if err != nil {
		return true, err
	}
	return true, c.writeJSON(plan.Answer(q.Title, question))
}

// cutPage is the cuts by stock, a line for each length.
func cutPage(p *paper, j *job.Job, a *purchase.Answer, system unit.System) {
	p.heading(j.Title)
	ix := job.NewIndex(j)
	for i := range a.Plans {
		x := &a.Plans[i]
		p.blank()
		p.line(x.Words)
		if x.Untold != "" {
			p.wrapped("  ", "  ", sentence(x.Untold+"."))
			for _, words := range screen.JointsToGoIn(x, system, func(id job.ID) string { return described(ix, catalog.Builtin(), id) }) {
				p.wrapped("    ", "      ", words)
			}
			joinedPage(p, x, system)
			continue
		}
		for n, b := range x.Bars {
			var cuts []string
			for _, k := range b.Cuts {
				cuts = append(cuts, system.Marked(k.Length))
			}
			from := ""
			if b.From != "bought" {
				from = ", " + b.From
			}
			head := fmt.Sprintf("%3d  %s%s: ", n+1, system.Listed(b.Length), from)
			tail := "; left " + system.Marked(b.Open)
			if b.Name != "" {
				tail += ", kept as " + b.Name
			}
			p.wrapped("  "+head, pad("", 7), strings.Join(cuts, " + ")+tail)
		}
		proof := "the cheapest"
		if !x.Priced {
			proof = "the least length, as no prices are known"
		}
		if !x.Proven {
			proof = "not proved to be " + proof
		}
		p.wrapped("  ", "  ", fmt.Sprintf("%s of pieces out of %s; %s.", system.Listed(x.Cut), system.Listed(x.Bought), proof))
		joinedPage(p, x, system)
	}
	if len(a.Plans) == 0 {
		p.line("Nothing is planned that has to be cut.")
	}
	p.supposed(a.Supposed)
}
