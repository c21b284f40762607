package plan

import (
	"context"

	"dropleg/internal/answer/study"
	"dropleg/internal/decide/route"
)

// Pent is how much growth has nowhere to go in a study, in metres, of lines that do not stand yet.
func Pent(ctx context.Context, s *study.Study) (float64, error) {
	held, err := s.Hold(ctx)
	if err != nil {
		return 0, err
	}
	return route.Pent(s.Index(), held), nil
}

// MostLaid bounds how often lines are laid for the sizes that were picked for them.
const MostLaid = 4

// looser has lines laid anew where those proposed cannot grow in the sizes that were picked for
// them: a leg goes with the root of the diameter, and sizes are picked after lines are laid. Of
// all that were laid it gives those that leave least growth without a place to go.
func looser(ctx context.Context, out []Proposal, again func(stiff *study.Study) ([]Proposal, error)) ([]Proposal, error) {
	least, err := Pent(ctx, out[0].After)
	last := out
	for n := 1; err == nil && n < MostLaid && least > 0; n++ {
		then, failed := again(last[0].After)
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if failed != nil { // they cannot be laid so
			break
		}
		var now float64
		if now, err = Pent(ctx, then[0].After); now < least {
			out, least = then, now
		}
		last = then
	}
	return out, err
}
