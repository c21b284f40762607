package draw

import (
	"math"
	"slices"
)

// Millimetres of the diagram, at its full size.
const (
	cellGap  = 2.2 // between symbols on a lane
	laneGap  = 3.0 // between what hangs on one lane and the next lane
	laneBody = 2.6 // what a lane itself takes over and under it
)

// cell is the room that a node takes about its place.
type cell struct {
	x, y                  float64
	left, right, up, down float64
	columns               []column
}

// column is a drop under a node, down to its dials.
type column struct {
	root  int     // −1: the outlet is at the node itself
	nodes []int   // down the drop, the outlet's last
	off   float64 // to the right of the node
	wide  float64
	deep  float64 // from the lane to where the outlet leaves
	words float64 // what dials and words take under that
}

// flow is a diagram being laid out, in mm at full size.
type flow struct {
	net   *flowNet
	order *flowOrder
	lanes []lane
	of    []int // lane of each trunk node
	cells []cell
	pitch float64
	folds []int // lanes that go on in a row of their own, from the left
}

// sides says for each lane whether it lies over the one it branches off: a way
// round something, without outlets.
func (f *flow) sides() {
	for i := range f.lanes {
		l := &f.lanes[i]
		l.above = l.from >= 0 && l.to >= 0 && f.of[l.from] == f.of[l.to]
		for _, v := range l.nodes {
			l.above = l.above && len(f.cells[v].columns) == 0
		}
	}
}

// blocked marks nodes from which a lane goes down: a drop there stands aside.
func (f *flow) blocked() []bool {
	out := make([]bool, len(f.net.points))
	for _, l := range f.lanes {
		if !l.above && l.from >= 0 {
			out[l.from] = true
		}
		if !l.above && l.to >= 0 && !f.ends(l.to) {
			out[l.to] = true
		}
	}
	return out
}

// ends says whether a node is the free end of its lane.
func (f *flow) ends(v int) bool {
	l := f.lanes[f.of[v]]
	return l.last() == v && l.to < 0
}

// spread sets every node to the right of all that come before it, symbols clear of
// symbols and drops clear of drops.
func (f *flow) spread() {
	reach := make([]float64, len(f.cells)) // where the drops before end
	for _, v := range f.order.sorted() {
		c := &f.cells[v]
		x, drops := c.left, 0.0
		if f.folded(v) {
			x += 5
		}
		for _, s := range f.order.prev[v] {
			if f.folded(v) {
				continue
			}
			p := f.cells[s.to]
			x = max(x, p.x+p.right+cellGap+c.left)
			r := reach[s.to]
			for _, d := range p.columns {
				r = max(r, p.x+d.off+d.wide-f.pitch/2)
			}
			drops = max(drops, r)
		}
		if len(c.columns) > 0 {
			x = max(x, drops+f.pitch/2-c.columns[0].off)
		}
		c.x, reach[v] = x, drops
	}
	for i := range f.lanes {
		l := &f.lanes[i]
		if l.to < 0 {
			continue
		}
		l.closes = f.cells[l.to].x
		if f.ends(l.to) {
			l.closes = max(f.edgeOf(l.last()), f.edgeOf(l.to)) + cellGap + 1
		}
	}
}

// pack gives every lane its height, from the first one down, and tells the extent.
func (f *flow) pack() box {
	children := make([][]int, len(f.lanes))
	for i, l := range f.lanes {
		if l.from >= 0 {
			children[f.of[l.from]] = append(children[f.of[l.from]], i)
		}
	}
	taken := f.group(0, children)
	for _, l := range f.lanes {
		for _, v := range l.nodes {
			f.cells[v].y = l.y
		}
	}
	all := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, b := range taken {
		all = box{min(all.x0, b.x0), min(all.y0, b.y0), max(all.x1, b.x1), max(all.y1, b.y1)}
	}
	return all
}

// group lays a lane at height 0 with all that branches off it, and gives what they
// take. Lanes that branch off further right lie nearer, so that none crosses
// another on its way down.
func (f *flow) group(i int, children [][]int) []box {
	taken := f.body(i)
	near := slices.Clone(children[i])
	slices.SortStableFunc(near, func(a, b int) int {
		xa, xb := f.cells[f.lanes[a].from].x, f.cells[f.lanes[b].from].x
		switch fa, fb := slices.Contains(f.folds, a), slices.Contains(f.folds, b); {
		case fa != fb && fb:
			return -1
		case fa != fb:
			return 1
		case xa > xb:
			return -1
		case xa < xb:
			return 1
		}
		return 0
	})
	for _, k := range near {
		inner := f.group(k, children)
		shift := 0.0
		whole := slices.Contains(f.folds, k) // clear of everything, whatever its place
		for _, b := range inner {
			for _, t := range taken {
				if !whole && min(b.x1, t.x1)-max(b.x0, t.x0) <= 0 {
					continue
				}
				if f.lanes[k].above {
					shift = max(shift, t.y1+laneGap-b.y0)
				} else {
					shift = min(shift, t.y0-laneGap-b.y1)
				}
			}
		}
		if whole {
			shift -= laneGap + 2
			f.lanes[k].turn = top(inner) + laneGap
		}
		f.shift(k, shift, children)
		for _, b := range inner {
			taken = append(taken, b.moved([2]float64{0, shift}))
		}
	}
	return taken
}

// shift moves a lane and all that branches off it.
func (f *flow) shift(i int, by float64, children [][]int) {
	f.lanes[i].y += by
	for _, k := range children[i] {
		f.shift(k, by, children)
	}
}

func top(boxes []box) float64 {
	y := math.Inf(-1)
	for _, b := range boxes {
		y = max(y, b.y1)
	}
	return y
}

// body is what a lane takes by itself, at height 0.
func (f *flow) body(i int) []box {
	l := f.lanes[i]
	left, right := math.Inf(1), math.Inf(-1)
	var taken []box
	for _, v := range l.nodes {
		if v == f.net.start {
			continue
		}
		c := f.cells[v]
		left, right = min(left, c.x-c.left), max(right, c.x+c.right)
		taken = append(taken, box{c.x - c.left, -c.down, c.x + c.right, c.up})
		for _, d := range c.columns {
			taken = append(taken, box{c.x + d.off - f.pitch/2, l.dials - d.words, c.x + d.off + d.wide - f.pitch/2, 0})
		}
	}
	if l.from >= 0 && l.from != f.net.start && !slices.Contains(f.folds, i) {
		left = min(left, f.cells[l.from].x)
	}
	if l.to >= 0 {
		right = max(right, l.closes)
	}
	for k, o := range f.lanes {
		if o.to >= 0 && f.of[o.to] == i {
			right = max(right, o.closes)
		}
		if slices.Contains(f.folds, k) && f.of[o.from] == i {
			right = max(right, f.edgeOf(o.from)+4)
		}
	}
	if slices.Contains(f.folds, i) {
		left -= 4
	}
	if left > right {
		return taken
	}
	return append(taken, box{left, -laneBody, right, laneBody})
}
