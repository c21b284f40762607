package sheet_test

import (
	"context"
	"testing"

	"dropleg/internal/show/page"
)

// On every paper, plan, walls and isometric of every example have no words that lie on words.
func TestWordsKeepClearOnEveryPaper(t *testing.T) {
	for _, name := range []string{"boat-shop", "frame-garage", "ring-main", "ailing"} {
		for _, paper := range page.Papers() {
			m := maker(t, exampleJob(t, name), paper.Name)
			made, err := m.Make(context.Background(), []string{"plan", "walls", "isometric"})
			if err != nil {
				t.Fatal(err)
			}
			pdf, err := m.PDF(made)
			if err != nil {
				t.Fatal(err)
			}
			for i, p := range wordsOf(t, saved(t, "book.pdf", pdf)).Pages {
				for _, pair := range overlaps(p.Words) {
					t.Errorf("%s, %s, page %d: %q lies on %q", name, paper.Name, i+1, pair[0].Text, pair[1].Text)
				}
			}
		}
	}
}
