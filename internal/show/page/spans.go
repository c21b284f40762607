package page

import (
	"math"

	"dropleg/internal/show/scene"
)

// spanning is a dimension on the tile from low to high. Where the tile shows only a part of the
// stretch, its length stands on that part, with the tile on which it ends if there is room for
// it, so that a leaf can be read alone. A part with no room for figures has them only where the
// middle of the stretch is.
func (t *tiling) spanning(it scene.Item, low, high scene.Point) []scene.Item {
	text := *it.Text
	ends := text.Span
	from, to := within(ends, low, high)
	if from >= to {
		return nil
	}
	if from == 0 && to == 1 {
		return []scene.Item{it}
	}
	told := text.Text
	if from > 0 {
		told += " from " + t.tileAt(ends[0])
	}
	if to < 1 {
		told += " to " + t.tileAt(ends[1])
	}
	long := (to - from) * math.Hypot(ends[1][0]-ends[0][0], ends[1][1]-ends[0][1]) * t.scale.PerMetre()
	fits := func(words string) bool { return scene.PrintWidth(words, text.Size, text.Bold)+1 <= long }
	switch {
	case fits(told):
		text.Text = told
	case fits(text.Text):
	case from < 0.5 && to >= 0.5:
		return []scene.Item{it}
	default:
		return nil
	}
	shift := (from+to)/2 - 0.5
	text.At = scene.Point{text.At[0] + shift*(ends[1][0]-ends[0][0]), text.At[1] + shift*(ends[1][1]-ends[0][1])}
	it.Text = &text
	return []scene.Item{it}
}

// within is the part of a stretch in a window, as shares of it from its first end.
func within(s [2]scene.Point, low, high scene.Point) (from, to float64) {
	to = 1
	for k := range 2 {
		d := s[1][k] - s[0][k]
		if d == 0 {
			if s[0][k] < low[k] || s[0][k] >= high[k] {
				return 0, 0
			}
			continue
		}
		a, b := (low[k]-s[0][k])/d, (high[k]-s[0][k])/d
		from, to = max(from, min(a, b)), min(to, max(a, b))
	}
	return from, to
}

// tileAt is the name of the tile on which a place lies, of the nearest where on none.
func (t *tiling) tileAt(at scene.Point) string {
	column, row := int((at[0]-t.low[0])/t.wide), int((t.top-at[1])/t.high)
	return tileName(min(max(row, 0), t.rows-1), min(max(column, 0), t.columns-1))
}
