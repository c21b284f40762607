package screen

import (
	"container/heap"
	"math"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// passed is an element as the air of a way passes it.
type passed struct {
	element *model.Element
	to      int // node behind it
}

// wayTo is the shortest way of the air from a compressor to an outlet: the node where it
// begins, and the elements. Of a ring it goes the short side. ok is false where no way
// leads there.
func (d *damp) wayTo(outlet job.ID) (start int, way []passed, ok bool) {
	node := -1
	for _, o := range d.model.Outlets() {
		if o.ID == outlet {
			node = o.Node
		}
	}
	if node < 0 {
		return 0, nil, false
	}
	far, by := d.reach()
	if math.IsInf(far[node], 1) {
		return 0, nil, false
	}
	for by[node].element != nil {
		way = append(way, by[node])
		node = by[node].element.From + by[node].element.To - node
	}
	slices.Reverse(way)
	return node, way, true
}

// reach is every node's distance from the nearest compressor, and what leads to it.
func (d *damp) reach() (far []float64, by []passed) {
	at := d.open()
	far, by = make([]float64, len(at)), make([]passed, len(at))
	for n := range far {
		far[n] = math.Inf(1)
	}
	var next nodeQueue
	for _, c := range d.model.Compressors() {
		far[c.Node] = 0
		heap.Push(&next, nodeAt{c.Node, 0})
	}
	for next.Len() > 0 {
		n, _ := heap.Pop(&next).(nodeAt)
		if n.far > far[n.node] {
			continue
		}
		for _, p := range at[n.node] {
			const turn = 0.1 // m; of two ways alike the one with fewer things
			if x := n.far + turn + max(0, float64(p.element.Length)); x < far[p.to] {
				far[p.to], by[p.to] = x, p
				heap.Push(&next, nodeAt{p.to, x})
			}
		}
	}
	return far, by
}

// open lists by node the elements that air may pass from there.
func (d *damp) open() [][]passed {
	at := make([][]passed, len(d.model.Nodes()))
	elements := d.model.Elements()
	for i := range elements {
		e := &elements[i]
		kind, part := d.partOf(e)
		if part != nil && part.Shut && kind.Has(catalog.Isolates) {
			continue
		}
		at[e.From] = append(at[e.From], passed{e, e.To})
		if !kind.Has(catalog.Checks) {
			at[e.To] = append(at[e.To], passed{e, e.From})
		}
	}
	return at
}

// nodeAt is a node with its distance from the nearest compressor.
type nodeAt struct {
	node int
	far  float64
}

type nodeQueue []nodeAt

func (q nodeQueue) Len() int           { return len(q) }
func (q nodeQueue) Less(i, k int) bool { return q[i].far < q[k].far }
func (q nodeQueue) Swap(i, k int)      { q[i], q[k] = q[k], q[i] }
func (q *nodeQueue) Push(x any)        { n, _ := x.(nodeAt); *q = append(*q, n) }
func (q *nodeQueue) Pop() any {
	old := *q
	last := old[len(old)-1]
	*q = old[:len(old)-1]
	return last
}

// partOf is the part that an element is, and its kind; nil for lines and hoses.
func (d *damp) partOf(e *model.Element) (catalog.Kind, *job.Part) {
	kind, _ := d.study.Catalog().Kind(e.Kind)
	if p := d.index.Point(e.ID); p != nil {
		return kind, &p.Part
	}
	return kind, nil
}

// partWord is what a part is called on the chart; "" for one that does nothing to the
// air's water or warmth.
func partWord(k catalog.Kind) string {
	for _, r := range []struct {
		role  catalog.Role
		words string
	}{
		{catalog.Cools, "cooler"},
		{catalog.Dries, "dryer"},
		{catalog.Separates, "separator"},
		{catalog.Filters, "filter"},
		{catalog.Regulates, "regulator"},
	} {
		if k.Has(r.role) {
			return r.words
		}
	}
	return ""
}
