package screen

import (
	"context"
	"fmt"

	"dropleg/internal/answer/parts"
	"dropleg/internal/answer/purchase"
	"dropleg/internal/answer/study"
	"dropleg/internal/shop/intake"
)

// TakeIn reads a supplier's list for the job of a study: by what that job is to buy, and
// by what the catalogue has besides.
func TakeIn(ctx context.Context, s *study.Study, list []byte, ask intake.Ask) (*intake.Intake, error) {
	bought, err := s.Purchase(ctx)
	if err != nil {
		return nil, fmt.Errorf("seeing what the job asks for: %w", err)
	}
	shelf := intake.NewShelf(itemsOf(bought), s.Job(), s.Catalog())
	return intake.Of(ctx, intake.Read(list), ask, s.Index(), shelf)
}

// itemsOf are the articles that the job is to buy.
func itemsOf(bought *purchase.Answer) []intake.Item {
	var out []intake.Item
	for i := range bought.Needs {
		n := &bought.Needs[i]
		out = append(out, intake.Item{Article: n.Article, Words: n.Words, Names: n.Names(), Metres: n.Metres, Cut: n.Group != parts.Stock})
	}
	return out
}
