package cli

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/buy"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// buy is the cheapest basket.
func (c *call) buy() *cobra.Command {
	var lists tables
	var limit time.Duration
	cmd := &cobra.Command{
		Use:   "buy JOB|INSTANCE",
		Short: "the cheapest basket: offers, kits, lengths, deliveries, and what is left over",
		Long: `Everything that is planned, less what is in the drawer, out of the job's offers and its own
price list at the least money, with proof or with what it cannot be less than; and the cheapest
from one supplier alone. A file with the keys need and offers is answered as it stands.
Status 1 where something is sold by nobody, or comes out of no length.`,
		Example: "  dropleg buy shop.json",
		Args:    words(1, 1, "one job or instance: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			ctx := contextOf(cmd)
			if ok, err := c.buyBare(ctx, args[0], limit); ok || err != nil {
				return err
			}
			j, a, err := c.purchase(ctx, args[0])
			if err != nil {
				return err
			}
			if done, err := lists.write(ctx, c, j, screen.BuyList); done || err != nil {
				return err
			}
			if err := c.write(j, a, func(p *paper, system unit.System) { buyPage(p, j, a, system) }); err != nil {
				return err
			}
			if len(a.Unsold)+len(a.Uncut) > 0 {
				return errShort
			}
			return nil
		},
	}
	lists.flags(cmd)
	cmd.Flags().DurationVar(&limit, "limit", bareLimit, "of an instance: the best so far after this time")
	return cmd
}

// purchase reads a job and puts together what it has to buy.
func (c *call) purchase(ctx context.Context, word string) (*job.Job, *purchase.Answer, error) {
	j, err := c.readJob(ctx, word)
	if err != nil {
		return nil, nil, err
	}
	a, err := study.Of(j, catalog.Builtin()).Purchase(ctx)
	return j, a, err
}

// buyBare answers a bare purchase; ok is false where the file is none.
func (c *call) buyBare(ctx context.Context, word string, limit time.Duration) (ok bool, err error) {
	if !isFile(word) {
		return false, nil
	}
	ctx, stop := context.WithTimeout(ctx, limit)
	defer stop()
	var q buy.Instance
	name, ok, err := c.bare(word, &q, "need", "offers")
	if !ok || err != nil {
		return ok, err
	}
	question, err := q.Question()
	if err != nil {
		return true, unusable(name, err.Error(), "prices in hundredths")
	}
	b, err := buy.Cheapest(ctx, question)
	var short *buy.UncoveredError
	if errors.As(err, &short) || errors.Is(err, buy.ErrQuestion) {
		return true, unusable(name, err.Error(), "offers that cover every need")
	}
	if err != nil {
		return true, err
	}
	return true, c.writeJSON(b.Answer(q.Title))
}

// buyPage is the basket by supplier, and what it leaves open.
func buyPage(p *paper, j *job.Job, a *purchase.Answer, system unit.System) {
	p.heading(j.Title)
	switch {
	case a.Basket == nil && len(a.Unsold) == 0:
		p.wrapped("", "", "Nothing is planned, so there is nothing to buy.")
	case a.Basket == nil:
		p.wrapped("", "", "Nobody sells any of it: the job has no prices and no offers for what is planned. A supplier's list, CSV or XLSX, is taken in by dropleg prices; --csv writes what is wanted, to ask for them.")
	default:
		what := "altogether"
		if len(a.Unsold)+len(a.Uncut) > 0 {
			what = "for what is on the lists"
		}
		basketPage(p, a.Basket, a.Currency, what, system)
	}
	for _, alone := range a.Alone {
		p.line(fmt.Sprintf("all from %s: %s %s", alone.Supplier, alone.Price, a.Currency))
	}
	if len(a.Unsold) > 0 {
		p.blank()
		p.wrapped("", "", "Sold by nobody on the lists:")
		for i := range a.Needs {
			n := &a.Needs[i]
			if !n.Offered && n.Amount > n.Drawer {
				p.wrapped("  "+left(amountWords(n, system), 10)+"  ", pad("", 14), n.Words+" ("+n.Article+")")
			}
		}
	}
	for i := range a.Plans {
		if x := &a.Plans[i]; slices.Contains(a.Uncut, x.Article) {
			p.blank()
			p.wrapped("", "", x.Words+" is not in it: "+x.Untold+"; dropleg cut says where.")
		}
	}
	for _, note := range screen.PriceNotes(j, a, time.Now().Format(time.DateOnly)) {
		p.wrapped("", "", upperFirst(note)+".")
	}
	p.supposed(a.Supposed)
}

// basketPage is one basket; what is its sum.
func basketPage(p *paper, b *purchase.Basket, currency, what string, system unit.System) {
	supplier := ""
	for _, l := range b.Lines {
		if l.Supplier != supplier {
			supplier = l.Supplier
			p.blank()
			p.line(supplier)
		}
		p.wrapped("  "+left(strconv.Itoa(l.Times)+" ×", 6)+"  "+left(l.Cost.String(), 9)+"  ", pad("", 21), offerWords(&l, system))
	}
	p.blank()
	for _, d := range b.Deliveries {
		if d.Charge > 0 {
			p.line(fmt.Sprintf("delivery by %s: %s %s", d.Supplier, d.Charge, currency))
		}
	}
	proof := "the cheapest there is"
	if !b.Proven {
		proof = fmt.Sprintf("not proved to be the cheapest; no basket of these lengths costs less than %s", b.Bound)
	}
	p.wrapped("", "", fmt.Sprintf("%s %s %s, %s.", b.Price, currency, what, proof))
}

// offerWords is an offer with the length of a stick.
func offerWords(l *purchase.Line, system unit.System) string {
	if l.Length > 0 {
		return l.Words + ", length of " + system.Listed(l.Length)
	}
	return l.Words
}

// amountWords is how much of an article is needed.
func amountWords(n *purchase.Need, system unit.System) string {
	if n.Metres {
		return system.Listed(unit.Length(n.Amount))
	}
	return strconv.FormatFloat(n.Amount, 'g', 6, 64)
}
