package sheet_test

import (
	"context"
	"testing"

	"dropleg/internal/show/scene"
)

// The job book of a shop from its file on, all sheets in one PDF.
func BenchmarkBook(b *testing.B) {
	for _, name := range []string{"boat-shop", "ring-main"} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				book(b, name, "a4")
			}
		})
	}
}

// The same where the shop's answers stand already, as on the page.
func BenchmarkBookAgain(b *testing.B) {
	for _, name := range []string{"boat-shop", "ring-main"} {
		b.Run(name, func(b *testing.B) {
			m, _, _ := book(b, name, "a4")
			for b.Loop() {
				made, err := m.Make(context.Background(), nil)
				if err != nil {
					b.Fatal(err)
				}
				if _, err := m.PDF(made); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// One leaf for the page, the shop's answers at hand.
func BenchmarkLeaf(b *testing.B) {
	for _, c := range [][2]string{{"boat-shop", "plan"}, {"boat-shop", "walls"}, {"ring-main", "plan"}, {"ring-main", "isometric"}, {"ring-main", "order"}, {"ring-main", "test"}, {"ring-main", "upkeep"}} {
		b.Run(c[0]+"/"+c[1], func(b *testing.B) {
			m := maker(b, exampleJob(b, c[0]), "a4")
			if _, err := m.Make(context.Background(), []string{c[1]}); err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				made, err := m.Make(context.Background(), []string{c[1]})
				if err != nil {
					b.Fatal(err)
				}
				if err := scene.WriteLeafSVG(discard{}, m.Leaves(made[0])[0], scene.Print()); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

type discard struct{}

func (discard) Write(p []byte) (int, error) { return len(p), nil }
