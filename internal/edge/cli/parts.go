package cli

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"dropleg/engine/unit"
	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// parts is the take-off.
func (c *call) parts() *cobra.Command {
	var joints, pieces bool
	var lists tables
	cmd := &cobra.Command{
		Use:   "parts JOB [--joints] [--pieces]",
		Short: "the take-off: everything on the drawing, counted",
		Long: `Lines by size in metres, fittings with the elbows that corners make, valves, treatment,
plant, couplers, hoses, and what joints ask for that nobody draws; what stands already and what
is for later apart. With --json each line names the things that it was counted from, and pieces
and joints are listed whole. Prices are those of the job's own list; dropleg buy looks further.`,
		Example: "  dropleg parts shop.json\n  dropleg parts shop.json --joints",
		Args:    words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			list := screen.NeedList
			if joints {
				list = screen.JointList
			}
			if done, err := lists.write(contextOf(cmd), c, j, list); done || err != nil {
				return err
			}
			a, err := study.Of(j, catalog.Builtin()).Parts(contextOf(cmd))
			if err != nil {
				return err
			}
			return c.write(j, a, func(p *paper, system unit.System) {
				switch {
				case joints:
					jointsPage(p, j.Title, a, system)
				case pieces:
					piecesPage(p, j.Title, a, system)
				default:
					partsPage(p, j, a, system)
				}
			})
		},
	}
	cmd.Flags().BoolVar(&joints, "joints", false, "the joints by their numbers, with what each needs")
	cmd.Flags().BoolVar(&pieces, "pieces", false, "the pieces of line with their take-outs and cut lengths")
	cmd.MarkFlagsMutuallyExclusive("joints", "pieces")
	lists.flags(cmd)
	return cmd
}

// partsPage is the take-off as a list under headings.
func partsPage(p *paper, j *job.Job, a *parts.Answer, system unit.System) {
	p.heading(j.Title)
	titles := map[parts.State]string{
		parts.Planned: "to be built", parts.Existing: "there already", parts.Stub: "for later",
	}
	all := a.All()
	numbers, wide := make([]string, len(all)), 0
	for i := range all {
		numbers[i] = numberOf(&all[i], system)
		wide = max(wide, width(numbers[i]))
	}
	state, group := parts.State(""), parts.Group("")
	for i := range all {
		l := &all[i]
		if l.State != state {
			state, group = l.State, ""
			p.blank()
			p.heading(titles[state])
		}
		if l.Group != group {
			group = l.Group
			p.line("  " + p.ink(dim, string(group)))
		}
		words := l.Words
		if l.Counted != "" {
			words += ", " + l.Counted
		}
		if l.Note != "" {
			words += " (" + l.Note + ")"
		}
		if l.Drawer > 0 {
			words += fmt.Sprintf("; %s in the drawer", strconv.FormatFloat(l.Drawer, 'g', 4, 64))
		}
		if l.Cost != nil {
			words += fmt.Sprintf("; %.2f %s", *l.Cost, a.Currency)
		}
		p.wrapped("  "+left(numbers[i], wide)+"  ", pad("", wide+4), words)
	}
	totalsTable(p, j, a, system)
	p.blank()
	cost, unpriced := a.Cost+a.ImpliedCost, a.Unpriced+a.ImpliedUnpriced
	switch {
	case cost > 0 && unpriced > 0:
		p.wrapped("", "", fmt.Sprintf("%.2f %s for what the own list has; %s not on it.", cost, a.Currency, counted(unpriced, "line")))
	case cost > 0:
		p.line(fmt.Sprintf("%.2f %s altogether", cost, a.Currency))
	default:
		p.wrapped("", "", "No prices: the job's own list is empty. A supplier's list, CSV or XLSX, is taken in by dropleg prices.")
	}
}

// totalsTable is what is in each room, what stands and what is for later apart.
func totalsTable(p *paper, j *job.Job, a *parts.Answer, system unit.System) {
	t := table{{"room", "", "line", "pieces of it", "parts", "joints"}}
	for _, r := range screen.RoomRows(job.NewIndex(j), a, system) {
		t = append(t, []string{r.Room, r.State, r.Line, strconv.Itoa(r.Pieces), strconv.Itoa(r.Parts), strconv.Itoa(r.Joints)})
	}
	if len(t) > 1 {
		p.blank()
		t.write(p)
	}
}

// numberOf is how much of an article there is: pieces, or the length of a line.
func numberOf(l *parts.Line, system unit.System) string {
	switch {
	case l.Group == parts.Supplies && l.Length != nil:
		return system.Listed(*l.Length)
	case l.Group == parts.Supplies && l.Mass > 0:
		return system.Text(unit.KindMass, float64(l.Mass), unit.Env{})
	case l.Group == parts.Supplies:
		return "as needed"
	case l.Group != parts.Stock:
		return strconv.Itoa(l.Pieces)
	}
	text := system.Listed(*l.Length)
	if l.Unknown > 0 {
		text += " and more"
	}
	return text
}
