package draw

import (
	"math"
	"testing"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// The shed's second line runs along the north wall, from 2 to 4 m of it at a height of
// 2.5 m: a support one metre along it is at 3 m.
func TestSupportsWhereTheyAre(t *testing.T) {
	given := shed()
	given.Supports = []Support{
		{ID: "line.2/clip-1", Run: "line.2", Along: 1, Fixed: true, Title: "clip"},
		{ID: "line.9/clip-1", Run: "line.9", Along: 1, Title: "of a line that is not there"},
	}
	sheet := Sheet{Width: 160, Height: 110, Units: unit.Metric}
	wall := Elevation(given, sheet, "")
	marks := marksOf(wall, "supports")
	if len(marks) != 1 {
		t.Fatalf("%d supports on the walls", len(marks))
	}
	frames := map[job.ID]Frame{}
	for _, f := range wall.Frames {
		frames[f.Wall] = f
	}
	north := frames["wall.n"]
	at := marks["line.2/clip-1"]
	if math.Abs(at[0]-north.Origin[0]-3) > 1e-9 || math.Abs(at[1]-north.Origin[1]-2.5) > 1e-9 {
		t.Errorf("at %v, the wall's frame at %v", at, north.Origin)
	}
	plan := marksOf(Plan(given, sheet), "supports")
	if at := plan["line.2/clip-1"]; len(plan) != 1 || math.Abs(at[0]-3) > 1e-9 {
		t.Errorf("on the plan %v", plan)
	}
}
