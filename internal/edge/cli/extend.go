package cli

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/decide/extend"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/fit"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/screen"
)

// extendAsk are the flags of extend.
type extendAsk struct {
	wish     extend.Wish
	at, like string
	take     int
	file     string
	force    bool
}

// extend says what comes with something that is added.
func (c *call) extend() *cobra.Command {
	var ask extendAsk
	cmd := &cobra.Command{
		Use:   "extend JOB --at PLACE [--tool TOOL] [--machine CLASS] [-o JOB]",
		Short: "may I add this: the line to it from what stands, and everything that must grow with it",
		Long: `Adds an outlet with a tool (or for later), or puts another class of compressor in its place, on
the lines that stand: lays the line from a tie-in, picks its sizes, and tells what of main, drop
legs, hoses, compressor, receiver, dryer, filters and regulators must change with it, as
alternatives with their price. Before the line is opened it says which valves shut it off.
PLACE is x,y,z, or a wall with along and up: wall.west,6.3m,1.2m. TOOL is a tool of the job or a
class of the catalogue (dropleg catalogue tools). With -o the first alternative, or that of
--take, is written. Status 1 where something stays short.`,
		Example: `  dropleg extend shop.json --at wall.west,6.3m,1.2m --tool brad-nailer
  dropleg extend shop.json --machine screw-7.5 -o larger.json`,
		Args: words(1, 1, "one job: a file, a stored job, or - for standard input"),
		RunE: func(cmd *cobra.Command, args []string) error {
			j, err := c.readJob(contextOf(cmd), args[0])
			if err != nil {
				return err
			}
			if ask.at != "" {
				if ask.wish.At, err = placeOf(ask.at); err != nil {
					return err
				}
			}
			if ask.take < 1 {
				return misused("extend: read --take %d; wanted 1 for the first alternative, 2 for the next", ask.take)
			}
			ask.wish.Like = job.ID(ask.like)
			return c.writeExtend(contextOf(cmd), j, &ask)
		},
	}
	f := cmd.Flags()
	f.StringVar(&ask.at, "at", "", "where the outlet is to hang: x,y,z or WALL,along,up")
	f.StringVar(&ask.wish.Tool, "tool", "", "a tool of the job or a class of the catalogue; left out: for later")
	f.StringVar(&ask.wish.Name, "name", "", "what the outlet is called (default: as the tool)")
	f.StringVar(&ask.like, "like", "", "the outlet whose parts and hose the new one gets (default: the nearest)")
	f.StringVar(&ask.wish.Machine, "machine", "", "a class of compressor in place of the least; without --at also beside it")
	f.IntVar(&ask.take, "take", 1, "which alternative the exit status judges and -o writes")
	f.StringVarP(&ask.file, "output", "o", "", "write the job with an alternative to this file")
	f.BoolVar(&ask.force, "force", false, "write over a file that is there")
	return cmd
}

// placeOf reads x,y,z or WALL,along,up.
func placeOf(text string) (*fit.Place, error) {
	bad := misused("extend: read --at %s; wanted x,y,z or a wall with along and up, such as wall.west,6.3m,1.2m", quote(text))
	parts := strings.Split(text, ",")
	if len(parts) != 3 {
		return nil, bad
	}
	var at geom.Point
	for i, word := range parts {
		x, err := unit.Parse(strings.TrimSpace(word), unit.KindLength, unit.Env{})
		if err != nil && i > 0 || err != nil && !strings.HasPrefix(word, "wall.") {
			return nil, bad
		}
		at[i] = x
	}
	if !strings.HasPrefix(parts[0], "wall.") {
		return &fit.Place{At: &at}, nil
	}
	const off = 0.06 // from the wall's face: what clips and drop elbows take
	return &fit.Place{Wall: job.ID(parts[0]), Along: new(unit.Length(at[1])), Up: new(unit.Length(at[2])), Off: off}, nil
}

func (c *call) writeExtend(ctx context.Context, j *job.Job, ask *extendAsk) error {
	shop, view, err := c.shopOf(j)
	if err != nil {
		return err
	}
	if err := ask.wish.Check(job.NewIndex(j), catalog.Builtin()); err != nil {
		return asMisused(err)
	}
	tell, told := c.doing()
	found, _, err := shop.Extend(ctx, view, ask.wish, tell)
	told()
	if err != nil {
		return err
	}
	if err := c.write(j, found, func(p *paper, _ unit.System) { extendPage(p, j.Title, &found) }); err != nil {
		return err
	}
	if len(found.Rows) == 0 {
		return errShort
	}
	if ask.take > len(found.Rows) {
		return misused("extend: read --take %d; wanted one of the %s above", ask.take, counted(len(found.Rows), "alternative"))
	}
	taken := &found.Rows[ask.take-1]
	if ask.file != "" {
		step := taken.Step
		edit, bad := job.ParseEdit(*step)
		if len(bad) > 0 {
			return &job.Refusal{Findings: bad}
		}
		if err := c.writeEdited(j, edit, ask.file, ask.force); err != nil {
			return err
		}
	}
	if len(taken.Open) > 0 {
		return errShort
	}
	return nil
}

// asMisused is a wish that cannot be read as the fault of the command line that it is.
func asMisused(err error) error {
	var refusal *job.Refusal
	if !errors.As(err, &refusal) || len(refusal.Findings) == 0 {
		return err
	}
	f := &refusal.Findings[0]
	flag, _, _ := strings.Cut(f.Path, ".")
	return misused("extend: --%s: %s", flag, f.Title)
}

// extendPage is the alternatives as a page of text.
func extendPage(p *paper, title string, found *screen.Proposals) {
	p.heading(title)
	for _, r := range found.Refused {
		p.wrapped("", "", ended(r.Title)+" "+r.Why)
	}
	for i := range found.Rows {
		r := &found.Rows[i]
		p.blank()
		p.line(p.ink(bold, fmt.Sprintf("%d. %s", i+1, sentence(r.Name))))
		p.wrapped("  ", "  ", r.Words)
		price := "No price is known"
		if r.Price != "" {
			price = r.Price + " in all to get"
		}
		p.wrapped("  ", "  ", price+"; the tool with least to spare: "+strings.Join([]string{r.Worst, r.Margin, r.At}, ", ")+".")
		if len(r.Against) > 0 {
			p.wrapped("  ", "  ", "Against what stands: "+strings.Join(r.Against, ", ")+".")
		}
		var enough []string
		for _, g := range r.Grows {
			if g.Enough {
				enough = append(enough, g.What)
			}
			for _, ch := range g.Changes {
				p.wrapped("  "+pad(sentence(g.What), 12)+" ", pad("", 15), ch.Words+": "+ch.From+" → "+ch.To)
			}
		}
		if len(enough) > 0 {
			p.wrapped("  ", "  ", "Enough as it stands: "+listed(enough)+".")
		}
		for _, o := range r.Open {
			p.wrapped("  Stays open: ", "    ", o.Title)
		}
		for _, w := range r.Cautions {
			p.wrapped("  Caution: ", "    ", w)
		}
		for _, n := range r.Notes {
			p.wrapped("  - ", "    ", n)
		}
	}
}
