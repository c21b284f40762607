package reftest

import (
	"strings"

	"dropleg/internal/shop/catalog"
)

const supportFile = "piping/support_spacing.csv"

func spacingLaws() []Law {
	const topic, code = "Supports", "internal/shop/catalog Spacing"
	return []Law{
		{Topic: topic, Name: "support spacing", Code: code, File: supportFile, Shelf: true, Figures: spacing},
		{
			Topic: topic, Name: "support spacing", Code: code, File: checksFile, Shelf: true, Of: []string{"support"},
			Figures: func(r Row) ([]Figure, error) {
				if r.ID != "checks 129" {
					return nil, unused("the closer spacing of another source governs: 8 ft against these 10")
				}
				_, z, err := sizeOf("steel-sch40", "1")
				s, _ := z.Spaced("horizontal")
				return []Figure{{Want: r.Want, Got: float64(s.Distance) / foot, Allowed: 0.02, Unit: "ft"}}, err
			},
		},
	}
}

// spacing holds the row on every size of the shelf that names it as its source.
func spacing(r Row) ([]Figure, error) {
	var figures []Figure
	for _, s := range catalog.Builtin().Stocks() {
		for _, z := range s.Sizes {
			for _, have := range z.Spacing {
				if citesSpacing(have, r) {
					name := s.Stock + " " + z.Size
					figures = append(figures, figure(name, r.Num("spacing_m"), float64(have.Distance), copied, "m"))
				}
			}
		}
	}
	if figures == nil {
		return nil, unused("no size of the shelf leans on it: another source has the closer spacing, or the stock is not on the shelf")
	}
	return figures, nil
}

// citesSpacing says whether a spacing of the shelf is that of the row: it names
// stock and size in the place, and agrees in direction and in how it was had.
func citesSpacing(have catalog.Spacing, r Row) bool {
	return strings.HasPrefix(have.Place, r.Cell["stock"]+", "+r.Cell["size"]) &&
		strings.HasPrefix(r.Cell["orientation"], have.Direction) && r.How == have.How &&
		figure("", r.Num("spacing_m"), float64(have.Distance), copied, "m").Off() <= copied*r.Num("spacing_m")
}
