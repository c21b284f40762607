package sheet

import (
	"context"

	"dropleg/engine/unit"
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
			if !m.planned() {
				return nil, nil
			}
			given, err := m.given(ctx, false, false)
			if err != nil {
				return nil, err
			}
			notes := append(draw.Plan(given, m.at(workingRatio/5)).Notes,
				"Dimensions: "+m.dimensionUnit()+" between the inner faces of the walls, to the middle of drops and lines, rounded from the corner; the list of marks has them to the tape.",
				"Heights are of the middle of the line over the floor of its room. The job states no north: walls are known by their names.")
			legend := m.legendOf("outlet", "fall")
			// What stands below the drawing is no room for dimensions.
			below := legend.Max[1] - legend.Min[1] + 5*float64(len(notes))
			key := given
			key.Work = &draw.Work{Dashes: given.Work.Dashes, Bare: true}
			return []page.Block{page.Drawings{
				Views: []page.View{{Draw: m.planAt(given, below), Key: m.planAt(key, below)}}, Least: leastRatio, Working: workingRatio, Legend: legend, Notes: notes,
			}}, nil
		},
		Drawings: planDrawings,
	}
}

func planDrawings(ctx context.Context, m *Maker) ([]Drawing, error) {
	if !m.planned() {
		return nil, nil
	}
	given, err := m.given(ctx, false, false)
	if err != nil {
		return nil, err
	}
	return []Drawing{{"plan", page.View{Draw: m.planAt(given, 0)}}}, nil
}

// planned says whether there is anything to draw a plan of.
func (m *Maker) planned() bool {
	return len(m.job.Building.Rooms)+len(m.job.Building.Walls) > 0 || m.drawn()
}

// planAt draws the plan at a scale, for a leaf on which so many mm are taken below it.
func (m *Maker) planAt(given draw.Given, below float64) func(float64) scene.Scene {
	return func(perMetre float64) scene.Scene {
		s := m.at(perMetre)
		s.Height -= below
		return draw.Plan(given, s).Scene
	}
}

// dimensionUnit is what dimensions are told in.
func (m *Maker) dimensionUnit() string {
	if m.options.System == unit.US {
		return "feet and inches"
	}
	return "metres"
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
