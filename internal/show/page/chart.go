package page

import (
	"math"

	"dropleg/internal/show/scene"
)

// Chart is a drawing of a fixed size on paper, at its own scale in mm to the metre.
type Chart struct {
	Scene scene.Scene
	Scale float64
	// Row is the height of its rows from the top, in its own metres: between two of them it may
	// be cut where a leaf ends. 0: it stays whole.
	Row float64
}

func (ch Chart) onto(c *composer) {
	s := &ch.Scene
	high := (s.Max[1] - s.Min[1]) * ch.Scale
	if row := ch.Row * ch.Scale; row > 0 && c.y-high < c.bottom() {
		ch.rows(c, row, high)
		return
	}
	c.need(high)
	c.lay(&ch, c.left())
	c.y -= high + 2
}

// rows lays a chart out on as many leaves as it takes, cut between its rows.
func (ch *Chart) rows(c *composer, row, high float64) {
	for top := 0.0; top < high-0.01; {
		n := math.Floor((c.y - c.bottom()) / row)
		if n < 1 {
			if c.y >= c.top() {
				return // no leaf holds a row
			}
			c.turn()
			continue
		}
		tall := min(n*row, high-top)
		s := ch.between(top/ch.Scale, (top+tall)/ch.Scale)
		c.lay(&Chart{Scene: s, Scale: ch.Scale}, c.left())
		c.y -= tall
		top += tall
	}
	c.y -= 2
}

// between is what of a chart has its middle from one depth under its upper edge to another.
func (ch *Chart) between(from, to float64) scene.Scene {
	s := ch.Scene
	upper, lower := s.Max[1]-from, s.Max[1]-to
	s.Min[1], s.Max[1] = lower, upper
	s.Layers = nil
	for _, l := range ch.Scene.Layers {
		kept := l
		kept.Items = nil
		for _, it := range l.Items {
			if y := depth(&it); y <= upper && y > lower {
				kept.Items = append(kept.Items, it)
			}
		}
		s.Layers = append(s.Layers, kept)
	}
	return s
}

// depth is the middle of an item up the drawing.
func depth(it *scene.Item) float64 {
	var points []scene.Point
	switch {
	case it.Text != nil:
		return it.Text.At[1]
	case it.Mark != nil:
		return it.Mark.At[1]
	case it.Area != nil:
		points = it.Area.Points
	case it.Line != nil:
		points = it.Line.Points
	}
	sum := 0.0
	for _, p := range points {
		sum += p[1] / float64(len(points))
	}
	return sum
}

// lay sets a chart with its upper left corner at a place on the line where the next block begins.
func (c *composer) lay(ch *Chart, x float64) {
	s := &ch.Scene
	c.now().laid = append(c.now().laid, scene.Laid{
		Scene: *s, Scale: ch.Scale, At: scene.Point{x - s.Min[0]*ch.Scale, c.y - s.Max[1]*ch.Scale},
	})
}
