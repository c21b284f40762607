package draw

import (
	"cmp"
	"math"
	"slices"

	"dropleg/internal/show/scene"
)

// covering is which patches of paper a drawing covers, counted up from its lower left corner.
type covering struct {
	x0, y0 float64
	nx, ny int
	sums   []int32
}

const patch = 2.0 // mm, the side of one

// covered are the patches that words, signs and lines of a drawing take.
func (m *isometer) covered(layers []scene.Layer) *covering {
	b := m.field.sheet.grown(2 * patch)
	c := &covering{x0: b.x0, y0: b.y0, nx: int((b.x1-b.x0)/patch) + 1, ny: int((b.y1-b.y0)/patch) + 1}
	c.sums = make([]int32, (c.nx+1)*(c.ny+1))
	set := func(x, y int) {
		if x >= 0 && y >= 0 && x < c.nx && y < c.ny {
			c.sums[(y+1)*(c.nx+1)+x+1] = 1
		}
	}
	for _, q := range m.field.boxes {
		if q == (box{}) {
			continue
		}
		for x := int((q.x0 - b.x0) / patch); x <= int((q.x1-b.x0)/patch); x++ {
			for y := int((q.y0 - b.y0) / patch); y <= int((q.y1-b.y0)/patch); y++ {
				set(x, y)
			}
		}
	}
	line := func(p, q scene.Point) {
		n := int(math.Hypot(q[0]-p[0], q[1]-p[1])/patch*2) + 1
		for k := 0; k <= n && n < 1e5; k++ {
			at := mix(p, q, float64(k)/float64(n))
			set(int((at[0]-b.x0)/patch), int((at[1]-b.y0)/patch))
		}
	}
	for _, s := range m.field.strokes {
		line(s.p, s.q)
	}
	for _, l := range layers {
		for i := range l.Items {
			for k := 1; l.Items[i].Line != nil && k < len(l.Items[i].Line.Points); k++ {
				line(m.mm(l.Items[i].Line.Points[k-1]), m.mm(l.Items[i].Line.Points[k]))
			}
		}
	}
	for y := 1; y <= c.ny; y++ {
		for x := 1; x <= c.nx; x++ {
			c.sums[y*(c.nx+1)+x] += c.sums[(y-1)*(c.nx+1)+x] + c.sums[y*(c.nx+1)+x-1] - c.sums[(y-1)*(c.nx+1)+x-1]
		}
	}
	return c
}

// free says whether nothing is drawn in a box.
func (c *covering) free(b box) bool {
	x0, x1 := int(math.Floor((b.x0-c.x0)/patch)), int(math.Ceil((b.x1-c.x0)/patch))
	y0, y1 := int(math.Floor((b.y0-c.y0)/patch)), int(math.Ceil((b.y1-c.y0)/patch))
	x0, x1, y0, y1 = min(max(x0, 0), c.nx), min(max(x1, 0), c.nx), min(max(y0, 0), c.ny), min(max(y1, 0), c.ny)
	at := func(x, y int) int32 { return c.sums[y*(c.nx+1)+x] }
	return at(x1, y1)-at(x0, y1)-at(x1, y0)+at(x0, y0) == 0
}

// laidOut finds where on the leaf the main drawing goes, in the middle if that leaves room for
// all insets, and where each of these; nil for one that has none.
func (l *leafer) laidOut(c *covering, b box, middle scene.Point, insets []inset) (by scene.Point, places []*scene.Point) {
	room := scene.Point{l.sheet.Width + 2*margin - (b.x1 - b.x0), l.sheet.Height + 2*margin - (b.y1 - b.y0)}
	order := make([]int, len(insets))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int {
		if a, b := insets[i].first, insets[k].first; a != b {
			return map[bool]int{true: -1, false: 1}[a]
		}
		return cmp.Compare(insets[k].box.area(), insets[i].box.area())
	})
	most := -1
	for _, u := range []scene.Point{{0.5, 0.5}, {0, 0.5}, {1, 0.5}, {0.5, 1}, {0.5, 0}, {0, 1}, {1, 1}, {0, 0}, {1, 0}} {
		at := scene.Point{l.sheet.Width/2 - middle[0] + (u[0]-0.5)*max(room[0], 0), l.sheet.Height/2 - middle[1] + (u[1]-0.5)*max(room[1], 0)}
		placed, n := l.beside(c, at, insets, order)
		if n > most {
			most, by, places = n, at, placed
		}
		if n == len(insets) {
			break
		}
	}
	return by, places
}

func (b box) area() float64 { return (b.x1 - b.x0) * (b.y1 - b.y0) }

// beside finds places for insets round a drawing that is moved, each as near as can be to its
// ring; n is how many have one.
func (l *leafer) beside(c *covering, by scene.Point, insets []inset, order []int) (places []*scene.Point, n int) {
	const step, apart = 3.0, 2.0
	places = make([]*scene.Point, len(insets))
	var taken []box
	for _, i := range order {
		b := insets[i].box
		ring := scene.Point{insets[i].ring[0] + by[0], insets[i].ring[1] + by[1]}
		least := math.Inf(1)
		for x := -margin + 1.0; x+b.x1-b.x0 <= l.sheet.Width+margin-1; x += step {
			for y := -margin + 1.0; y+b.y1-b.y0 <= l.sheet.Height+margin-1; y += step {
				to := box{x, y, x + b.x1 - b.x0, y + b.y1 - b.y0}
				far := math.Hypot((to.x0+to.x1)/2-ring[0], (to.y0+to.y1)/2-ring[1])
				if far >= least || !c.free(to.grown(apart).moved(scene.Point{-by[0], -by[1]})) ||
					slices.ContainsFunc(taken, func(t box) bool { return t.overlap(to.grown(apart)) > 0 }) {
					continue
				}
				least = far
				places[i] = &scene.Point{x - b.x0, y - b.y0}
			}
		}
		if places[i] != nil {
			n++
			taken = append(taken, b.moved(*places[i]))
		}
	}
	return places, n
}
