package study

import (
	"context"

	"dropleg/internal/answer/energy"
)

// Energy is a year of the shop by a few working days (Few): what they leave open is little
// beside what is not known of motors.
func (s *Study) Energy(ctx context.Context) (*energy.Answer, error) {
	return s.year.get(ctx, func(ctx context.Context) (*energy.Answer, error) {
		days, err := s.Few(ctx)
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
