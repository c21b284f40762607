package check

import (
	"cmp"
	"context"
	"slices"

	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
)

var fittingsTooClose = Check{
	Code:   "fittings-too-close",
	Title:  "fittings that stand closer than their bodies allow",
	Why:    "Between two fittings there has to be as much line as they hold; a shorter piece comes loose, or cannot be made at all.",
	Limit:  "from centre to centre the take-outs of both fittings and the line that goes into each",
	Law:    "what is cut is the distance less both take-outs; it is not to be less than both insertions",
	Source: custom("take-outs and insertions as the catalogue rows of the stock have them"),
	Run:    runFittingsTooClose,
}

// closely is the pieces of one stock and size that are too short.
type closely struct {
	state  parts.State
	pieces []*parts.Piece
}

func runFittingsTooClose(ctx context.Context, c *Case) error {
	taken, err := c.study.Parts(ctx)
	if err != nil {
		return err
	}
	for _, x := range tooClose(taken) {
		first := x.pieces[0]
		f := job.Finding{
			Severity: job.Caution, Place: first.From.At,
			Figure: figure("distance_m", float64(*first.CentreToCentre)), Limit: figure("distance_m", float64(first.Between())),
		}
		for _, p := range x.pieces {
			for _, s := range p.Spans {
				if !slices.Contains(f.Where, s.Run) {
					f.Where = append(f.Where, s.Run)
				}
			}
		}
		stand := "two fittings stand"
		if len(x.pieces) > 1 {
			stand = plural(len(x.pieces), "time") + " two fittings stand too close, at the worst"
		}
		f.Title = sentence("%s: %s %s apart, and want %s between their centres: move one of them, or take a close nipple or a direct fitting.",
			c.names(f.Where), stand, c.length(*first.CentreToCentre), c.length(first.Between()))
		if x.state == parts.Existing {
			f.Severity = job.Note // what stands was made somehow
		}
		c.report(f)
	}
	return nil
}

// tooClose gathers the pieces that are too short, by stock, size and state, the shortest of
// each first.
func tooClose(taken *parts.Answer) []closely {
	var out []closely
	at := map[[3]string]int{}
	for i := range taken.Pieces {
		p := &taken.Pieces[i]
		if !p.TooShort || p.CentreToCentre == nil {
			continue
		}
		key := [3]string{p.Stock, p.Size, string(p.State)}
		n, seen := at[key]
		if !seen {
			n = len(out)
			at[key] = n
			out = append(out, closely{state: p.State})
		}
		out[n].pieces = append(out[n].pieces, p)
	}
	for i := range out {
		slices.SortStableFunc(out[i].pieces, func(a, b *parts.Piece) int {
			return cmp.Compare(b.Lacks(), a.Lacks())
		})
	}
	return out
}
