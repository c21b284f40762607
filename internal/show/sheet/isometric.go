package sheet

import (
	"context"

	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

// isometricRatio is the smallest scale at which joints have room on an isometric drawing, 1 to
// this (tried on the examples).
const isometricRatio = 125

func isometricSheet() Sheet {
	return Sheet{
		Name: "isometric", Title: "Isometric, with joints and lengths", Audience: "who builds it", Needs: "a line on the drawing", Wide: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			if !m.drawn() {
				return nil, nil
			}
			given, err := m.given(ctx, true, true)
			if err != nil {
				return nil, err
			}
			key, err := m.given(ctx, false, false)
			if err != nil {
				return nil, err
			}
			view := page.View{
				Draw: func(perMetre float64) scene.Scene { return draw.Isometric(given, m.at(perMetre)).Scene },
				Key:  func(perMetre float64) scene.Scene { return draw.Isometric(key, m.at(perMetre)).Scene },
			}
			return []page.Block{page.Drawings{
				Views: []page.View{view}, Least: leastRatio, Working: isometricRatio, NoScale: true, Legend: m.legendOf("outlet", "cut", "joint"),
				Notes: []string{"All three directions to the same scale, not foreshortened. Heights are over the datum. A joint or a piece without its number here is in the lists, with the things that it joins."},
			}}, nil
		},
	}
}
