package study

import (
	"context"

	"dropleg/internal/answer/water"
)

// Water is the water of the air, as asked. It is not kept: what is asked differs.
func (s *Study) Water(ctx context.Context, ask water.Ask) (*water.Answer, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	return water.Of(ctx, s.job, s.shelf, m, ask)
}

// Wet is the water of the air with all figures as the job has them.
func (s *Study) Wet(ctx context.Context) (*water.Answer, error) {
	return s.wet.get(ctx, func(ctx context.Context) (*water.Answer, error) { return s.Water(ctx, water.Ask{}) })
}
