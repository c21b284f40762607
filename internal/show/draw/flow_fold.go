package draw

import (
	"math"
	"slices"
)

// mostFolds is how many rows the first line of a diagram is folded into at most.
const mostFolds = 3

// newFlow lays out a diagram, with its first line in as many rows as make it
// largest on a sheet of these proportions.
func newFlow(g Given, s Sheet) (*flow, box) {
	w, h := min(max(s.Width, leastPaper), mostPaper), min(max(s.Height, leastPaper), mostPaper)
	var best *flow
	var extent box
	most := 0.0
	var cuts []int
	for rows := 1; rows <= mostFolds; rows++ {
		if rows > 1 {
			if cuts = best.cuts(rows); len(cuts) == 0 {
				break
			}
		}
		f := measuredFlow(g, s)
		all := f.laid(cuts)
		// A row more must be worth it.
		if scale := min(w/(all.x1-all.x0), h/(all.y1-all.y0)); scale > most*1.12 || best == nil {
			best, extent, most = f, all, scale
		}
	}
	return best, extent
}

// measuredFlow is a diagram with the sizes of everything in it, without places.
func measuredFlow(g Given, s Sheet) *flow {
	f := &flow{net: newFlowNet(g)}
	f.order = newFlowOrder(f.net)
	f.lanes, f.of = f.net.lanes(f.order)
	f.cells = make([]cell, len(f.net.points))
	f.pitch = closePitch
	if len(g.Index.Job().Outlets) <= fewDrops {
		f.pitch = widePitch
	}
	for v := range f.cells {
		if f.of[v] >= 0 {
			f.columns(v, g, s)
		}
	}
	f.sides()
	blocked := f.blocked()
	for v := range f.cells {
		if f.of[v] >= 0 && v != f.net.start {
			f.size(v, blocked[v], g, s)
		}
	}
	return f
}

// laid gives everything its place, with the first lane cut before some nodes.
func (f *flow) laid(cuts []int) box {
	for _, v := range cuts {
		f.fold(v)
	}
	f.spread()
	for i := range f.lanes {
		for _, v := range f.lanes[i].nodes {
			for _, d := range f.cells[v].columns {
				f.lanes[i].dials = min(f.lanes[i].dials, -d.deep)
			}
		}
	}
	return f.pack()
}

// edgeOf is the right edge of a node with its drops.
func (f *flow) edgeOf(v int) float64 {
	c := f.cells[v]
	x := c.x + c.right
	for _, d := range c.columns {
		x = max(x, c.x+d.off+d.wide-f.pitch/2)
	}
	return x
}

// folded says whether a node begins a row of its own.
func (f *flow) folded(v int) bool {
	return slices.ContainsFunc(f.folds, func(i int) bool { return f.lanes[i].nodes[0] == v })
}

// fold cuts the lane of a node before it; the rest goes on in a new row.
func (f *flow) fold(v int) {
	i := f.of[v]
	k := slices.Index(f.lanes[i].nodes, v)
	l := &f.lanes[i]
	rest := lane{nodes: slices.Clone(l.nodes[k:]), from: l.nodes[k-1], fromEdge: -1, to: l.to, toEdge: l.toEdge}
	for _, s := range f.order.next[rest.from] {
		if s.to == v && rest.fromEdge < 0 {
			rest.fromEdge = s.edge
		}
	}
	l.nodes, l.to, l.toEdge = l.nodes[:k:k], -1, -1
	for _, u := range rest.nodes {
		f.of[u] = len(f.lanes)
	}
	f.folds = append(f.folds, len(f.lanes))
	f.lanes = append(f.lanes, rest)
}

// firstLine is the first lane with the rows that it goes on in.
func (f *flow) firstLine() []int {
	var line []int
	for i := 0; i >= 0; {
		line = append(line, f.lanes[i].nodes...)
		next := -1
		for _, k := range f.folds {
			if f.lanes[k].from == f.lanes[i].last() {
				next = k
			}
		}
		i = next
	}
	return line
}

// cuts finds where the first line of a diagram that is laid out can be cut into
// rows of much the same length, the last cut first: only where nothing else leads
// past it.
func (f *flow) cuts(rows int) []int {
	line := f.firstLine()
	along := make([]float64, len(line)) // as if it were one row
	for k := 1; k < len(line); k++ {
		step := f.cells[line[k]].x - f.cells[line[k-1]].x
		if step < 0 {
			step = f.cells[line[k]].left + f.cells[line[k]].right
		}
		along[k] = along[k-1] + step
	}
	free := f.bridges(line)
	var cuts []int
	total := along[len(along)-1] + 10
	for row := rows - 1; row > 0; row-- {
		want := total * float64(row) / float64(rows)
		pick, least := -1, total/float64(2*rows)
		for k := 2; k < len(line); k++ {
			if d := math.Abs(along[k] - want); free[k] && d < least && !slices.Contains(cuts, line[k]) {
				pick, least = k, d
			}
		}
		if pick < 0 {
			return nil
		}
		cuts = append(cuts, line[pick])
	}
	return cuts
}

// bridges says for each node of the first line whether all that lies beyond is
// reached by the step to it alone.
func (f *flow) bridges(line []int) []bool {
	at := map[int]int{}
	for k, v := range line {
		at[v] = k
	}
	// Where on the line each other lane left it; lanes come after those they leave.
	root := make([]int, len(f.lanes))
	place := func(v int) int {
		if k, on := at[v]; on {
			return k
		}
		return root[f.of[v]]
	}
	free := make([]bool, len(line))
	for k := range free {
		free[k] = true
	}
	for i, l := range f.lanes {
		if i > 0 && !slices.Contains(f.folds, i) {
			root[i] = place(l.from)
		}
	}
	for i, l := range f.lanes {
		if i == 0 || l.to < 0 || slices.Contains(f.folds, i) {
			continue
		}
		a, b := root[i], place(l.to)
		for k := min(a, b) + 1; k <= max(a, b); k++ {
			free[k] = false
		}
	}
	return free
}
