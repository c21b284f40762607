package study

import (
	"context"

	"dropleg/internal/answer/purchase"
	"dropleg/internal/answer/quote"
)

// Purchase is what to buy and what to cut, with all figures as the job has them.
func (s *Study) Purchase(ctx context.Context) (*purchase.Answer, error) {
	return s.purchase.get(ctx, func(ctx context.Context) (*purchase.Answer, error) {
		p, err := s.Parts(ctx)
		if err != nil {
			return nil, err
		}
		h, err := s.Hold(ctx)
		if err != nil {
			return nil, err
		}
		return purchase.Of(ctx, s.job, s.shelf, p, h)
	})
}

// Quote is what it costs to have it done.
func (s *Study) Quote(ctx context.Context) (*quote.Answer, error) {
	p, err := s.Parts(ctx)
	if err != nil {
		return nil, err
	}
	h, err := s.Hold(ctx)
	if err != nil {
		return nil, err
	}
	bought, err := s.Purchase(ctx)
	if err != nil {
		return nil, err
	}
	return quote.Of(s.job, s.shelf, p, h, bought), nil
}

// Variation is what this state of the job differs by from an earlier one, and what that
// comes to, by the prices and terms of this one where the earlier had none.
func (s *Study) Variation(ctx context.Context, before *Study) (*quote.Variation, error) {
	old, lent := quote.Lent(before.job, s.job)
	if len(lent) > 0 {
		before = Of(old, before.base)
	}
	had, err := before.Purchase(ctx)
	if err != nil {
		return nil, err
	}
	was, err := before.Quote(ctx)
	if err != nil {
		return nil, err
	}
	has, err := s.Purchase(ctx)
	if err != nil {
		return nil, err
	}
	is, err := s.Quote(ctx)
	if err != nil {
		return nil, err
	}
	v := quote.Vary(was, is, had, has)
	v.Lent = lent
	return v, nil
}
