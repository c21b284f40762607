package study

import (
	"context"

	"dropleg/internal/answer/day"
)

// Day is working days of the shop, as asked. It is not kept: what is asked differs
// from one time to the next.
func (s *Study) Day(ctx context.Context, ask day.Ask) (*day.Answer, error) {
	m, err := s.Model(ctx)
	if err != nil {
		return nil, err
	}
	return day.Of(ctx, s.job, m, ask)
}
