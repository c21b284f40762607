package cli

import (
	"context"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/buy"
	offer "dropleg/internal/answer/quote"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/show/screen"
)

// quote is what it costs to have it done.
func (c *call) quote() *cobra.Command {
	var against string
	var lists tables
	cmd := &cobra.Command{
		Use:   "quote JOB [--against JOB]",
		Short: "hours, material, margin and tax; or what a change comes to",
		Long: `Hours by kind of joint, metre, support, outlet and part of the plant, at the rate, margin and
tax that stand under prices.labour in the job; times that it does not state are usual ones.
With --against the variation from an earlier state of the job: what is more, what is less,
and what it comes to. Terms, and whether it binds, are the installer's.`,
		Example: `  dropleg quote shop.json
  dropleg quote shop.json --against shop-as-ordered.json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := contextOf(cmd)
			j, err := c.readJob(ctx, args[0])
			if err != nil {
				return err
			}
			if done, err := lists.write(ctx, c, j, screen.QuoteList); done || err != nil {
				return err
			}
			s := study.Of(j, catalog.Builtin())
			if against != "" {
				v, err := c.variation(ctx, against, s)
				if err != nil {
					return err
				}
				return c.write(j, v, func(p *paper, system unit.System) { variationPage(p, j.Title, v, system) })
			}
			a, err := s.Quote(ctx)
			if err != nil {
				return err
			}
			return c.write(j, a, func(p *paper, system unit.System) { quotePage(p, j.Title, a, system) })
		},
	}
	cmd.Flags().StringVar(&against, "against", "", "an earlier state of the job, to tell the variation from")
	lists.flags(cmd)
	cmd.MarkFlagsMutuallyExclusive("against", "csv")
	cmd.MarkFlagsMutuallyExclusive("against", "xlsx")
	return cmd
}

// variation is what a state of a job differs by from an earlier one, which is read.
func (c *call) variation(ctx context.Context, against string, s *study.Study) (*offer.Variation, error) {
	old, err := c.readJob(ctx, against)
	if err != nil {
		return nil, err
	}
	return s.Variation(ctx, study.Of(old, catalog.Builtin()))
}

// quotePage is a quotation in figures.
func quotePage(p *paper, title string, a *offer.Answer, system unit.System) {
	p.heading(title)
	t := table{{"work", "number", "min each", "h", a.Currency}}
	for _, l := range a.Lines {
		number := strconv.FormatFloat(l.Number, 'f', 0, 64)
		if l.What == offer.Metre {
			number = system.Listed(unit.Length(l.Number))
		}
		words := l.Words
		if l.Usual {
			words += " *"
		}
		t = append(t, []string{words, number, strconv.FormatFloat(l.Minutes, 'g', 4, 64), fmt.Sprintf("%.1f", l.Hours), l.Cost.String()})
	}
	t.write(p)
	p.line("* a usual time: the job states none of its own")
	p.blank()
	sum := table{{"", a.Currency}}
	add := func(words string, m buy.Money) { sum = append(sum, []string{words, m.String()}) }
	if a.Rate == nil {
		p.wrapped("", "", fmt.Sprintf("%.1f hours; without a rate they have no price (prices.labour.rate_1_h).", a.Hours))
	} else {
		add(fmt.Sprintf("work, %.1f h at %g", a.Hours, *a.Rate), a.Work)
	}
	add("material with deliveries", a.Material)
	if a.MarginBy > 0 {
		add(fmt.Sprintf("margin of %g %% on material", 100*a.MarginBy), a.Margin)
	}
	add("net", a.Net)
	if a.TaxBy > 0 {
		add(fmt.Sprintf("tax of %g %%", 100*a.TaxBy), a.Tax)
		add("altogether", a.Gross)
	}
	sum.write(p)
	if a.Unsold > 0 {
		p.wrapped("", "", fmt.Sprintf("Without a price and not in it: %s; dropleg buy lists them.", counted(a.Unsold, "article")))
	}
}

// variationPage is what a change comes to.
func variationPage(p *paper, title string, v *offer.Variation, system unit.System) {
	p.heading(title)
	t := table{{"variation", "before", "after"}}
	for _, list := range [][]offer.Change{v.Material, v.Work} {
		for _, c := range list {
			amount := func(x float64) string {
				if c.Metres {
					return system.Listed(unit.Length(x))
				}
				return strconv.FormatFloat(x, 'f', -1, 64)
			}
			t = append(t, []string{c.Words, amount(c.Before), amount(c.After)})
		}
	}
	if len(t) == 1 {
		p.line("Nothing differs that is bought or done.")
		return
	}
	t.write(p)
	p.blank()
	p.line(fmt.Sprintf("net %s %s, with tax %s %s", v.Net, v.After.Currency, v.Gross, v.After.Currency))
}
