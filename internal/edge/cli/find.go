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
	Understood *weak.Understood `json:"understood,omitempty"`
	Answer     *weak.Answer     `json:"answer"`
}

// find says why a shop is weak.
func (c *call) find() *cobra.Command {
	var table, complaint string
	cmd := &cobra.Command{
		Use:   "find JOB [--readings CSV] [--complaint TEXT]",
		Short: "why it is weak: the likeliest cause by the readings, and the reading to take next",
		Long: `Sets the readings of the job's records, and those of a table, beside what the network would show
with each thing in turn restricted, leaking, set wrong, or asking for more than its plate, and
with two of them at once; then says which explains them, how sure that is, and which reading
would tell most. The table has the columns place, tool, running, pressure, receiver, from, to,
time; figures carry their units. A gauge of class 1.6 with marks of 1 psi is assumed.
Status 1 where one cause stands out.`,
		Example: `  dropleg find shop.json
  dropleg find shop.json --complaint "the sander at the far bench dies when someone blows off a part"
  dropleg find shop.json --readings today.csv --json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return c.writeFind(contextOf(cmd), args[0], table, complaint)
		},
	}
	cmd.Flags().StringVar(&table, "readings", "", "a table of readings in CSV")
	cmd.Flags().StringVar(&complaint, "complaint", "", "what somebody says of it, in plain words")
	return cmd
}

// writeFind weighs the causes of a job's readings and writes them.
func (c *call) writeFind(ctx context.Context, name, table, complaint string) error {
	j, err := c.readJob(ctx, name)
	if err != nil {
		return err
	}
	system, err := c.system(j.Site.Units)
	if err != nil {
		return err
	}
	f, err := weak.New(ctx, study.Of(j, catalog.Builtin()), system)
	if err != nil {
		return err
	}
	out := findAnswer{Title: j.Title}
	if complaint != "" {
		out.Understood = new(f.Complain(complaint))
	}
	if table != "" {
		if err := c.addReadings(ctx, f, j, table); err != nil {
			return err
		}
	}
	if out.Answer, err = f.Answer(ctx); err != nil {
		return err
	}
	if err := c.write(j, out, func(p *paper, _ unit.System) { findPage(p, &out) }); err != nil {
		return err
	}
	if out.Answer.Found {
		return errShort
	}
	return nil
}

// addReadings takes the readings of a table.
func (c *call) addReadings(ctx context.Context, f *weak.Finder, j *job.Job, table string) error {
	data, err := readFile(table)
	if err != nil {
		return err
	}
	all, problems := weak.ReadCSV(bytes.NewReader(data), j)
	if len(problems) > 0 {
		return &badInput{table, problems}
	}
	for i, r := range all {
		var bad *weak.Unusable
		switch err := f.Add(ctx, r); {
		case errors.As(err, &bad):
			return unusable(table, fmt.Sprintf("reading %d", i+1), "a reading that can be: "+bad.Words)
		case err != nil:
			return err
		}
	}
	return nil
}

// findPage is the causes as a page of text.
func findPage(p *paper, out *findAnswer) {
	a := out.Answer
	p.heading(out.Title)
	p.blank()
	if out.Understood != nil {
		p.wrapped("", "", out.Understood.Words)
	}
	p.wrapped("", "", counted(a.Read, "reading")+" weighed. "+a.Verdict)
	if a.Supply != "" && !strings.Contains(a.Verdict, a.Supply) {
		p.wrapped("", "", a.Supply)
	}
	p.blank()
	for i := range a.Causes[:min(len(a.Causes), 6)] {
		if a.Read == 0 {
			break
		}
		cause := &a.Causes[i]
		p.wrapped(fmt.Sprintf("%3.0f %%  ", 100*cause.Chance), "       ", strings.Join(slices.DeleteFunc([]string{cause.Words, sentence(cause.Sureness) + ".", cause.Beside}, func(s string) bool { return s == "" }), " "))
	}
	p.blank()
	if a.Next == nil {
		p.wrapped("Next: ", "  ", "no further reading would tell more than these do.")
	} else {
		p.wrapped("Next: ", "  ", strings.TrimSpace(a.Next.Words+" "+a.Next.Why))
	}
	for _, w := range a.Unused {
		p.wrapped("Not used: ", "  ", w)
	}
	p.blank()
	p.wrapped("", "", "Before anything is opened: shut off, vent, see zero. What is listed was weighed; what is not was not looked at.")
}
