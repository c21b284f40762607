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
	drawn         scene.Scene // the whole at that scale
}

// matchRoom is kept at the edges of a tile for the words at its match lines, mm.
const matchRoom = 7

// tiles lays a drawing out again in parts at a scale to work from, each on a leaf of its own;
// parts on which nothing is drawn but floor are left out.
func (c *composer) tiles(v *View, t tiling) {
	for row := range t.rows {
		for column := range t.columns {
			if t.kept(row, column) {
				c.tile(v, &t.drawn, t, row, column)
			}
		}
	}
}

// kept says whether there is a leaf for a part; beyond the edges there is none.
func (t *tiling) kept(row, column int) bool {
	if row < 0 || column < 0 || row >= t.rows || column >= t.columns {
		return false
	}
	low, high := t.window(row, column)
	return touched(&t.drawn, low, high)
}

// tiling shares a drawing among leaves, all parts of one size: at the largest scale, none larger
// than the working one, at which they are not too many; one that is not to scale on as few leaves
// as its working scale takes, which it then fills.
func (c *composer) tiling(v *View, s *scene.Scene, d Drawings) tiling {
	w, h := c.right()-c.left()-2*matchRoom, c.top()-c.bottom()-2*matchRoom-headType*lineHeight
	if d.NoScale {
		return filled(v, s, d, w, h)
	}
	var t tiling
	for _, scale := range Scales(c.stamp.Inches) {
		if scale.Ratio < d.Working {
			continue
		}
		if t = tiled(v, scale, w, h); t.columns*t.rows <= mostTiles {
			break
		}
	}
	return t
}

// filled cuts a drawing that is not to scale, measured at another scale, into parts that fill
// their leaves.
func filled(v *View, s *scene.Scene, d Drawings, w, h float64) tiling {
	wide, high := s.Max[0]-s.Min[0], s.Max[1]-s.Min[1]
	k := 1000 / d.Working
	columns, rows := math.Ceil(wide*k/w), math.Ceil(high*k/h)
	for ; columns*rows > mostTiles; columns, rows = math.Ceil(wide*k/w), math.Ceil(high*k/h) {
		k *= 0.8
	}
	k = min(columns*w/wide, rows*h/high, 1000/max(d.Least, 1))
	return tiled(v, Scale{noScale, 1000 / k}, w, h)
}

// tiled cuts a drawing at a scale into parts that fit into a room of w by h mm.
func tiled(v *View, scale Scale, w, h float64) tiling {
	s, k := v.Draw(scale.PerMetre()), scale.PerMetre()
	wide, high := s.Max[0]-s.Min[0], s.Max[1]-s.Min[1]
	t := tiling{scale: scale, drawn: s, low: s.Min, top: s.Max[1], columns: int(math.Ceil(wide*k/w - 1e-6)), rows: int(math.Ceil(high*k/h - 1e-6))}
	t.wide, t.high = wide/float64(t.columns), high/float64(t.rows)
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
	line := func(a, b scene.Point, row, column int, turn float64, off scene.Point) {
		words := "match line, no pipe beyond"
		if t.kept(row, column) {
			words = "match line, goes on on " + tileName(row, column)
		}
		first := freest(&signs, k, at, a, b, off, scene.PrintWidth(words, smallType, false))
		it := scene.Words("", words, first, off, smallType, "start", "ink")
		it.Text.Turn = turn
		c.put(scene.Polyline("", "", match, a, b), it)
	}
	if column > 0 {
		line(scene.Point{x0, y0}, scene.Point{x0, y1}, row, column-1, 90, scene.Point{-1.5, 0})
	}
	if column+1 < t.columns {
		line(scene.Point{x1, y0}, scene.Point{x1, y1}, row, column+1, 90, scene.Point{smallType + 1, 0})
	}
	if row > 0 {
		line(scene.Point{x0, y1}, scene.Point{x1, y1}, row-1, column, 0, scene.Point{0, 1.5})
	}
	if row+1 < t.rows {
		line(scene.Point{x0, y0}, scene.Point{x1, y0}, row+1, column, 0, scene.Point{0, -smallType - 1})
	}
	c.y = c.bottom()
}

// freest is where along a match line words so wide cover least of what stands there.
func freest(signs *scene.Scene, perMetre float64, at, a, b, off scene.Point, wide float64) scene.Point {
	long := math.Hypot(b[0]-a[0], b[1]-a[1])
	dir := scene.Point{(b[0] - a[0]) / long, (b[1] - a[1]) / long}
	best, least := scene.Point{a[0] + 3*dir[0], a[1] + 3*dir[1]}, math.MaxInt
	for along := 3.0; along+wide < long-3; along += 8 {
		p := scene.Point{a[0] + along*dir[0], a[1] + along*dir[1]}
		q := scene.Point{p[0] + wide*dir[0] + off[0], p[1] + wide*dir[1] + off[1]}
		low := scene.Point{min(p[0], q[0]) - smallType, min(p[1], q[1]) - smallType}
		high := scene.Point{max(p[0], q[0]) + smallType, max(p[1], q[1]) + smallType}
		if n := covered(signs, perMetre, at, low, high); n < least {
			best, least = p, n
		}
	}
	return best
}

// parted shares a drawing for one tile: lines and areas, which end at its edges, the words and
// signs that are its own by their middle, which stand whole, and lengths of what it shows.
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
			at, sign := middle(&l.Items[i], t.scale.PerMetre())
			switch {
			case !sign:
				under.Items = append(under.Items, l.Items[i])
			case l.Items[i].Text != nil && l.Items[i].Text.Span != [2]scene.Point{}:
				over.Items = append(over.Items, t.spanning(l.Items[i], low, high)...)
			case at[0] >= low[0] && at[0] < high[0] && at[1] >= low[1] && at[1] < high[1]:
				over.Items = append(over.Items, l.Items[i])
			}
		}
		ground.Layers, signs.Layers = append(ground.Layers, under), append(signs.Layers, over)
	}
	return ground, signs
}

// middle is the middle of a word or a sign; sign is false of what is neither.
func middle(it *scene.Item, perMetre float64) (at scene.Point, sign bool) {
	switch {
	case it.Mark != nil:
		return it.Mark.At, true
	case it.Text == nil:
		return at, false
	}
	half := scene.PrintWidth(it.Text.Text, it.Text.Size, it.Text.Bold) / 2 / perMetre
	switch it.Text.Anchor {
	case "middle":
		half = 0
	case "end":
		half = -half
	}
	sin, cos := math.Sincos(it.Text.Turn * math.Pi / 180)
	return scene.Point{it.Text.At[0] + half*cos, it.Text.At[1] + half*sin}, true
}

// covered is how many words and signs of a drawing, laid with its origin at a place, something
// from low to high on the leaf would cover.
func covered(s *scene.Scene, perMetre float64, at, low, high scene.Point) int {
	n := 0
	for i := range s.Layers {
		for k := range s.Layers[i].Items {
			it := &s.Layers[i].Items[k]
			mid, sign := middle(it, perMetre)
			if !sign {
				continue
			}
			x, y := at[0]+mid[0]*perMetre, at[1]+mid[1]*perMetre
			half, up := 3.0, 2.0
			if t := it.Text; t != nil {
				sin, cos := math.Sincos(t.Turn * math.Pi / 180)
				long := scene.PrintWidth(t.Text, t.Size, t.Bold)/2 + 0.5
				half, up = long*math.Abs(cos)+t.Size*math.Abs(sin), long*math.Abs(sin)+t.Size*math.Abs(cos)
				x, y = x+t.Offset[0], y+t.Offset[1]
			}
			if x+half > low[0] && x-half < high[0] && y+up > low[1] && y-up < high[1] {
				n++
			}
		}
	}
	return n
}
