package check

import (
	"cmp"
	"context"
	"math"
	"slices"

	"dropleg/engine/cite"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/answer/hold"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

var bendTooTight = Check{
	Code:   "bend-too-tight",
	Title:  "corners where the line cannot be bent as wide as it must",
	Why:    "A line that is bent tighter than it takes kinks, and its bore closes.",
	Limit:  "the least radius of the stock, in the room that the straight pieces beside the corner leave",
	Law:    "a bend takes r tan(turn/2) off the straight piece on each side",
	Source: custom("least bend radius as the catalogue row of the stock has it; each finding names its source"),
	Run:    runBendTooTight,
}

// tight is the corners of one stock and size that are too tight.
type tight struct {
	least unit.Length
	bends []*hold.Bend
	state string // of its runs
}

func runBendTooTight(ctx context.Context, c *Case) error {
	a, err := c.study.Hold(ctx)
	if err != nil {
		return err
	}
	for _, t := range c.tight(a) {
		first := t.bends[0]
		f := job.Finding{
			Severity: job.Fault, Place: &first.At,
			Figure: figure("radius_m", float64(first.Room)), Limit: figure("radius_m", float64(t.least)),
		}
		for _, b := range t.bends {
			if !slices.Contains(f.Where, b.Run) {
				f.Where = append(f.Where, b.Run)
			}
		}
		corners := "a corner"
		if len(t.bends) > 1 {
			corners = plural(len(t.bends), "corner") + ", at the tightest"
		}
		f.Title = sentence("%s: at %s there is room for a bend of radius %s; the stock wants %s.",
			c.names(f.Where), corners, c.length(first.Room), c.length(t.least))
		if t.state == "existing" {
			f.Severity = job.Note
		}
		if first.Source != "" {
			f.Source = []cite.Ref{first.Ref}
		}
		if f.Cures, err = c.elbowsAt(ctx, t.bends); err != nil {
			return err
		}
		c.report(f)
	}
	return nil
}

// tooTight says whether a bend lacks the radius that is known to be the least.
func tooTight(b *hold.Bend) bool { return b.Least > 0 && !b.Fits }

// tight gathers the bends that lack their radius, the tightest of a kind first.
func (c *Case) tight(a *hold.Answer) []tight {
	var out []tight
	at := map[[3]string]int{}
	for i := range a.Bends {
		b := &a.Bends[i]
		if !tooTight(b) {
			continue
		}
		run := c.idx.Run(b.Run)
		key := [3]string{run.Stock, run.Size, run.State}
		n, seen := at[key]
		if !seen {
			n = len(out)
			at[key] = n
			out = append(out, tight{least: b.Least, state: run.State})
		}
		out[n].bends = append(out[n].bends, b)
	}
	for i := range out {
		slices.SortStableFunc(out[i].bends, func(a, b *hold.Bend) int { return cmp.Compare(a.Room, b.Room) })
	}
	return out
}

// elbowsAt puts fittings where the line was to be bent, if then no bend of these runs is
// too tight any more.
func (c *Case) elbowsAt(ctx context.Context, bends []*hold.Bend) ([]job.Cure, error) {
	edits, kind, ok := c.elbows(bends)
	if !ok {
		return nil, nil
	}
	after, err := c.study.After(job.AllOf("", edits...))
	if err != nil {
		return nil, nil // the edits do not fit: no cure
	}
	then, err := after.Hold(ctx)
	if err != nil {
		return nil, err
	}
	here := func(o hold.Bend) bool {
		return tooTight(&o) && slices.ContainsFunc(bends, func(b *hold.Bend) bool { return o.Run == b.Run })
	}
	if slices.ContainsFunc(then.Bends, here) {
		return nil, nil
	}
	words := "an " + kind.Name("en") + " at the corner in place of the bend"
	if len(bends) > 1 {
		words = "an " + kind.Name("en") + " at each corner in place of the bend"
	}
	return c.propose(ctx, words, edits...)
}

// elbows are the edits that put a fitting at each bend; ok is false where one has none
// that turns as far, or lies between two runs.
func (c *Case) elbows(bends []*hold.Bend) (edits []job.Edit, kind catalog.Kind, ok bool) {
	type cut struct {
		along unit.Length
		edit  job.Edit
	}
	var cuts []cut
	for _, b := range bends {
		along, on := c.cornerAt(b)
		if kind, ok = c.turnBy(b.Turn); !ok || !on {
			return nil, kind, false
		}
		cuts = append(cuts, cut{along, &job.Split{
			Run: b.Run, Along: &along, Part: &job.Part{Kind: kind.Kind, Size: c.idx.Run(b.Run).Size}, In: kind.Ports[0].ID, Out: kind.Ports[1].ID,
		}})
	}
	// The near part of a run that is cut keeps its id: the farthest corner is cut first.
	slices.SortStableFunc(cuts, func(a, b cut) int { return cmp.Compare(b.along, a.along) })
	for _, x := range cuts {
		edits = append(edits, x.edit)
	}
	return edits, kind, true
}

// cornerAt is where along its run a bend sits; ok is false at a point of the net.
func (c *Case) cornerAt(b *hold.Bend) (along unit.Length, ok bool) {
	for _, corner := range geom.Corners(c.idx.Centreline(c.idx.Run(b.Run)), 0) {
		if corner.At.Distance(b.At) <= geom.Tiny {
			return unit.Length(corner.Along), true
		}
	}
	return 0, false
}

// turnBy is the ordinary fitting of a line that turns it by an angle.
func (c *Case) turnBy(degrees float64) (best catalog.Kind, ok bool) {
	const near = 10 // degrees by which a line gives way into a fitting
	for _, k := range c.shelf.Kinds() {
		if k.Group != catalog.Fitting || !k.Has(catalog.Turns) || k.FixesTo != "" || len(k.Ports) != 2 ||
			k.Ports[0].Joint != "stock" || k.Ports[1].Joint != "stock" || k.Law.LeOverD == nil {
			continue
		}
		turn := 180 - geom.Angle(k.Ports[0].Toward, k.Ports[1].Toward)*180/math.Pi
		// Of several the one with the greater loss is the ordinary one: the elbow, not the sweep.
		if math.Abs(turn-degrees) <= near && (!ok || *k.Law.LeOverD > *best.Law.LeOverD) {
			best, ok = k, true
		}
	}
	return best, ok
}
