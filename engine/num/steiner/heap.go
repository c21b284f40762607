package steiner

// item is a key with what it is of.
type item struct {
	key int64
	of  uint64
}

// heap gives the least key first, of equal keys the lesser "of": same input, same order.
type heap []item

func less(a, b item) bool { return a.key < b.key || a.key == b.key && a.of < b.of }

func (h *heap) push(x item) {
	s := append(*h, x)
	i := len(s) - 1
	for i > 0 {
		up := (i - 1) / 2
		if !less(s[i], s[up]) {
			break
		}
		s[i], s[up] = s[up], s[i]
		i = up
	}
	*h = s
}

func (h *heap) pop() item {
	s := *h
	top := s[0]
	last := len(s) - 1
	s[0] = s[last]
	s = s[:last]
	for i := 0; ; {
		k := 2*i + 1
		if k >= len(s) {
			break
		}
		if k+1 < len(s) && less(s[k+1], s[k]) {
			k++
		}
		if !less(s[k], s[i]) {
			break
		}
		s[i], s[k] = s[k], s[i]
		i = k
	}
	*h = s
	return top
}

// far is the distance of what is not reached.
const far = int64(1) << 62

// distances from some nodes by prices of arcs, along the arcs or against them.
func (g *digraph) distances(from []int, price func(arc int) int64, ahead bool) []int64 {
	out := make([]int64, g.n)
	for v := range out {
		out[v] = far
	}
	var h heap
	for _, v := range from {
		out[v] = 0
		h.push(item{0, uint64(v)})
	}
	for len(h) > 0 {
		x := h.pop()
		v := int(x.of)
		if x.key > out[v] {
			continue
		}
		list := g.out[v]
		if !ahead {
			list = g.in[v]
		}
		for _, i := range list {
			to := g.arcs[i].to
			if !ahead {
				to = g.arcs[i].from
			}
			if d := x.key + price(int(i)); d < out[to] {
				out[to] = d
				h.push(item{d, uint64(to)})
			}
		}
	}
	return out
}
