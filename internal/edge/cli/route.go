package cli

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"dropleg/engine/num/steiner"
	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/route"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
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
	c.bestDone()
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

// laidAnswer is what --json writes of a job.
type laidAnswer struct {
	Title     string           `json:"title"`
	Proposals []route.Proposal `json:"proposals"` // the first is the one that is written
	Written   string           `json:"written,omitempty"`
	Job       *job.Job         `json:"job,omitempty"` // where no file was named for it
}

// route lays the lines.
func (c *call) route() *cobra.Command {
	var ask layAsk
	cmd := &cobra.Command{
		Use:   "route JOB|INSTANCE [-o JOB]",
		Short: "where lines run: lays them to every outlet, with fittings, at the least price",
		Long: `Lays lines along walls and through walls, clear of doors and of what stands in the way, from
the plant to every outlet that has none, and draws them with tees, elbows, valves and drains.
What is drawn is kept and used, unless --clear takes it away first. Tells length, price, what
no layout goes below, and what was assumed; -o writes the new job. Sizes are those of the lines
that are there, or usual ones. A file with the keys edges and terminals is answered as it stands:
the least tree that joins the terminals.
With --reach it lays no lines but proposes where outlets hang: the fewest from which a hose
reaches every free side of benches, lifts, hulls and machines, going round what stands on the
floor and keeping doors free; -o writes the job with them.
Status 1 where lines cannot be laid or a side cannot be reached, with what stands in
the way; or where what was laid could not be verified to bring air to every outlet, which is told.`,
		Example: `  dropleg route shop.json -o laid.json
  dropleg route shop.json --clear planned --ring
  dropleg route shop.json --reach --hose 6m -o outlets.json`,
		Args: words(1, 1, "one job or instance: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if ok, err := c.routeBare(contextOf(cmd), args[0], ask.limit); ok || err != nil {
				return err
			}
			return c.layLines(contextOf(cmd), args[0], ask)
		},
	}
	ask.flags(cmd.Flags())
	return cmd
}

// layAsk is what the flags say.
type layAsk struct {
	limit   time.Duration
	wish    route.Wish
	outlets reachAsk
	file    string
	force   bool
}

func (a *layAsk) flags(f *pflag.FlagSet) {
	f.DurationVar(&a.limit, "limit", bareLimit, "the best so far after this time")
	f.StringVar(&a.wish.Clear, "clear", "", "take lines away first: planned, or all, installed ones too")
	f.StringSliceVar(&a.wish.Over, "over", nil, "surfaces beside the walls: ceiling, beams")
	f.BoolVar(&a.wish.Ring, "ring", false, "tell as well what a ring would cost and bring")
	f.BoolVar(&a.outlets.wanted, "reach", false, "propose where outlets hang, by the length of a hose")
	f.StringVar(&a.outlets.hose, "hose", "", "length of that hose; left out, as most hoses of the shop")
	f.StringSliceVar(&a.outlets.around, "around", nil, "only these obstacles are worked on")
	f.BoolVar(&a.outlets.ceiling, "overhead", false, "outlets may hang from the structure too")
	f.StringVarP(&a.file, "output", "o", "", "write the new job to this file")
	f.BoolVar(&a.force, "force", false, "write over a file that is there")
}

// layLines lays lines of a job, or proposes where its outlets hang.
func (c *call) layLines(ctx context.Context, word string, ask layAsk) error {
	if bad := wishWord(&ask.wish); bad != "" {
		return misused("route: read %s; wanted --clear planned or all, --over ceiling, beams or both", bad)
	}
	j, err := c.readJob(ctx, word)
	if err != nil {
		return err
	}
	limited, stop := context.WithTimeout(ctx, ask.limit)
	defer stop()
	if ask.outlets.wanted {
		return c.reach(limited, j, ask.outlets, ask.file, ask.force)
	}
	laid, err := route.Propose(limited, study.Of(j, catalog.Builtin()), ask.wish, c.best("price"))
	c.bestDone()
	if err != nil {
		return c.notLaid(j, err)
	}
	return c.writeLaid(j, laid, ask.file, ask.force)
}

// wishWord is a word of the flags that says nothing; "" where all do.
func wishWord(w *route.Wish) string {
	if w.Clear != "" && w.Clear != route.ClearPlanned && w.Clear != route.ClearAll {
		return "--clear " + w.Clear
	}
	for _, o := range w.Over {
		if o != route.Ceiling && o != route.Beams {
			return "--over " + o
		}
	}
	return ""
}

// notLaid tells what stands in the way of lines.
func (c *call) notLaid(j *job.Job, err error) error {
	var refusal *job.Refusal
	if !errors.As(err, &refusal) {
		return err
	}
	told := c.write(j, checkAnswer{j.Title, refusal.Findings}, func(p *paper, _ unit.System) {
		p.heading(j.Title)
		for _, f := range refusal.Findings {
			p.wrapped("", "", f.Title)
		}
	})
	if told != nil {
		return told
	}
	return errShort
}

// writeLaid writes the new job and says what changed; errShort where that could not be verified.
func (c *call) writeLaid(j *job.Job, laid []route.Proposal, file string, force bool) error {
	after, _, err := laid[0].Edit.Apply(j)
	if err != nil {
		return fmt.Errorf("laying lines: %w", err)
	}
	answer := laidAnswer{Title: j.Title, Proposals: laid, Written: file}
	if answer.Job, err = handOver(after, file, force); err != nil {
		return err
	}
	err = c.write(j, answer, func(p *paper, system unit.System) {
		p.heading(j.Title)
		for i := range laid {
			laidPage(p, &laid[i], system)
		}
		if file != "" {
			p.line("wrote " + file)
		}
	})
	if err == nil && !laid[0].Verified {
		return errShort
	}
	return err
}

// laidPage is one proposal.
func laidPage(p *paper, x *route.Proposal, system unit.System) {
	f := &x.Figures
	length := func(m float64) string { return system.Listed(unit.Length(m)) }
	p.blank()
	p.line(p.ink(bold, x.Title))
	p.wrapped("  ", "  ", fmt.Sprintf("%s reached by %s of line: mains %s, legs %s; %s, %s, %s, %s through walls.",
		counted(f.Feet, "end"), length(f.Length), length(f.Mains), length(f.Legs), counted(f.Bends, "bend"), counted(f.Tees, "tee"), counted(f.Valves, "valve"), counted(f.Holes, "hole")))
	p.wrapped("  ", "  ", fmt.Sprintf("About %.0f %s with work; no layout over these places below %.0f.", f.Price, f.Reckons.Currency, f.Least))
	if f.Gain != nil {
		p.wrapped("  ", "  ", fmt.Sprintf("The worst tool gains %s.", system.Text(unit.KindPressureDiff, *f.Gain, unit.Env{})))
	}
	for _, w := range x.Words {
		p.wrapped("  - ", "    ", w)
	}
}
