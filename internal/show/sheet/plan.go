package sheet

import (
	"context"

	"dropleg/internal/show/draw"
	"dropleg/internal/show/page"
	"dropleg/internal/show/scene"
)

// workingRatio is the smallest scale that lines are built from, 1 to this: at 1:100 a
// millimetre of paper is a hand's width (common practice, no source).
const workingRatio = 100

func planSheet() Sheet {
	return Sheet{
		Name: "plan", Title: "Plan", Audience: "who builds it", Needs: "a room or a line on the drawing", Wide: true,
		Make: func(ctx context.Context, m *Maker) ([]page.Block, error) {
			all, err := planDrawings(ctx, m)
			if err != nil || len(all) == 0 {
				return nil, err
			}
			given, err := m.given(ctx, false, false)
			if err != nil {
				return nil, err
			}
			notes := append(draw.Plan(given, m.at(workingRatio/5)).Notes, "Heights are of the middle of the line over the floor of its room. The job states no north: walls are known by their names.")
			return []page.Block{page.Drawings{
				Views: []page.View{all[0].View}, Least: leastRatio, Working: workingRatio, Legend: m.legendOf("outlet", "fall"), Notes: notes,
			}}, nil
		},
		Drawings: planDrawings,
	}
}

func planDrawings(ctx context.Context, m *Maker) ([]Drawing, error) {
	if len(m.job.Building.Rooms)+len(m.job.Building.Walls) == 0 && !m.drawn() {
		return nil, nil
	}
	given, err := m.given(ctx, false, false)
	if err != nil {
		return nil, err
	}
	return []Drawing{{"plan", page.View{Draw: func(perMetre float64) scene.Scene {
		return draw.Plan(given, m.at(perMetre)).Scene
	}}}}, nil
}

// at is the sheet of a drawing at a scale.
func (m *Maker) at(perMetre float64) draw.Sheet {
	s := m.units
	s.Width, s.Height = page.Room(m.options.Paper, true)
	s.Scale = perMetre
	return s
}

// legendOf is the legend under a drawing across a sheet on its side.
func (m *Maker) legendOf(what ...string) *scene.Scene {
	w, _ := page.Room(m.options.Paper, true)
	return legend(m.keyOf(what...), w)
}
