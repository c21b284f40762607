package study

import (
	"context"

	"dropleg/internal/answer/energy"
)

// Energy is a year of the shop by its working days (Steady).
func (s *Study) Energy(ctx context.Context) (*energy.Answer, error) {
	return s.year.get(ctx, func(ctx context.Context) (*energy.Answer, error) {
		days, err := s.Steady(ctx)
		if err != nil {
			return nil, err
		}
		m, err := s.Model(ctx)
		if err != nil {
			return nil, err
		}
		return energy.Of(ctx, s.job, m, days)
	})
}
