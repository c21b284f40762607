package mip

import (
	"container/heap"
	"slices"
)

// node is a part of the room, with what its parent proved of it.
type node struct {
	low, high []float64
	bound     float64
	depth     int
	number    int
	branch    branch
}

// branch remembers how a node came about, to learn what such steps cost.
type branch struct {
	column int // -1 at the first node
	up     bool
	part   float64 // how far the column moved
	from   float64 // cost of the parent's relaxation
}

// next takes the open node of least bound.
func (s *search) next() *node {
	if s.open.Len() == 0 {
		return nil
	}
	nd := heap.Pop(&s.open).(*node)
	if nd.bound >= s.limit() {
		s.open = nil
		return nil
	}
	return nd
}

func (s *search) push(nd *node) {
	nd.number = s.made
	s.made++
	if nd.bound < s.limit() {
		heap.Push(&s.open, nd)
	}
}

// children splits a part at floor. Each narrows its bounds in place later on, so that
// it gets its own.
func (s *search) children(nd *node, column int, floor float64) (down, up *node) {
	child := func() *node {
		return &node{
			low: slices.Clone(nd.low), high: slices.Clone(nd.high),
			bound: nd.bound, depth: nd.depth + 1, branch: branch{column: -1},
		}
	}
	down, up = child(), child()
	down.high[column], up.low[column] = floor, floor+1
	return down, up
}

// nodeHeap orders open nodes: least bound first, then deepest, then as made.
type nodeHeap []*node

func (h nodeHeap) Len() int { return len(h) }

func (h nodeHeap) Less(i, j int) bool {
	a, b := h[i], h[j]
	switch {
	case a.bound != b.bound:
		return a.bound < b.bound
	case a.depth != b.depth:
		return a.depth > b.depth
	}
	return a.number < b.number
}

func (h nodeHeap) Swap(i, j int) { h[i], h[j] = h[j], h[i] }

func (h *nodeHeap) Push(x any) { *h = append(*h, x.(*node)) }

func (h *nodeHeap) Pop() any {
	last := len(*h) - 1
	nd := (*h)[last]
	(*h)[last] = nil
	*h = (*h)[:last]
	return nd
}
