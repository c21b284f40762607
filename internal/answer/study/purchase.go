package study

import (
	"context"

	"dropleg/internal/answer/hold"
	"dropleg/internal/answer/purchase"
)

// Purchase is what to buy and what to cut, with all figures as the job has them.
func (s *Study) Purchase(ctx context.Context) (*purchase.Answer, error) {
	return s.purchase.get(ctx, func(ctx context.Context) (*purchase.Answer, error) {
		p, err := s.Parts(ctx)
		if err != nil {
			return nil, err
		}
		return purchase.Of(ctx, s.job, s.shelf, p, hold.Of(s.job, s.shelf, nil))
	})
}
