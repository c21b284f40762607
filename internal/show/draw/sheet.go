package draw

import (
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// Sheet is the paper that a drawing is laid out for. Labels keep clear of one
// another at this size; a larger view of the same scene only gives them room.
type Sheet struct {
	Width, Height float64 // mm
	// Scale is in mm of paper to the metre; 0: what fits.
	Scale float64
	Units unit.System
	Env   unit.Env
}

// The sizes of paper for which layouts are tried at all, in mm.
const (
	leastPaper = 60
	mostPaper  = 2000
)

// margin in mm around the building: room for what hangs over its edge.
const margin = 6

// scaleFor gives mm of paper to the metre so that an extent fits the sheet.
func (s Sheet) scaleFor(low, high scene.Point) float64 {
	if s.Scale > 0 {
		return s.Scale
	}
	w := min(max(s.Width, leastPaper), mostPaper) - 2*margin
	h := min(max(s.Height, leastPaper), mostPaper) - 2*margin
	dx, dy := max(high[0]-low[0], 0.5), max(high[1]-low[1], 0.5)
	return min(w/dx, h/dy)
}

// text puts a figure into the person's units; brackets of the mixed system are
// left out where short is set, because a label on a drawing has no room.
func (s Sheet) text(k unit.Kind, si float64) string { return s.Units.Text(k, si, s.Env) }

// short is the bare number in the person's main unit.
func (s Sheet) short(k unit.Kind, si float64) string {
	number, _ := s.Units.Split(k, si, s.Env)
	return number
}

// short with its unit, without the second unit of the mixed system.
func (s Sheet) plain(k unit.Kind, si float64) string {
	number, u := s.Units.Split(k, si, s.Env)
	return number + " " + u
}

// extent words the size of a room: centimetres, or tenths of a foot.
func (s Sheet) extent(x, y float64) string {
	if s.Units == unit.US {
		return s.dimension(x) + " × " + s.dimension(y)
	}
	round := func(v float64) string { return trim(math.Round(v*100) / 100) }
	return round(x) + " × " + round(y) + " m"
}

// finite keeps what is not a number off the paper.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
