package cli

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
)

const rootHelp = `dropleg takes a workshop, a compressor and tools to compressed air that works.

Without a command it opens the job of last time in the browser. The commands below ask the
same questions without one. JOB is a job file or the name of a stored job (a file of that
name wins), NETWORK a bare network file; - reads standard input. Results go to standard
output, everything else to standard error.

exit status
  0  all well
  1  the design falls short: a finding worse than a note, a tool without its
     pressure, a network without an answer
  2  the input cannot be used: each problem with file, line, path and nearest valid form
  3  the program could not do its work: a file that cannot be written, a stop from outside

pressures as people mean them: psi, psig, bar, kPa are gauge; psia, bara, kPaa, Pa are
absolute. Flows: cfm, L/min, m3/h are free air at the job's reference unless marked
(scfm60, Nm3/h, kg/s). A number without a unit is SI: absolute, kg/s.`

// root is the command that holds the others.
func (c *call) root() *cobra.Command {
	root := &cobra.Command{
		Use:           "dropleg",
		Short:         "compressed air that works, from the workshop to the tool",
		Long:          rootHelp,
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.PersistentFlags().BoolVar(&c.json, "json", false, "write one JSON document with units in its keys")
	root.PersistentFlags().StringVar(&c.units, "units", "", "for people: us, metric or mixed (default: the job's; in calc those typed)")
	c.complete(root, "units", unitWords())
	root.PersistentPreRunE = func(*cobra.Command, []string) error {
		_, err := c.system("")
		return err
	}
	open := c.open()
	root.Args = noArguments
	root.RunE = open.RunE
	root.Flags().AddFlagSet(open.Flags())
	root.AddCommand(
		open,
		c.example(),
		c.start(),
		c.check(),
		c.flow(),
		c.demand(),
		c.day(),
		c.cost(),
		c.water(),
		c.solve(),
		c.route(),
		c.parts(),
		c.buy(),
		c.cut(),
		c.quote(), c.build(), c.prove(), c.keep(),
		c.sheets(),
		c.calc(),
		c.catalogue(),
		c.schema(),
		c.size(),
		c.prices(),
		c.find(), c.calibrate(), c.extend(),
		c.jobs(), c.imports(), c.export(), c.backup(), c.history(), c.undo(), c.redo(), c.edit(),
	)
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return misused("%s: %s; %q lists what it takes", cmd.Name(), err, cmd.CommandPath()+" --help")
	})
	root.CompletionOptions.HiddenDefaultCmd = false
	return root
}

// noArguments refuses words that are no command, with the nearest one.
func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var names []string
	for _, sub := range cmd.Commands() {
		names = append(names, sub.Name())
	}
	text := "read " + quote(args[0]) + "; wanted one of the commands " + strings.Join(names, ", ")
	if near := unit.Nearest(args[0], names); near != "" {
		text += "; nearest " + quote(near)
	}
	return misuse{text}
}

// words checks how many words a command takes, in its own words.
func words(least, most int, want string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) < least || most >= 0 && len(args) > most {
			return misused("%s: read %s; wanted %s", cmd.Name(), counted(len(args), "argument"), want)
		}
		return nil
	}
}

// system is the units for people: the flag, else the word given, else metric.
func (c *call) system(word string) (unit.System, error) {
	if c.units != "" {
		s, err := unit.ParseSystem(c.units)
		if err != nil {
			return s, misused("--units: %s", err)
		}
		return s, nil
	}
	if s, err := unit.ParseSystem(word); err == nil {
		return s, nil
	}
	return unit.Metric, nil
}

func unitWords() []string {
	var words []string
	for _, s := range unit.Systems() {
		words = append(words, string(s))
	}
	return words
}

// complete offers words for a flag of a command to the shell.
func (c *call) complete(cmd *cobra.Command, flag string, words []string) {
	err := cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(words, cobra.ShellCompDirectiveNoFileComp))
	if err != nil {
		panic("cli: " + err.Error()) // the flag was never defined: a programmer's mistake
	}
}

// contextOf is the command's context; tests that call a command by itself have none.
func contextOf(cmd *cobra.Command) context.Context {
	if ctx := cmd.Context(); ctx != nil {
		return ctx
	}
	return context.Background()
}
