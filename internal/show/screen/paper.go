package screen

import (
	"context"
	"slices"
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

// Cautions are those of all questions, each sentence once; that air can kill comes first.
func Cautions() []string {
	var out []string
	for _, q := range all() {
		for _, words := range q.cautions {
			for s := range strings.SplitSeq(strings.TrimSuffix(words, "."), ". ") {
				out = addOnce(out, s+".")
			}
		}
	}
	slices.SortStableFunc(out, func(a, b string) int { return worst(b) - worst(a) })
	return out
}

// CautionsOf are those of a question, by its id.
func CautionsOf(id string) []string {
	for _, q := range all() {
		if q.id == id {
			return q.cautions
		}
	}
	return nil
}

// worst is how far before the others a caution stands.
func worst(words string) int {
	if strings.Contains(words, "can kill") {
		return 1
	}
	return 0
}
