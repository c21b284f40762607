package study

import (
	"context"

	"dropleg/internal/answer/parts"
)

// Parts is the take-off.
func (s *Study) Parts(ctx context.Context) (*parts.Answer, error) {
	return s.parts.get(ctx, func(context.Context) (*parts.Answer, error) {
		return parts.Of(s.job, s.shelf), nil
	})
}
