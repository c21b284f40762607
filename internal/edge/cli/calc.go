package cli

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/document"
	"dropleg/engine/formula"
	"dropleg/engine/unit"
	"dropleg/internal/decide/calc"
)

// calc is one formula at a time.
func (c *call) calc() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "calc [NAME key=value …]",
		Short: "one formula at a time: pipe, leak, air, receiver, …",
		Long: `Without NAME it lists the formulas; with NAME alone or --help it tells what one takes.
Values are SI numbers or quantities with their unit: bore=3/4in p=100psig flow=20scfm.
What comes out is followed by the law, its range and its source. It is told in US units
where a pressure, length, flow or temperature was typed in them, else in metric ones;
--units says otherwise.`,
		Example: `  dropleg calc pipe bore=0.622in length=100ft roughness=0.0018in p=100psig flow=20scfm60
  dropleg calc leak bore=1/16in p=90psig
  dropleg calc receiver volume=80gal p_high=125psi p_low=90psi flow=20cfm
  dropleg calc humid temp=95F rh=60% --json`,
		Args:              cobra.ArbitraryArgs,
		ValidArgsFunction: calcWords,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return c.listFormulas()
			}
			return c.oneFormula(args[0], args[1:])
		},
	}
	usual := cmd.HelpFunc()
	cmd.SetHelpFunc(func(cmd *cobra.Command, args []string) {
		for _, word := range cmd.Flags().Args() {
			if f, ok := calc.Find(word); ok {
				p := c.paper()
				p.columns(f.Help(unit.Metric, unit.Env{}))
				fmt.Fprintf(c.Out, "%s", p.bytes())
				return
			}
		}
		usual(cmd, args)
	})
	return cmd
}

// calcWords offers names, then the keys of the formula named.
func calcWords(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	var words []string
	if len(args) == 0 {
		for _, f := range calc.All() {
			words = append(words, f.Name+"\t"+f.Title)
		}
		return words, cobra.ShellCompDirectiveNoFileComp
	}
	f, _ := calc.Find(args[0])
	for _, s := range f.In {
		words = append(words, s.Key+"=\t"+s.Words)
	}
	return words, cobra.ShellCompDirectiveNoSpace | cobra.ShellCompDirectiveNoFileComp
}

// formulaRow is one formula in the list of --json.
type formulaRow struct {
	Name  string   `json:"name"`
	Title string   `json:"title"`
	Takes []string `json:"takes"`
	Gives []string `json:"gives"`
}

func (c *call) listFormulas() error {
	if c.json {
		rows := []formulaRow{}
		for _, f := range calc.All() {
			rows = append(rows, formulaRow{f.Name, f.Title, keysOf(f.In), keysOf(f.Out)})
		}
		return c.writeJSON(rows)
	}
	p := c.paper()
	p.heading("formulas: dropleg calc NAME key=value …")
	p.blank()
	for _, f := range calc.All() {
		p.line(fmt.Sprintf("  %-10s %s", f.Name, f.Title))
	}
	return c.writeAll(p.bytes())
}

func keysOf(symbols []formula.Symbol) []string {
	keys := []string{}
	for _, s := range symbols {
		keys = append(keys, s.Key)
	}
	return keys
}

func (c *call) oneFormula(name string, args []string) error {
	f, ok := calc.Find(name)
	if !ok {
		return &badInput{"calc", []document.Problem{{
			Read: quote(name), Want: "one of " + strings.Join(calc.Names(), ", "), Nearest: calc.Nearest(name),
		}}}
	}
	system, err := c.system(typedSystem(f, args))
	if err != nil {
		return err
	}
	if len(args) == 0 && !c.json {
		p := c.paper()
		p.columns(f.Help(system, unit.Env{}))
		return c.writeAll(p.bytes())
	}
	values, problems := f.Read(args, unit.Env{})
	if len(problems) > 0 {
		return &badInput{"calc " + name, formulaProblems(problems)}
	}
	out, err := f.Run(values)
	if err != nil {
		return misused("calc %s", err)
	}
	for _, s := range f.In {
		if note := values.Flow[s.Key].Note; note != "" {
			fmt.Fprintf(c.Err, "%s: %s\n", s.Key, note)
		}
	}
	if c.json {
		text, err := f.JSON(out)
		if err != nil {
			return err
		}
		return c.writeAll(text)
	}
	p := c.paper()
	p.columns(f.Text(out, system, unit.Env{}))
	return c.writeAll(p.bytes())
}

// typedSystem is the system of units that a person types in: that of the pressures,
// lengths, flows and temperatures.
func typedSystem(f formula.Formula, args []string) string {
	telling := []unit.Kind{
		unit.KindLength, unit.KindPressure, unit.KindGauge, unit.KindBarometer, unit.KindPressureDiff,
		unit.KindFlow, unit.KindVolumeFlow, unit.KindMassFlow, unit.KindTemperature, unit.KindTempDiff,
	}
	for _, arg := range args {
		key, text, _ := strings.Cut(arg, "=")
		for _, s := range f.In {
			if s.Key == strings.TrimSpace(key) && slices.Contains(telling, s.Kind) && unit.TypedUS(text) {
				return string(unit.US)
			}
		}
	}
	return string(unit.Metric)
}

// formulaProblems are a formula's problems in the form of those of a file.
func formulaProblems(problems []formula.Problem) []document.Problem {
	var all []document.Problem
	for _, p := range problems {
		read := "nothing"
		if p.Read != "" {
			read = quote(p.Read)
		}
		want := strings.TrimPrefix(p.Want, p.Path+": ")
		all = append(all, document.Problem{Path: p.Path, Read: read, Want: want, Nearest: p.Nearest})
	}
	return all
}
