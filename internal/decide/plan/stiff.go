package plan

import (
	"context"
	"errors"

	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/study"
	"dropleg/internal/decide/route"
)

// Amiss is by how much lines that do not stand yet lack room in a study, in metres: growth that
// has nowhere to go, and line between fittings that stand closer than they hold it.
func Amiss(ctx context.Context, s *study.Study) (float64, error) {
	held, err := s.Hold(ctx)
	if err != nil {
		return 0, err
	}
	taken, err := s.Parts(ctx)
	if err != nil {
		return 0, err
	}
	sum := route.Pent(s.Index(), held)
	for i := range taken.Pieces {
		p := &taken.Pieces[i]
		if r := s.Index().Run(p.Run); p.TooShort && p.State != parts.Existing && r != nil && r.Role != "link" {
			sum += float64(p.Lacks())
		}
	}
	return sum, nil
}

// MostLaid bounds how often lines are laid for the sizes that were picked for them.
const MostLaid = 4

// looser has lines laid anew where those proposed lack room in the sizes that were picked for
// them: a leg goes with the root of the diameter, a fitting with the diameter, and sizes are
// picked after lines are laid. It goes on for as long as that helps.
func looser(ctx context.Context, out []Proposal, again func(stiff *study.Study) ([]Proposal, error)) ([]Proposal, error) {
	least, err := Amiss(ctx, out[0].After)
	for n := 1; err == nil && n < MostLaid && least > 0; n++ {
		then, failed := again(out[0].After)
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		var refused *Refused
		if failed = told(failed); errors.As(failed, &refused) { // they cannot be laid so
			break
		}
		if failed != nil {
			return nil, failed
		}
		var now float64
		if now, err = Amiss(ctx, then[0].After); err != nil || now >= least {
			break
		}
		out, least = then, now
	}
	return out, err
}
