package draw

import (
	"dropleg/internal/show/scene"
)

// CutBar is one length of stock with what is cut from it, in metres.
type CutBar struct {
	Words  string // "1", its number in the plan
	Long   float64
	Pieces []CutPiece
	Open   float64 // what is left at its end
}

// CutPiece is one piece: the thing of the drawing that it is part of, and its length.
type CutPiece struct {
	ID    string
	Title string
	Words string // what is written on it
	Long  float64
}

// The parts of the chart in mm.
const (
	cutRow   = 7.0
	cutHigh  = 4.4
	cutLeft  = 7.0
	cutRight = 1.0
)

// CutRow is how high one length stands in the chart, in mm.
const CutRow = cutRow

// CutsHigh is how high the chart is in mm with so many lengths.
func CutsHigh(bars int) float64 { return cutRow*float64(bars) + 1 }

// Cuts draws lengths of stock to scale, one below the other, with the pieces that are cut
// from each in the order of the cuts; what is left is hatched. One metre of the scene is a
// metre of paper.
func Cuts(title string, bars []CutBar, sheet Sheet) scene.Scene {
	out := scene.Scene{Title: title, Max: at(sheet.Width, sheet.Height)}
	longest := 0.0
	for _, b := range bars {
		longest = max(longest, b.Long)
	}
	if longest <= 0 || sheet.Width <= cutLeft+cutRight {
		out.Fill()
		return out
	}
	scale := (sheet.Width - cutLeft - cutRight) / longest
	var lengths, pieces []scene.Item
	for i, b := range bars {
		y := sheet.Height - cutRow*float64(i+1) + (cutRow-cutHigh)/2
		lengths = append(lengths, scene.Words("", b.Words, at(cutLeft-1.4, y+cutHigh/2-0.9), scene.Point{}, dayType, "end", "soft"))
		lengths = append(lengths, b.rest(y, scale)...)
		from := cutLeft
		for _, p := range b.Pieces {
			pieces = append(pieces, p.box(from, y, scale)...)
			from += p.Long * scale
		}
	}
	out.Layers = []scene.Layer{{ID: "grid", Title: "lengths", Items: lengths}, {ID: "way", Title: "pieces", Items: pieces}}
	out.Fill()
	return out
}

// rest is the outline of a length with its open end hatched.
func (b *CutBar) rest(y, scale float64) []scene.Item {
	end := cutLeft + b.Long*scale
	stroke := scene.Solid(0.25, "edge")
	items := []scene.Item{{Area: &scene.Area{Points: oblong(cutLeft, y, end, y+cutHigh), Stroke: &stroke}}}
	if left := b.Open * scale; left > 0.4 {
		items = append(items, scene.Item{Title: "left over", Area: &scene.Area{Points: oblong(end-left, y, end, y+cutHigh), Hatch: "diagonal"}})
	}
	return items
}

// box is a piece with its length where it has room.
func (p *CutPiece) box(from, y, scale float64) []scene.Item {
	to := from + p.Long*scale
	stroke := scene.Solid(0.3, "ink")
	items := []scene.Item{{ID: p.ID, Title: p.Title, Area: &scene.Area{Points: oblong(from, y, to, y+cutHigh), Stroke: &stroke, Fill: "thing"}}}
	if scene.TextWidth(p.Words, dayType, false) < to-from-0.8 {
		items = append(items, scene.Words(p.ID, p.Words, at((from+to)/2, y+cutHigh/2-0.9), scene.Point{}, dayType, "middle", "ink"))
	}
	return items
}

func oblong(x0, y0, x1, y1 float64) []scene.Point {
	return []scene.Point{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}
}
