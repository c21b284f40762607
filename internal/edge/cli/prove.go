package cli

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// decayAsk are the flags of a decay test.
type decayAsk struct{ file, section, gauge, thermometer string }

// prove plans the tests and judges one.
func (c *call) prove() *cobra.Command {
	var ask decayAsk
	cmd := &cobra.Command{
		Use:   "prove JOB",
		Short: "the tests by section, what leaks, which joints are checked",
		Long: `Each section between valves and plant with its test: pressure by the rule that the job names,
stages, stored energy, the distance to keep, what to isolate; a leak test at working pressure
where the room is smaller. Then joints, outlets and tests as the records have them.

On paper, to tick, fill in and sign: dropleg sheets JOB --only test -o DIR.

With --readings the readings of a decay test, CSV with the columns time, pressure and, where it
was read, temperature: "time_min,pressure_bar,temperature_C". Status 1 where a joint bubbles, a
section leaks, or two found different things.`,
		Example: `  dropleg prove shop.json
  dropleg prove shop.json --readings decay.csv --section line.main-1 --gauge 0.02bar`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			if ask.file != "" {
				return c.proveDecay(contextOf(cmd), j, ask)
			}
			return c.provePlan(contextOf(cmd), j)
		},
	}
	cmd.Flags().StringVar(&ask.file, "readings", "", "a table of readings of a decay test, CSV or XLSX, - for standard input")
	cmd.Flags().StringVar(&ask.section, "section", "", "the section that they are of, by its first line (default: the only one)")
	cmd.Flags().StringVar(&ask.gauge, "gauge", "", "what a reading of the gauge is good to (default 0.1 bar)")
	cmd.Flags().StringVar(&ask.thermometer, "thermometer", "", "what a reading of the thermometer is good to (default 1 K)")
	return cmd
}

// shopOf is a job as the page shows it, in the units asked for.
func (c *call) shopOf(j *job.Job) (*screen.Shop, screen.Ask, error) {
	system, err := c.system(j.Site.Units)
	return screen.On(study.Of(j, catalog.Builtin()), nil), screen.Ask{System: system}, err
}

func (c *call) provePlan(ctx context.Context, j *job.Job) error {
	shop, ask, err := c.shopOf(j)
	if err != nil {
		return err
	}
	told, err := shop.Prove(ctx, ask)
	if err != nil {
		return err
	}
	if err := c.write(j, told, func(p *paper, _ unit.System) { provePage(p, j.Title, &told) }); err != nil {
		return err
	}
	for i := range told.Joints {
		switch told.Joints[i].Found {
		case "bubbles", "clash":
			return errShort
		}
	}
	for i := range told.Sections {
		if told.Sections[i].State == "leaks" {
			return errShort
		}
	}
	return nil
}

// provePage is the plan of tests as a page of text.
func provePage(p *paper, title string, a *screen.Prove) {
	p.heading(title)
	p.wrapped("", "", a.Sentence)
	p.wrapped("", "", "Test pressure: "+a.Rule)
	told := map[string]bool{}
	for i := range a.Sections {
		p.blank()
		sectionPage(p, &a.Sections[i], told)
	}
	rowsPage(p, "Joints to go back to", openJoints(a.Joints))
	rowsPage(p, "Measured at the plant", measured(a.Whole))
	rowsPage(p, "Flowing pressure at the outlets", flowing(a.Outlets))
	rowsPage(p, "Checked", a.Checked)
	rowsPage(p, "Not checked", a.Unchecked)
	rowsPage(p, "Cautions", a.Cautions)
}

// openJoints are those that somebody found something at, by number.
func openJoints(all []screen.JointRow) []string {
	var rows []string
	for i := range all {
		j := &all[i]
		if j.Found == "tight" || j.Found == "not-checked" {
			continue
		}
		row := fmt.Sprintf("№ %d, %s: %s", j.Number, j.Between, j.Found)
		if j.Written.Clash != "" {
			row += ", " + j.Written.Clash
		}
		rows = append(rows, row+"; "+j.Written.Words)
	}
	return rows
}

// measured is the leak of all by compressor and receiver.
func measured(all []screen.MadeRow) []string {
	var rows []string
	for i := range all {
		m := &all[i]
		rows = append(rows, strings.TrimSpace(m.When+": "+m.Figure+". "+m.Words))
	}
	return rows
}

// flowing is what was read at outlets, beside the prediction.
func flowing(all []screen.ProofRow) []string {
	var rows []string
	for i := range all {
		o := &all[i]
		if o.Read == "" {
			continue
		}
		row := o.Name + ": " + o.Read
		if o.Design != "" {
			row += ", " + o.Design + " by the design"
		}
		rows = append(rows, row+"; "+o.Words)
	}
	return rows
}

// rowsPage is a list under its heading; one of nothing is left out.
func rowsPage(p *paper, heading string, rows []string) {
	if len(rows) == 0 {
		return
	}
	p.blank()
	p.heading(heading)
	for _, r := range rows {
		p.wrapped("- ", "  ", r)
	}
}

// sectionPage is a section with its tests; the steps of a rise that were told before are
// not told again.
func sectionPage(p *paper, s *screen.SectionRow, told map[string]bool) {
	p.heading(s.Name + " (" + s.ID + ")")
	p.wrapped("", "", s.Words)
	if s.Refused != "" {
		p.wrapped("  ", "  ", "No test above working pressure: "+s.Refused)
	}
	testPage(p, "Test", s.Test, told)
	testPage(p, "Leak test, receiver shut off", s.Leak, told)
	for _, x := range s.Items {
		done := "not written down"
		if x.Written != "" {
			done = "written down: " + x.Written
		}
		p.wrapped("  - ", "    ", x.Name+": "+x.Words+"; "+done)
	}
	if s.Hold != "" {
		p.wrapped("  ", "  ", sentence("decay test: "+s.Hold+"."))
	}
	for _, m := range s.Made {
		p.wrapped("  ", "  ", m.When+": "+m.Figure+". "+m.Words)
	}
}

func testPage(p *paper, name string, t *screen.TestRow, told map[string]bool) {
	if t == nil {
		return
	}
	text := fmt.Sprintf("%s at %s: %s; keep %s away", name, t.Pressure, t.Words, t.Distance)
	steps := fmt.Sprint(t.Stages)
	if told[steps] {
		p.wrapped("  ", "  ", text+"; in the same steps as above")
		return
	}
	told[steps] = true
	p.wrapped("  ", "  ", text)
	for _, g := range t.Stages {
		p.line("    " + left(g.Pressure, 10) + left(g.Share, 7) + "  " + g.Words)
	}
}
