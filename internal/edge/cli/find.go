package cli

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	weak "dropleg/internal/decide/find"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// findAnswer is what --json writes.
type findAnswer struct {
	Title      string           `json:"title"`
	Note       string           `json:"note,omitempty"` // what a chain of parts left out
	Understood *weak.Understood `json:"understood,omitempty"`
	Answer     *weak.Answer     `json:"answer"`
}

// find says why a shop is weak.
func (c *call) find() *cobra.Command {
	var ask findAsk
	cmd := &cobra.Command{
		Use:   "find JOB|--chain CSV [--readings CSV] [--complaint TEXT]",
		Short: "why it is weak: the likeliest cause by the readings, and the reading to take next",
		Long: `Sets the readings of the job's records, and those of a table, beside what the network would show
with each thing in turn restricted, leaking, set wrong, or asking for more than its plate, and
with two of them at once; then says which explains them, how sure that is, and which reading
would tell most. The table has the columns place, tool, running, pressure, receiver, stopped,
from, to, time, starts, shut, found; figures carry their units, rows stand as time went. Outlets
are named by name or mark, running tools "sander at far bench", several parted by semicolons, as
valves are that were shut; stopped is yes where the compressor was and the receiver let down. A
row with found says what a look at a thing showed: mended (it was wrong), replaced, or sound.
What was mended explains the readings above it and none below, so that those still tell of
whatever else is wrong. A gauge of class 1.6 with marks of 1 psi is assumed. Status 1 where one
cause stands out.

  place,running,pressure,receiver,from,to,time,found
  far bench,,88 psi,90 psi,,,,
  far bench,sander at far bench; blow gun,61 psi,88 psi,,,,
  ,,,,90 psi,110 psi,95 s,
  filter by the tank,,,,,,,mended
  far bench,sander at far bench; blow gun,72 psi,88 psi,,,,

Without a job, --chain takes the main parts of the installation, a row each, in the order in
which the air goes: compressor, receiver, filter, dryer, regulator, valve, main, then drop,
coupler, hose, coupler, tool; after that the next main with its drops. Columns: part, name, item,
size, stock, length, flow, pressure, cut-in, cut-out, volume. What is left out is that of the
catalogue. -o keeps it as a job.`,
		Example: `  dropleg find shop.json
  dropleg find shop.json --complaint "the sander at the far bench dies when I blow off a part"
  dropleg find shop.json --readings today.csv --json
  dropleg find --chain parts.csv --readings today.csv --complaint "the spray gun starves"`,
		Args: words(0, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.findIn(contextOf(cmd), args, &ask)
			if err != nil {
				return err
			}
			return c.writeFind(contextOf(cmd), j, &ask)
		},
	}
	cmd.Flags().StringVar(&ask.table, "readings", "", "a table of readings in CSV")
	cmd.Flags().StringVar(&ask.complaint, "complaint", "", "what somebody says of it, in plain words")
	cmd.Flags().StringVar(&ask.chain, "chain", "", "in place of a job: its main parts in CSV")
	cmd.Flags().StringVarP(&ask.out, "output", "o", "", "where to keep the job that --chain makes")
	cmd.Flags().BoolVar(&ask.force, "force", false, "write over a file that is there")
	return cmd
}

// findAsk are the flags of find.
type findAsk struct {
	table, complaint, chain, out string
	force                        bool
}

// findIn is the job to look in: the one named, or that of a chain of parts.
func (c *call) findIn(ctx context.Context, args []string, ask *findAsk) (*job.Job, error) {
	if ask.chain == "" {
		if len(args) == 0 {
			return nil, misused("wanted a job, or --chain with a table of the main parts")
		}
		return c.readJob(ctx, args[0])
	}
	if len(args) > 0 {
		return nil, misused("wanted a job or --chain, not both")
	}
	data, err := readFile(ask.chain)
	if err != nil {
		return nil, err
	}
	j, problems := weak.ReadChain(bytes.NewReader(data), catalog.Builtin())
	if len(problems) > 0 {
		return nil, &badInput{ask.chain, problems}
	}
	if found := job.Validate(j, catalog.Builtin()); !job.Usable(found) {
		return nil, &badInput{ask.chain, problemsOf(found, nil)}
	}
	if ask.out != "" {
		if err := saveJob(j, ask.out, ask.force); err != nil {
			return nil, err
		}
		fmt.Fprintf(c.Err, "wrote %s\n", ask.out)
	}
	return j, nil
}

// writeFind weighs the causes of a job's readings and writes them.
func (c *call) writeFind(ctx context.Context, j *job.Job, ask *findAsk) error {
	system, err := c.system(j.Site.Units)
	if err != nil {
		return err
	}
	f, err := weak.New(ctx, study.Of(j, catalog.Builtin()), system)
	if err != nil {
		return err
	}
	out := findAnswer{Title: j.Title}
	if ask.chain != "" {
		out.Note = j.Note
	}
	if ask.complaint != "" {
		out.Understood = new(f.Complain(ask.complaint))
	}
	if ask.table != "" {
		all, err := tableOfReadings(j, ask.table)
		if err != nil {
			return err
		}
		if err := addReadings(ctx, f, ask.table, all); err != nil {
			return err
		}
	}
	if out.Answer, err = f.Answer(ctx); err != nil {
		return err
	}
	lacks := lacking(j)
	if err := c.write(j, out, func(p *paper, _ unit.System) { findPage(p, &out, lacks) }); err != nil {
		return err
	}
	if out.Answer.Found {
		return errShort
	}
	return nil
}

// tableOfReadings reads a table of readings of gauges and clocks.
func tableOfReadings(j *job.Job, table string) ([]weak.Reading, error) {
	data, err := readFile(table)
	if err != nil {
		return nil, err
	}
	all, problems := weak.ReadCSV(bytes.NewReader(data), j)
	if len(problems) > 0 {
		return nil, &badInput{table, problems}
	}
	return all, nil
}

// addReadings takes the readings of a table.
func addReadings(ctx context.Context, f *weak.Finder, table string, all []weak.Reading) error {
	for i, r := range all {
		var bad *weak.Unusable
		switch err := f.Add(ctx, r); {
		case errors.As(err, &bad):
			return tellsNothing(table, i, bad)
		case err != nil:
			return err
		}
	}
	return nil
}

// tellsNothing refuses the i-th reading of a table.
func tellsNothing(table string, i int, bad *weak.Unusable) error {
	return unusable(table, fmt.Sprintf("reading %d", i+1), "a reading that can be: "+bad.Words)
}

// lacking names what a job has to have before a reading of it can tell anything.
func lacking(j *job.Job) []string {
	var out []string
	supplied := slices.ContainsFunc(j.Net.Points, func(x job.Point) bool {
		kind, _ := catalog.Builtin().Kind(x.Part.Kind)
		return kind.Has(catalog.Supplies)
	})
	for _, need := range []struct {
		there bool
		words string
	}{
		{supplied, "a compressor"},
		{len(j.Net.Runs) > 0, "lines"},
		{len(j.Outlets) > 0, "an outlet"},
		{len(j.Tools) > 0, "a tool"},
	} {
		if !need.there {
			out = append(out, need.words)
		}
	}
	return out
}

// findPage is the causes as a page of text.
func findPage(p *paper, out *findAnswer, lacks []string) {
	a := out.Answer
	p.heading(out.Title)
	p.blank()
	if out.Note != "" {
		p.wrapped("", "", out.Note)
	}
	if out.Understood != nil {
		p.wrapped("", "", out.Understood.Words)
	}
	p.wrapped("", "", sentence(counted(a.Read, "reading"))+" weighed. "+a.Verdict)
	if a.Supply != "" && !strings.Contains(a.Verdict, a.Supply) {
		p.wrapped("", "", a.Supply)
	}
	if a.Read > 0 {
		p.blank()
	}
	for i := range a.Causes[:min(len(a.Causes), 6)] {
		if a.Read == 0 {
			break
		}
		cause := &a.Causes[i]
		p.wrapped(fmt.Sprintf("%3.0f %%  ", 100*cause.Chance), "       ", strings.Join(slices.DeleteFunc([]string{cause.Words, sentence(cause.Sureness) + ".", cause.Beside}, func(s string) bool { return s == "" }), " "))
	}
	p.blank()
	if len(lacks) > 0 {
		p.wrapped("Lacking: ", "  ", listed(lacks)+". A cause is found only in what is drawn, or told by --chain.")
	}
	switch {
	case a.Next == nil && len(lacks) > 0: // what is lacking comes first
	case a.Next == nil && a.Read == 0:
		p.wrapped("Next: ", "  ", "nothing of what is drawn can be read with a gauge: no air comes from a compressor to an outlet.")
	case a.Next == nil:
		p.wrapped("Next: ", "  ", "no further reading would tell more than these do.")
	default:
		p.wrapped("Next: ", "  ", strings.TrimSpace(a.Next.Words+" "+a.Next.Why))
	}
	for _, w := range a.Unused {
		p.wrapped("Not used: ", "  ", w)
	}
	p.blank()
	p.wrapped("", "", "Before anything is opened: shut off, lock, vent, see zero. What is listed was weighed; what is not was not looked at.")
}
