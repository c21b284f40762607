package route

import (
	"context"

	"dropleg/internal/answer/study"
)

// ring closes the main to a ring where a way leads from its far end back to its
// beginning; ok is false where none does.
func (l *layout) ring(ctx context.Context, s *study.Study, d *draft, tree Proposal) (Proposal, bool, error) {
	return Proposal{}, false, ctx.Err()
}
