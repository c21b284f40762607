package cli

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"dropleg/engine/air"
	"dropleg/engine/document"
	"dropleg/engine/network"
	"dropleg/engine/unit"
)

// solve answers a bare network file.
func (c *call) solve() *cobra.Command {
	var trace bool
	cmd := &cobra.Command{
		Use:   "solve NETWORK",
		Short: "solve a bare network file: nodes and links",
		Long: `Reads a network file, {"gas": …, "nodes": […], "links": […]}, and gives the pressure at
every node and the flow in every link. With --json it is the same document with its answer.
A network that has no answer is told which nodes ask for too much, and gives status 1.`,
		Example: `  dropleg solve ring.json
  dropleg solve - --json < ring.json
  dropleg solve ring.json --trace`,
		Args: words(1, 1, "one network file, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			name, data, err := c.read(args[0])
			if err != nil {
				return err
			}
			doc, problems := readNetwork(data)
			if len(problems) > 0 {
				return &badInput{name, problems}
			}
			var watch network.Trace
			if trace {
				watch = &steps{c: c}
			}
			a, problems, err := doc.Answer(contextOf(cmd), watch)
			switch {
			case err != nil:
				return err
			case len(problems) > 0:
				return &badInput{name, problems}
			}
			return c.writeNetwork(a)
		},
	}
	cmd.Flags().BoolVar(&trace, "trace", false, "tell every iteration on standard error")
	return cmd
}

// readNetwork reads a network, and says so where the file is a job.
func readNetwork(data []byte) (*network.Document, []document.Problem) {
	if _, version := document.Keys(data, "dropleg"); version != nil {
		return nil, []document.Problem{{
			Line: 1, Read: "a job", Want: "a bare network with gas, nodes and links; dropleg flow reads a job",
		}}
	}
	return network.Read(data)
}

// steps writes the iterations as they come.
type steps struct {
	c     *call
	begun bool
}

// Step writes one line.
func (s *steps) Step(t network.Step) {
	if !s.begun {
		fmt.Fprintf(s.c.Err, "%4s  %-12s %12s %12s  %s\n", "step", "by", "law, kg/s", "nodes, kg/s", "worst link")
		s.begun = true
	}
	worst := "-"
	if t.WorstLink >= 0 {
		worst = strconv.Itoa(t.WorstLink)
	}
	fmt.Fprintf(s.c.Err, "%4d  %-12s %12.3g %12.3g  %s\n", t.Iteration, t.Method, t.Law, t.Mass, worst)
}

// writeNetwork writes the answer; one that is not whole is a design that falls short.
func (c *call) writeNetwork(a *network.Answer) error {
	if c.json {
		if err := c.writeJSON(a); err != nil {
			return err
		}
	} else {
		system, err := c.system("")
		if err != nil {
			return err
		}
		p := c.paper()
		networkPage(p, a, system)
		if err := c.writeAll(p.bytes()); err != nil {
			return err
		}
	}
	if a.Refused != nil {
		return errShort
	}
	return nil
}

// networkPage is the answer as two tables.
func networkPage(p *paper, a *network.Answer, system unit.System) {
	env := unit.Env{}
	if a.Gas.Atmosphere != nil {
		env.Atmosphere = unit.AbsPressure(*a.Gas.Atmosphere)
	}
	text := func(k unit.Kind, x float64) string { return system.Text(k, x, env) }
	freeAir := func(kgs float64) string { return text(unit.KindFlow, float64(air.FreeAir(unit.MassFlow(kgs)))) }
	if a.Title != "" {
		p.heading(a.Title)
		p.blank()
	}
	nodes := table{{"node", "pressure", "taken out"}}
	for _, n := range a.Nodes {
		pressure, taken := "shut off", ""
		if n.Pressure != nil {
			pressure = text(unit.KindPressure, *n.Pressure)
		}
		if n.Outflow != nil {
			taken = freeAir(*n.Outflow)
		} else if n.Demand != nil {
			taken = freeAir(*n.Demand)
		}
		nodes = append(nodes, []string{n.ID, pressure, taken})
	}
	nodes.write(p)
	p.blank()
	links := table{{"link", "from → to", "flow", "velocity", "Mach"}}
	for _, l := range a.Links {
		row := []string{l.ID, l.From + " → " + l.To, freeAir(l.Flow), "", ""}
		if l.Velocity != nil && l.Mach != nil {
			row[3], row[4] = text(unit.KindVelocity, *l.Velocity), strconv.FormatFloat(*l.Mach, 'f', 3, 64)
		}
		links = append(links, row)
	}
	links.write(p)
	p.blank()
	p.line(fmt.Sprintf("flows as free air, ISO 1217; %s, nodes within %.1g kg/s, laws within %.1g of p²",
		counted(a.Iterations, "iteration"), a.Residuals.Mass, a.Residuals.Law))
	if r := a.Refused; r != nil {
		p.blank()
		p.line(p.ink(red, "no whole answer: ") + string(r.Reason))
		for _, n := range r.Nodes {
			p.line(fmt.Sprintf("  %s asks for %s, can have %s", n.ID, freeAir(n.Demand), freeAir(n.Most)))
		}
	}
}
