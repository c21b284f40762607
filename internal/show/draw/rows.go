package draw

import "dropleg/internal/show/scene"

// Millimetres of paper about a row of panels: over it, under it for dimensions
// and the name, and on its left for the height.
const (
	overRow  = 4.0
	underRow = 17.0
	leftRow  = 9.0
	betweenP = 3.0 // between panels that do not meet
)

// rowsFor lays panels in rows so that they are as large as can be on the sheet.
// It decides on paper of a usual size in the sheet's proportions, so that a larger
// view of the same sheet shows the same rows. It gives the extent in metres.
func (s Sheet) rowsFor(all []panel, tall float64) (lowest, highest scene.Point) {
	w, h := min(max(s.Width, leastPaper), mostPaper), min(max(s.Height, leastPaper), mostPaper)
	usual := 380 / (w + h)
	w, h = w*usual-2*margin-leftRow, h*usual-2*margin
	best, least := 0.0, 1
	for k := 1; k <= min(len(all), 10); k++ {
		wide := narrowest(all, k)
		scale := min(w/max(wide, 0.5), (h-float64(k)*(overRow+underRow))/(float64(k)*tall))
		if scale > best*1.02 {
			best, least = scale, k
		}
	}
	switch {
	case s.Scale > 0:
		best = s.Scale
	case best <= 0:
		best = 1
	}
	return place(all, narrowest(all, least), tall, best)
}

// narrowest is the least width in metres for which k rows hold the panels in order.
func narrowest(all []panel, k int) float64 {
	low, high := 0.0, 0.0
	for _, p := range all {
		low, high = max(low, p.long), high+p.long
	}
	for range 40 {
		mid := (low + high) / 2
		if rowsAt(all, mid) <= k {
			high = mid
		} else {
			low = mid
		}
	}
	return high
}

func rowsAt(all []panel, width float64) int {
	rows, along := 1, 0.0
	for _, p := range all {
		if along > 0 && along+p.long > width+1e-9 {
			rows, along = rows+1, 0
		}
		along += p.long
	}
	return rows
}

// place gives every panel its place in the scene, the first row on top; the first panel has its
// upper left corner at the origin whatever the scale, so that one drawing lies on another.
func place(all []panel, width, tall, scale float64) (lowest, highest scene.Point) {
	x, y, along := 0.0, -tall, 0.0
	highest[1] = overRow / scale
	for i := range all {
		p := &all[i]
		if along > 0 && along+p.long > width+1e-9 {
			x, along = 0, 0
			y -= tall + (overRow+underRow)/scale
		}
		if along > 0 && all[i-1].next != i {
			x += betweenP / scale
		}
		p.at[0], p.at[1] = x, y
		x += p.long
		along += p.long
		highest[0] = max(highest[0], x)
	}
	return scene.Point{-leftRow / scale, y - underRow/scale}, highest
}
