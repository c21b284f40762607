package study

import (
	"context"

	"dropleg/internal/answer/day"
	"dropleg/internal/answer/energy"
)

// Energy is a year of the shop by such days.
func (s *Study) Energy(ctx context.Context, ask day.Ask) (*energy.Answer, error) {
	days, err := s.Day(ctx, ask)
	if err != nil {
		return nil, err
	}
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	return energy.Of(ctx, s.job, m, days)
}
