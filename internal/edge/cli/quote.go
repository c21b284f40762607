package cli

import (
	"context"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
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
		words := l.Words
		if l.Usual {
			words += " *"
		}
		number := screen.QuoteNumber(l.Number, l.What == offer.Metre, system)
		cost := ""
		if l.Cost != 0 { // without a rate the column is left out
			cost = l.Cost.String()
		}
		t = append(t, []string{words, number, strconv.FormatFloat(l.Minutes, 'g', 4, 64), fmt.Sprintf("%.1f", l.Hours), cost})
	}
	t.write(p)
	p.blank()
	sum := table{{"", a.Currency}}
	for _, s := range a.Sums() {
		sum = append(sum, []string{s.Words, s.Cost.String()})
	}
	sum.write(p)
	p.blank()
	for _, note := range screen.QuoteNotes(a) {
		p.wrapped("", "", note)
	}
	if a.Rate == nil {
		p.wrapped("", "", `A rate is stated by dropleg edit: {"edit": "set", "key": "prices.labour.rate_1_h", "value": 55}`)
	}
}

// variationPage is what a change comes to.
func variationPage(p *paper, title string, v *offer.Variation, system unit.System) {
	p.heading(title)
	told := screen.VariationOf(v, system)
	p.wrapped("", "", told.Sentence)
	for _, list := range told.Lists {
		p.blank()
		t := table{list.Heads[:]}
		for _, r := range list.Rows {
			t = append(t, []string{r.Words, r.Before, r.After, r.By})
		}
		t.write(p)
	}
	for _, note := range told.Notes {
		p.blank()
		p.wrapped("", "", note)
	}
}
