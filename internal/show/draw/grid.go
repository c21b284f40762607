package draw

import (
	"math"
	"slices"
)

// grid tells which of many boxes may touch a place, so that a label is not weighed
// against a whole shop. The zero grid is ready for use.
type grid struct {
	cell   float64 // side of a cell, mm
	x0, y0 float64
	nx, ny int
	cells  [][]int32 // numbers of what lies in each, in no order
	spans  []span    // by number
	found  []int32   // what lies near the place asked for last
}

// span is the cells from i0 to i1 and from j0 to j1; the zero span is none.
type span struct{ i0, j0, i1, j1 int }

// The cells of a grid: no smaller than a label's height, no more than it pays to make.
const (
	leastCell = 6 // mm
	mostCells = 4096
)

// over lays the grid over a sheet. What lies outside counts to the cells at its rim.
func (g *grid) over(sheet box) {
	w, h := max(sheet.x1-sheet.x0, 0), max(sheet.y1-sheet.y0, 0)
	g.cell = max(leastCell, math.Sqrt(w*h/mostCells))
	g.x0, g.y0 = sheet.x0, sheet.y0
	g.nx, g.ny = cells(w/g.cell), cells(h/g.cell)
	g.cells = make([][]int32, g.nx*g.ny)
}

// cells is a number of cells that covers so many.
func cells(n float64) int { return int(min(math.Ceil(n), mostCells)) + 1 }

// at is the cells that a box touches.
func (g *grid) at(b box) span {
	return span{
		int(inCells((b.x0-g.x0)/g.cell, g.nx)), int(inCells((b.y0-g.y0)/g.cell, g.ny)),
		int(inCells((b.x1-g.x0)/g.cell, g.nx)) + 1, int(inCells((b.y1-g.y0)/g.cell, g.ny)) + 1,
	}
}

// inCells holds a place within n cells; what is no number goes to the first.
func inCells(v float64, n int) float64 {
	if !(v > 0) {
		return 0
	}
	return min(v, float64(n-1))
}

// put says where number i lies from now on; an empty box lies nowhere.
func (g *grid) put(i int, b box) {
	for len(g.spans) <= i {
		g.spans = append(g.spans, span{})
	}
	old := g.spans[i]
	now := span{}
	if b != (box{}) {
		now = g.at(b)
	}
	if now == old {
		return
	}
	g.each(old, func(c *[]int32) {
		k := slices.Index(*c, int32(i))
		last := len(*c) - 1
		(*c)[k] = (*c)[last]
		*c = (*c)[:last]
	})
	g.each(now, func(c *[]int32) { *c = append(*c, int32(i)) })
	g.spans[i] = now
}

func (g *grid) each(s span, do func(*[]int32)) {
	for j := s.j0; j < s.j1; j++ {
		for i := s.i0; i < s.i1; i++ {
			do(&g.cells[j*g.nx+i])
		}
	}
}

// near lists what may touch a box, by number from the least: sums over it come out
// the same as over all. The list holds until the next call.
func (g *grid) near(b box) []int32 {
	g.found = g.found[:0]
	if len(g.cells) == 0 {
		return nil
	}
	s := g.at(b)
	for j := s.j0; j < s.j1; j++ {
		for i := s.i0; i < s.i1; i++ {
			g.found = append(g.found, g.cells[j*g.nx+i]...)
		}
	}
	slices.Sort(g.found)
	if s.i1-s.i0+s.j1-s.j0 > 2 {
		g.found = slices.Compact(g.found)
	}
	return g.found
}
