package cli

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/document"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/intake"
	"dropleg/internal/show/screen"
)

// priceList is what the person says of a list, by flags.
type priceList struct {
	maps, pairs []string
	ask         intake.Ask
	decimal     string
	file        string
	force       bool
}

// prices takes a supplier's price list into a job.
func (c *call) prices() *cobra.Command {
	var l priceList
	cmd := &cobra.Command{
		Use:   "prices JOB LIST",
		Short: "a supplier's price list, CSV or XLSX, into a job: what is taken, what is asked",
		Long: `Reads a list row by row. Its columns are known by their heads, or as --map says: number,
description, article (as dropleg parts has it), pack, unit, length, price, currency,
supplier, date, nothing. A row of a supplier, or of a pack, becomes an offer; any other a
price of your own list. A row that is known by its key, by all its words or by the number
that the job has it under is sure. For any other the nearest articles are proposed, and
--pair says which it is.
Without -o nothing is written. With -o the sure rows are taken into the job, as one change,
and the others are told: status 1 while there are any.`,
		Example: `  dropleg prices shop.json list.csv --supplier "Ellery Plumbing Supply"
  dropleg prices shop.json list.xlsx --map D=price --map Stick=length --pair "12=copper-l 3/4"`,
		Args: words(2, 2, "a job, and a price list in CSV or XLSX"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.takePrices(contextOf(cmd), args[0], args[1], &l)
		},
	}
	f := cmd.Flags()
	f.StringArrayVar(&l.maps, "map", nil, "COLUMN=FIELD: what a column is, by its letter or head")
	f.StringArrayVar(&l.pairs, "pair", nil, "ROW=ARTICLE: which article a row is")
	f.IntSliceVar(&l.ask.Leave, "leave", nil, "rows that are not taken")
	f.StringVar(&l.ask.Supplier, "supplier", "", "who sells it, of rows that do not say")
	f.StringVar(&l.ask.Currency, "currency", "", "of prices without a sign, such as USD")
	f.StringVar(&l.ask.Date, "date", "", "of prices without one: 2026-03-14")
	f.StringVar(&l.decimal, "decimal", "", "point or comma, where the list leaves it open")
	f.StringVar(&l.ask.Sheet, "sheet", "", "of a workbook; the first with prices where left out")
	f.StringVarP(&l.file, "output", "o", "", "write the job with the prices to this file")
	f.BoolVar(&l.force, "force", false, "write over a file that is there")
	c.complete(cmd, "decimal", []string{"point", "comma"})
	return cmd
}

// parse reads --map and --pair.
func (l *priceList) parse() error {
	l.ask.Decimal = intake.Decimal(l.decimal)
	for _, m := range l.maps {
		at := strings.LastIndexByte(m, '=')
		if at < 1 || at == len(m)-1 {
			return misused("prices: read --map %s; wanted COLUMN=FIELD, such as C=price", quote(m))
		}
		l.ask.Columns = append(l.ask.Columns, intake.Mapping{Column: m[:at], Field: intake.Field(m[at+1:])})
	}
	for _, p := range l.pairs {
		row, article, ok := strings.Cut(p, "=")
		n := 0
		if _, err := fmt.Sscanf(row, "%d", &n); !ok || err != nil || n < 1 || article == "" {
			return misused("prices: read --pair %s; wanted ROW=ARTICLE, such as \"12=copper-l 3/4\"", quote(p))
		}
		l.ask.Pairs = append(l.ask.Pairs, intake.Pair{Row: n, Article: article})
	}
	return nil
}

func (c *call) takePrices(ctx context.Context, word, file string, l *priceList) error {
	if err := l.parse(); err != nil {
		return err
	}
	j, err := c.readJob(ctx, word)
	if err != nil {
		return err
	}
	list, err := readFile(file)
	if err != nil {
		return err
	}
	s := study.Of(j, catalog.Builtin())
	in, err := screen.TakeIn(ctx, s, list, l.ask)
	if err != nil {
		return err
	}
	if c.json {
		err = c.writeJSON(in)
	} else {
		err = c.writeAll(pricesPage(c.paper(), in, j.Money()))
	}
	if err != nil {
		return err
	}
	if len(in.Problems) > 0 && in.Count(intake.Take)+in.Count(intake.Same) == 0 {
		c.tellProblems(listProblems(file, in))
		return errTold
	}
	if l.file != "" {
		if err := c.keepPrices(s, in, l); err != nil {
			return err
		}
	}
	if len(in.Problems) > 0 || in.Count(intake.Fault)+in.Count(intake.Unsure) > 0 {
		return errShort
	}
	return nil
}

// listProblems are those of a list as a whole.
func listProblems(file string, in *intake.Intake) *badInput {
	bad := &badInput{file: file}
	for _, p := range in.Problems {
		bad.problems = append(bad.problems, document.Problem{Line: p.Row, Path: p.Column, Read: p.Read, Want: p.Want, Nearest: strings.Join(p.Nearest, " or ")})
	}
	return bad
}

// keepPrices writes the job with what is sure.
func (c *call) keepPrices(s *study.Study, in *intake.Intake, l *priceList) error {
	j := s.Job()
	if edit := in.Edit(s.Index()); edit != nil {
		next, _, err := edit.Apply(j)
		if err != nil {
			return fmt.Errorf("taking the prices: %w", err)
		}
		j = next
	}
	if err := saveJob(j, l.file, l.force); err != nil {
		return err
	}
	fmt.Fprintf(c.Err, "wrote %s with %s\n", l.file, counted(in.Count(intake.Take), "price"))
	return nil
}

// pricesPage is what would be taken, what is asked, and what cannot be used.
func pricesPage(p *paper, in *intake.Intake, home string) []byte {
	title := in.Form
	if len(in.Sheets) > 1 {
		title += ", sheet " + in.Sheet
	}
	p.heading(title)
	t := table{{"column", "head", "read as", "such as"}}
	for _, col := range in.Columns {
		t = append(t, []string{col.Name, col.Head, string(col.Field), strings.Join(col.Samples, " | ")})
	}
	if len(in.Columns) > 0 {
		t.write(p)
	}
	for _, n := range in.Notes {
		p.wrapped("", "", upperFirst(n)+".")
	}
	takenRows(p, in, home)
	openRows(p, in)
	p.blank()
	p.wrapped("", "", screen.TakeInWords(in))
	if hint := openHint(in); hint != "" {
		p.wrapped("", "", hint)
	}
	return p.bytes()
}

// openHint says how open rows are answered, by the first of them.
func openHint(in *intake.Intake) string {
	for i := range in.Lines {
		if l := &in.Lines[i]; l.State == intake.Unsure && len(l.Nearest) > 0 {
			return fmt.Sprintf("Say which with --pair %s; leave a row out with --leave %d.", quote(fmt.Sprintf("%d=%s", l.Row, l.Nearest[0].Article)), l.Row)
		}
	}
	return ""
}

// takenRows are the sure rows.
func takenRows(p *paper, in *intake.Intake, home string) {
	t := table{{"row", "article", "is", "price", "was", "from"}}
	for i := range in.Lines {
		if l := &in.Lines[i]; l.State == intake.Take || l.State == intake.Same {
			r := screen.TakenOf(l, home)
			t = append(t, []string{fmt.Sprint(l.Row), l.Article, r.Holds, r.Price, r.Was, r.From})
		}
	}
	if len(t) > 1 {
		p.blank()
		t.write(p)
	}
}

// openRows are questions and problems, row by row.
func openRows(p *paper, in *intake.Intake) {
	for _, state := range []intake.State{intake.Unsure, intake.Fault} {
		if in.Count(state) == 0 {
			continue
		}
		p.blank()
		p.line(map[intake.State]string{intake.Unsure: "Which article is it?", intake.Fault: "Not taken"}[state])
		for i := range in.Lines {
			l := &in.Lines[i]
			if l.State != state {
				continue
			}
			first := fmt.Sprintf("  row %d  ", l.Row)
			cells := strings.Join(slices.DeleteFunc(slices.Clone(l.Cells), func(s string) bool { return s == "" }), " | ")
			p.wrapped(first, pad("", len(first)), cells)
			for _, one := range screen.RowWords(l) {
				p.wrapped(pad("", len(first)), pad("", len(first)+2), one)
			}
		}
	}
	for _, problem := range in.Problems {
		p.blank()
		p.wrapped("", "  ", screen.ProblemWords(&problem))
	}
}

func upperFirst(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
