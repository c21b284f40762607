package sparse

// quotient is the quotient graph of the minimum degree method: a vertex still
// to be eliminated keeps the neighbours it has by the matrix (vars) and the
// cliques it belongs to (elems); an eliminated vertex stands for the clique of
// what was around it. Lists only shrink, so they live in one store.
type quotient struct {
	n     int
	store []int32
	vars  [][]int32 // by vertex: neighbours left
	elems [][]int32 // by vertex: cliques
	list  [][]int32 // by clique: its members
	size  []int32   // vertices merged into this one; 0 when merged or gone
	deg   []int32   // bound on the external degree
	// Vertices by degree, doubly linked.
	head, next, prev []int32
	stamp            []int32 // marks of a vertex
	weight           []int32 // by clique: vertices in it
	outside, seen    []int32 // by clique: |clique \ pivot clique|, and its mark
	tick             int32
	// Vertices that go together with this one, as a list, and its last.
	twin, lastTwin []int32
	dead           []bool // cliques absorbed
	hashHead       []int32
	hashNext       []int32
	left           int32 // vertices not yet eliminated
}

func newQuotient(n int) *quotient {
	ints := make([]int32, 13*n+1)
	cut := func(k int) []int32 {
		s := ints[:k:k]
		ints = ints[k:]
		return s
	}
	lists := make([][]int32, 3*n)
	return &quotient{
		n: n, vars: lists[:n], elems: lists[n : 2*n], list: lists[2*n:], twin: cut(n), lastTwin: cut(n),
		size: cut(n), deg: cut(n), head: cut(n + 1), next: cut(n), prev: cut(n),
		stamp: cut(n), weight: cut(n), outside: cut(n), seen: cut(n),
		hashHead: cut(n), hashNext: cut(n),
		dead: make([]bool, n), left: int32(n),
	}
}

func (q *quotient) link(v int32) {
	d := q.deg[v]
	h := q.head[d]
	q.next[v], q.prev[v] = h, -1
	if h >= 0 {
		q.prev[h] = v
	}
	q.head[d] = v
}

func (q *quotient) unlink(v int32) {
	if q.prev[v] >= 0 {
		q.next[q.prev[v]] = q.next[v]
	} else {
		q.head[q.deg[v]] = q.next[v]
	}
	if q.next[v] >= 0 {
		q.prev[q.next[v]] = q.prev[v]
	}
}

// run eliminates all vertices and returns their order.
func (q *quotient) run() []int32 {
	for d := range q.head {
		q.head[d] = -1
	}
	for v := range q.n {
		q.hashHead[v] = -1
		q.size[v] = 1
		q.twin[v], q.lastTwin[v] = -1, int32(v)
		q.deg[v] = int32(len(q.vars[v]))
		q.link(int32(v))
	}
	seq := make([]int32, 0, q.n)
	low := int32(0)
	for q.left > 0 {
		for q.head[low] < 0 {
			low++
		}
		p := q.head[low]
		q.unlink(p)
		q.eliminate(p)
		for v := p; v >= 0; v = q.twin[v] {
			seq = append(seq, v)
		}
		for _, v := range q.list[p] {
			low = min(low, q.deg[v])
		}
	}
	return seq
}

func (q *quotient) newTick() int32 {
	q.tick++
	return q.tick
}

// eliminate turns vertex p into a clique and brings its members up to date.
func (q *quotient) eliminate(p int32) {
	q.left -= q.size[p]
	pivot := q.newTick()
	q.size[p] = 0
	q.stamp[p] = pivot
	start := len(q.store)
	gather := func(from []int32) {
		for _, v := range from {
			if q.size[v] > 0 && q.stamp[v] != pivot {
				q.stamp[v] = pivot
				q.store = append(q.store, v)
			}
		}
	}
	gather(q.vars[p])
	for _, e := range q.elems[p] {
		gather(q.list[e])
		q.dead[e] = true
		q.list[e] = nil
	}
	members := q.store[start:len(q.store):len(q.store)]
	total := int32(0)
	for _, v := range members {
		q.unlink(v)
		total += q.size[v]
	}
	q.measure(members)
	for _, v := range members {
		q.update(v, p, pivot, total)
	}
	q.mergeEqual(members)
	live := members[:0]
	for _, v := range members {
		if q.size[v] == 0 {
			continue
		}
		q.deg[v] = max(0, min(q.deg[v], q.left-q.size[v]))
		q.link(v)
		live = append(live, v)
	}
	q.list[p] = live
	q.weight[p] = total
}
