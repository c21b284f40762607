package draw

import (
	"fmt"
	"math"

	"dropleg/internal/show/scene"
)

// Chance is how often one tool has its pressure.
type Chance struct {
	ID     string
	Words  string
	Enough float64 // share of its working time, 0..1
	Within float64 // by how much that may be off, 95 %; 0: not known
	Short  bool    // it goes short for more than is planned for
}

// The parts of the chart in mm.
const (
	chanceRow  = 4.6
	chanceLeft = 34.0
	chanceEnd  = 17.0
	chanceFoot = 9.0
)

// ChanceHigh is how high the chart is in mm with so many tools.
func ChanceHigh(tools int) float64 { return chanceFoot + chanceRow*float64(tools) + 2 }

// Chances draws for each tool the share of its working time in which it has its pressure: a
// full mark where it goes short for more than planned, an empty one else, whiskers for what is
// not known. planned is the share that the job plans for. One metre of the scene is a metre of paper.
func Chances(title string, list []Chance, planned float64, sheet Sheet) scene.Scene {
	out := scene.Scene{Title: title, Max: at(sheet.Width, sheet.Height)}
	left, right := chanceLeft, sheet.Width-chanceEnd
	if len(list) == 0 || right <= left {
		out.Fill()
		return out
	}
	low := planned
	for _, c := range list {
		low = min(low, c.Enough-c.Within)
	}
	step := 0.05
	if low < 0.6 {
		step = 0.2
	} else if low < 0.85 {
		step = 0.1
	}
	low = max(0, math.Floor(low/step-0.3)*step)
	x := func(share float64) float64 { return left + (min(max(share, low), 1)-low)/(1-low)*(right-left) }
	top := chanceFoot + chanceRow*float64(len(list))
	var grid, rows []scene.Item
	for s := low; s < 1+1e-9; s += step {
		grid = append(grid,
			scene.Polyline("", "", scene.Solid(0.18, "faint"), at(x(s), chanceFoot-1), at(x(s), top)),
			scene.Words("", fmt.Sprintf("%.0f %%", 100*s), at(x(s), chanceFoot-4), scene.Point{}, dayType, "middle", "soft"))
	}
	grid = append(grid,
		scene.Words("", "share of its working time with its pressure", at((left+right)/2, 1), scene.Point{}, dayType, "middle", "soft"),
		scene.Polyline("", fmt.Sprintf("planned for: %.1f %%", 100*planned), scene.Stroke{Width: 0.3, Color: "ink", Dash: []float64{0.5, 0.9}}, at(x(planned), chanceFoot-1), at(x(planned), top+1)))
	for i, c := range list {
		y := top - chanceRow*(float64(i)+0.5)
		rows = append(rows, c.row(y, left, sheet.Width, x)...)
	}
	out.Layers = []scene.Layer{{ID: "grid", Title: "share", Items: grid}, {ID: "way", Title: "tools", Items: rows}}
	out.Fill()
	return out
}

// row is one tool.
func (c Chance) row(y, left, width float64, x func(float64) float64) []scene.Item {
	figure := fmt.Sprintf("%.1f %%", 100*c.Enough)
	if c.Enough > 0.9999 {
		figure = "always"
	}
	color, fill := "ink", "paper"
	if c.Short {
		color, fill = "accent", "accent"
	}
	stroke := scene.Solid(0.3, color)
	dot := scene.Path{D: "M-1 0A1 1 0 1 0 1 0A1 1 0 1 0 -1 0Z", Stroke: &stroke, Fill: fill}
	items := []scene.Item{
		scene.Words(c.ID, cropped(c.Words, dayType, left-2), at(left-1.6, y-0.8), scene.Point{}, dayType, "end", "ink"),
		scene.Polyline("", "", scene.Solid(0.12, "faint"), at(left, y), at(x(1), y)),
	}
	if c.Within > 0 {
		items = append(items, scene.Polyline("", "", scene.Solid(0.5, color), at(x(c.Enough-c.Within), y), at(x(c.Enough+c.Within), y)))
	}
	return append(items,
		scene.Item{ID: c.ID, Title: c.Words + ": " + figure, Mark: &scene.Mark{At: at(x(c.Enough), y), Parts: []scene.Path{dot}}},
		scene.Words(c.ID, figure, at(width-1, y-0.8), scene.Point{}, dayType, "end", color))
}
