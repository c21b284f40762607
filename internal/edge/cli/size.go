package cli

import (
	"context"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/size"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// sizeAnswer is what --json writes.
type sizeAnswer struct {
	Title     string          `json:"title"`
	Currency  string          `json:"currency,omitempty"`
	Proposals []size.Proposal `json:"proposals"`
	Findings  []job.Finding   `json:"findings"` // why there is none
}

// sizeLimit is how long picking may take where nobody says.
const sizeLimit = time.Minute

// size picks the sizes.
func (c *call) size() *cobra.Command {
	var ask pickAsk
	cmd := &cobra.Command{
		Use:   "size JOB [-o JOB]",
		Short: "the cheapest sizes by which every tool has its pressure",
		Long: `Picks the sizes of lines, hoses, couplers and filters: the cheapest by which every tool has
its pressure in every set that may run together, the air keeps to the velocities of the rules
and the ratings hold. What is picked is solved with flows that follow pressure and worked
through days of its own; then it is told what changes, what it costs, and how much cheaper
another selection could be at most. Prices are those of the job; without any, the least is
that of metres times bore. With -o the job with the cheapest sizes is written.
Status 1 where no sizes do it: what else would is told; or where the pick could not be
verified, so that by flows that follow pressure some tool still lacks a little, which is told
and written all the same.`,
		Example: `  dropleg size shop.json
  dropleg size shop.json --keep-existing -o sized.json
  dropleg size shop.json --others --larger`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.sizeJob(contextOf(cmd), args[0], ask)
		},
	}
	ask.flags(cmd.Flags())
	return cmd
}

// pickAsk is what the flags say.
type pickAsk struct {
	wish  size.Wish
	only  []string
	file  string
	force bool
}

func (a *pickAsk) flags(f *pflag.FlagSet) {
	f.StringVarP(&a.file, "output", "o", "", "write the job with the cheapest sizes to this file")
	f.BoolVar(&a.force, "force", false, "write over a file that is there")
	f.BoolVar(&a.wish.Keep, "keep-existing", false, "what is installed keeps its size")
	f.StringSliceVar(&a.only, "only", nil, "only these lines, hoses and outlets may change")
	f.BoolVar(&a.wish.Alternatives, "others", false, "also with more pressure and more air in hand")
	f.BoolVar(&a.wish.AsFar, "as-far", false, "where no sizes do it, those that come nearest")
	f.BoolVar(&a.wish.Steps, "larger", false, "what one size larger would cost and bring")
	f.DurationVar(&a.wish.Limit, "limit", sizeLimit, "the best so far after this time of picking")
}

// sizeJob picks the sizes of a job, and writes it with them where that is wanted.
func (c *call) sizeJob(ctx context.Context, word string, ask pickAsk) error {
	j, err := c.readJob(ctx, word)
	if err != nil {
		return err
	}
	s := study.Of(j, catalog.Builtin())
	if ask.wish.Only, err = onlyOf(s.Index(), ask.only); err != nil {
		return err
	}
	all, err := c.sizes(ctx, s, ask.wish)
	if err != nil {
		return err
	}
	return c.writeSized(j, &all[0], ask.file, ask.force)
}

// sizes picks sizes and tells of them; errShort where there are none.
func (c *call) sizes(ctx context.Context, s *study.Study, wish size.Wish) (all []size.Proposal, err error) {
	j := s.Job()
	if wish.System, err = c.system(j.Site.Units); err != nil {
		return nil, err
	}
	all, err = size.Propose(ctx, s, wish, c.progress("picking sizes"))
	if none, ok := size.IsNone(err); ok {
		return nil, c.writeNoSizes(s, none, wish.System)
	}
	if err != nil {
		return nil, err
	}
	a := sizeAnswer{j.Title, j.Prices.Currency, all, []job.Finding{}}
	return all, c.write(j, a, func(p *paper, system unit.System) { sizePage(p, s, all, system) })
}

// onlyOf reads the ids that may change.
func onlyOf(index *job.Index, words []string) ([]job.ID, error) {
	var out []job.ID
	for _, word := range words {
		if !index.Has(job.ID(word)) {
			return nil, misused("--only: read %s; wanted the id of a line, hose or outlet of the job", quote(word))
		}
		out = append(out, job.ID(word))
	}
	return out, nil
}

// writeSized writes the job with a proposal, where a file is named for it; errShort where
// it could not be verified.
func (c *call) writeSized(j *job.Job, p *size.Proposal, file string, force bool) error {
	if file != "" {
		if err := c.writeEdited(j, p.Edit, file, force); err != nil {
			return err
		}
	}
	if !p.Verified {
		return errShort
	}
	return nil
}

// writeEdited writes the job with an edit.
func (c *call) writeEdited(j *job.Job, edit job.Edit, file string, force bool) error {
	edited, _, err := edit.Apply(j)
	if err != nil {
		return fmt.Errorf("changing the job: %w", err)
	}
	if err := saveJob(edited, file, force); err != nil {
		return err
	}
	fmt.Fprintf(c.Err, "wrote %s\n", file)
	return nil
}

// writeNoSizes tells why there are none.
func (c *call) writeNoSizes(s *study.Study, none *size.NoneError, system unit.System) error {
	j := s.Job()
	a := sizeAnswer{j.Title, j.Prices.Currency, []size.Proposal{}, none.Findings}
	err := c.write(j, a, func(p *paper, _ unit.System) {
		p.heading(j.Title)
		page := findingPage{p, s, system}
		for i := range none.Findings {
			page.finding(&none.Findings[i])
		}
	})
	if err != nil {
		return err
	}
	return errShort
}

// sizePage is proposals as a page of text.
func sizePage(p *paper, s *study.Study, all []size.Proposal, system unit.System) {
	p.heading(s.Job().Title)
	for i := range all {
		x := &all[i]
		p.wrapped("", "", strings.ToUpper(x.Name[:1])+x.Name[1:]+": "+x.Words)
		if i > 0 {
			sizeChanges(p, x)
			p.blank()
			continue
		}
		p.blank()
		sizeChanges(p, x)
		p.blank()
		sizeTools(p, s, x, system)
		p.blank()
		sizeSteps(p, x, system)
		if x.Short != nil {
			p.wrapped("", "", fmt.Sprintf("In days of their own no tool goes short for more than %.1f %% of its time.", 100**x.Short))
		}
		p.wrapped("", "", "The bound: "+x.How+".")
		for _, n := range x.Notes {
			p.wrapped("- ", "  ", n)
		}
		p.blank()
	}
}

// sizeChanges lists what comes out as another size.
func sizeChanges(p *paper, x *size.Proposal) {
	t := table{{"what", "from", "to", "price"}}
	for _, ch := range x.Changes {
		t = append(t, []string{ch.Words, ch.From, ch.To, fmt.Sprintf("%+.2f", ch.Price)})
	}
	if len(t) > 1 {
		t.write(p)
	}
}

// sizeTools lists the least pressure of each tool.
func sizeTools(p *paper, s *study.Study, x *size.Proposal, system unit.System) {
	t := table{{"tool", "at", "gets at least", "needs"}}
	gauge := func(v unit.GaugePressure) string { return system.Text(unit.KindGauge, float64(v), unit.Env{}) }
	for _, k := range x.Tools {
		row := []string{string(k.Tool), string(k.Outlet), gauge(k.Pressure), gauge(k.Least)}
		if tool := s.Index().Tool(k.Tool); tool != nil && tool.Name != "" {
			row[0] = tool.Name
		}
		if o := s.Index().Outlet(k.Outlet); o != nil && o.Name != "" {
			row[1] = o.Name
		}
		t = append(t, row)
	}
	t.write(p)
}

// sizeSteps lists what one size larger would cost and bring.
func sizeSteps(p *paper, x *size.Proposal, system unit.System) {
	if len(x.Steps) == 0 {
		return
	}
	t := table{{"one size larger", "to", "price", "the tightest tool gains"}}
	for _, k := range x.Steps {
		t = append(t, []string{k.Words, k.To, fmt.Sprintf("%+.2f", k.Price), system.Text(unit.KindPressureDiff, float64(k.Brings), unit.Env{})})
	}
	t.write(p)
	p.blank()
}
