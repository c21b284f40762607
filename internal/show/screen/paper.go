package screen

import (
	"context"
	"strings"

	"dropleg/internal/answer/parts"
	"dropleg/internal/shop/job"
	"dropleg/internal/show/draw"
)

// Named is what a thing of the job is called in a sentence, for drawings and lists on paper.
func (s *Shop) Named(id job.ID) string { return s.named(id) }

// NamedWithin is Named for a thing within a thing: "main 2, corner 1" of "line.main-2/corner-1".
func (s *Shop) NamedWithin(id string) string {
	name := s.named(parts.ThingOf(id))
	if _, within, ok := strings.Cut(id, "/"); ok {
		name += ", " + strings.ReplaceAll(within, "-", " ")
	}
	return name
}

// Supports lists what holds the lines as a drawing marks it.
func (s *Shop) Supports(ctx context.Context, ask Ask) ([]draw.Support, error) {
	return s.marked(ctx, ask)
}

// Cautions are those of all questions, each once.
func Cautions() []string {
	var out []string
	for _, q := range all() {
		for _, words := range q.cautions {
			out = addOnce(out, words)
		}
	}
	return out
}
