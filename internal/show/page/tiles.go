package page

import (
	"fmt"
	"math"

	"dropleg/internal/show/scene"
)

// tiling is how a drawing is cut into leaves, from its upper left corner on.
type tiling struct {
	scale         Scale
	wide, high    float64 // of a tile, in m
	columns, rows int
	low           scene.Point // the lower left corner of the drawing, and its upper edge
	top           float64
}

// matchRoom is kept at the edges of a tile for the words at its match lines, mm.
const matchRoom = 7

// tiles lays a drawing out again in parts at a scale to work from, each on a leaf of its own;
// parts on which nothing is drawn but floor are left out.
func (c *composer) tiles(v *View, t tiling) {
	s := v.Draw(t.scale.PerMetre())
	for row := range t.rows {
		for column := range t.columns {
			if a, b := t.window(row, column); touched(&s, a, b) {
				c.tile(v, &s, t, row, column)
			}
		}
	}
}

// tiling shares a drawing among leaves at the largest scale, none larger than the working one,
// at which they are not too many; all parts of one size.
func (c *composer) tiling(s *scene.Scene, d Drawings) tiling {
	w, h := c.right()-c.left()-2*matchRoom, c.top()-c.bottom()-2*matchRoom-headType*lineHeight
	var t tiling
	for _, scale := range Scales(c.stamp.Inches) {
		if scale.Ratio < d.Working {
			continue
		}
		k := scale.PerMetre()
		if d.NoScale {
			scale.Words = noScale
		}
		wide, high := s.Max[0]-s.Min[0], s.Max[1]-s.Min[1]
		t = tiling{scale: scale, low: s.Min, top: s.Max[1], columns: int(math.Ceil(wide * k / w)), rows: int(math.Ceil(high * k / h))}
		t.wide, t.high = wide/float64(t.columns), high/float64(t.rows)
		if t.columns*t.rows <= mostTiles {
			break
		}
	}
	return t
}

func (t *tiling) window(row, column int) (low, high scene.Point) {
	x, y := t.low[0]+float64(column)*t.wide, t.top-float64(row+1)*t.high
	return scene.Point{x, y}, scene.Point{x + t.wide, y + t.high}
}

// seen is what shows of a drawing on a tile: at its outer edges also what hangs over them.
func (t *tiling) seen(row, column int, low, high scene.Point) [2]scene.Point {
	const over = matchRoom - 1
	if column == 0 {
		low[0] -= over
	}
	if column == t.columns-1 {
		high[0] += over
	}
	if row == 0 {
		high[1] += over
	}
	if row == t.rows-1 {
		low[1] -= over
	}
	return [2]scene.Point{low, high}
}

func tileName(row, column int) string {
	return fmt.Sprintf("%c%d", 'A'+rune(column%26), row+1)
}

// tile lays one part on a leaf, with a match line to each of its neighbours.
func (c *composer) tile(v *View, s *scene.Scene, t tiling, row, column int) {
	c.turn()
	k := t.scale.PerMetre()
	c.now().scale = t.scale.Words
	c.flow(or(v.Title, s.Title)+", part "+tileName(row, column), headType, true)
	low, _ := t.window(row, column)
	x0, y1 := c.left()+matchRoom, c.y-matchRoom
	x1, y0 := x0+t.wide*k, y1-t.high*k
	window := t.seen(row, column, scene.Point{x0, y0}, scene.Point{x1, y1})
	whole := [2]scene.Point{{edge + 0.3, c.bottom() - inner + 0.3}, {c.wide - edge - 0.3, c.high - edge - 0.3}}
	ground, signs := t.parted(s, row, column)
	at := scene.Point{x0 - low[0]*k, y0 - low[1]*k}
	c.now().laid = append(c.now().laid, scene.Laid{Scene: ground, Scale: k, At: at, Window: &window}, scene.Laid{Scene: signs, Scale: k, At: at, Window: &whole})
	match := scene.Stroke{Width: 0.4, Color: "ink", Dash: []float64{8, 1.5, 1.5, 1.5}}
	const first = 3 // mm from the beginning of the line, where least stands
	line := func(a, b scene.Point, to string, turn float64, off scene.Point) {
		it := scene.Words("", "match line, goes on on "+to, scene.Point{a[0] + math.Cos(turn*math.Pi/180)*first, a[1] + math.Sin(turn*math.Pi/180)*first}, off, smallType, "start", "ink")
		it.Text.Turn = turn
		c.put(scene.Polyline("", "", match, a, b), it)
	}
	if column > 0 {
		line(scene.Point{x0, y0}, scene.Point{x0, y1}, tileName(row, column-1), 90, scene.Point{-1.5, 0})
	}
	if column+1 < t.columns {
		line(scene.Point{x1, y0}, scene.Point{x1, y1}, tileName(row, column+1), 90, scene.Point{smallType + 1, 0})
	}
	if row > 0 {
		line(scene.Point{x0, y1}, scene.Point{x1, y1}, tileName(row-1, column), 0, scene.Point{0, 1.5})
	}
	if row+1 < t.rows {
		line(scene.Point{x0, y0}, scene.Point{x1, y0}, tileName(row+1, column), 0, scene.Point{0, -smallType - 1})
	}
	c.y = c.bottom()
}

// parted shares a drawing for one tile: lines and areas, which end at its edges, and the words
// and signs that are its own by their middle, which stand whole.
func (t *tiling) parted(s *scene.Scene, row, column int) (ground, signs scene.Scene) {
	low, high := t.window(row, column)
	for k, outer := range []bool{column == 0, row == t.rows-1} {
		if outer {
			low[k] = math.Inf(-1)
		}
	}
	for k, outer := range []bool{column == t.columns-1, row == 0} {
		if outer {
			high[k] = math.Inf(1)
		}
	}
	ground, signs = *s, *s
	ground.Layers, signs.Layers = nil, nil
	for _, l := range s.Layers {
		under, over := l, l
		under.Items, over.Items = nil, nil
		for i := range l.Items {
			at, sign := t.middle(&l.Items[i])
			switch {
			case !sign:
				under.Items = append(under.Items, l.Items[i])
			case at[0] >= low[0] && at[0] < high[0] && at[1] >= low[1] && at[1] < high[1]:
				over.Items = append(over.Items, l.Items[i])
			}
		}
		ground.Layers, signs.Layers = append(ground.Layers, under), append(signs.Layers, over)
	}
	return ground, signs
}

// middle is the middle of a word or a sign; sign is false of what is neither.
func (t *tiling) middle(it *scene.Item) (at scene.Point, sign bool) {
	switch {
	case it.Mark != nil:
		return it.Mark.At, true
	case it.Text == nil:
		return at, false
	}
	half := scene.PrintWidth(it.Text.Text, it.Text.Size, it.Text.Bold) / 2 / t.scale.PerMetre()
	switch it.Text.Anchor {
	case "middle":
		half = 0
	case "end":
		half = -half
	}
	sin, cos := math.Sincos(it.Text.Turn * math.Pi / 180)
	return scene.Point{it.Text.At[0] + half*cos, it.Text.At[1] + half*sin}, true
}

// mark draws on the whole which part is on which leaf.
func (c *composer) mark(s *scene.Scene, over Scale, t tiling) {
	at := c.now().laid[len(c.now().laid)-1].At
	k := over.PerMetre()
	for row := range t.rows {
		for column := range t.columns {
			low, high := t.window(row, column)
			a, b := scene.Point{at[0] + low[0]*k, at[1] + low[1]*k}, scene.Point{at[0] + high[0]*k, at[1] + high[1]*k}
			name := scene.Words("", tileName(row, column), scene.Point{b[0] - 2, b[1] - 1.5 - headType}, scene.Point{}, headType, "end", "ink")
			wide := scene.PrintWidth(tileName(row, column), headType, false)
			plate := scene.Item{Area: &scene.Area{Points: box(b[0]-3-wide, b[1]-2.5-headType, b[0]-1, b[1]-0.5), Fill: "paper", Stroke: &scene.Stroke{Width: 0.2, Color: "soft"}}}
			c.put(scene.Item{Area: &scene.Area{Points: box(a[0], a[1], b[0], b[1]), Stroke: &scene.Stroke{Width: 0.25, Color: "soft", Dash: []float64{4, 1, 1, 1}}}}, plate, name)
		}
	}
}

// touched says whether a line, a sign or a text of a drawing lies in a window.
func touched(s *scene.Scene, low, high scene.Point) bool {
	in := func(p scene.Point) bool {
		return p[0] >= low[0] && p[0] <= high[0] && p[1] >= low[1] && p[1] <= high[1]
	}
	for i := range s.Layers {
		for k := range s.Layers[i].Items {
			switch it := &s.Layers[i].Items[k]; {
			case it.Text != nil && in(it.Text.At), it.Mark != nil && in(it.Mark.At):
				return true
			case it.Line != nil && passes(it.Line.Points, in):
				return true
			}
		}
	}
	return false
}

// passes says whether a line comes through a window, by places on it a little apart.
func passes(points []scene.Point, in func(scene.Point) bool) bool {
	const apart = 0.25 // m
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		n := int(math.Hypot(b[0]-a[0], b[1]-a[1])/apart) + 1
		for k := 0; k <= n && n < 1e5; k++ {
			f := float64(k) / float64(n)
			if in(scene.Point{a[0] + f*(b[0]-a[0]), a[1] + f*(b[1]-a[1])}) {
				return true
			}
		}
	}
	return false
}
