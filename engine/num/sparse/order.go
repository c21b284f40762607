package sparse

// order returns an elimination order of a graph (order[k] is the k-th vertex
// to go) that keeps fill small. Vertices with one neighbour left go first, one
// after the other, which settles trees without any fill in O(n); what remains
// is ordered by approximate minimum degree.
func order(n int, ptr, adj []int32) []int32 {
	seq := make([]int32, 0, n)
	deg := make([]int32, n)
	gone := make([]bool, n)
	for v := range n {
		deg[v] = ptr[v+1] - ptr[v]
		if deg[v] <= 1 {
			seq = append(seq, int32(v))
			gone[v] = true
		}
	}
	for head := 0; head < len(seq); head++ {
		v := seq[head]
		for _, u := range adj[ptr[v]:ptr[v+1]] {
			if gone[u] {
				continue
			}
			if deg[u]--; deg[u] <= 1 {
				gone[u] = true
				seq = append(seq, u)
			}
		}
	}
	if len(seq) == n {
		return seq
	}
	return core(n, ptr, adj, gone, seq)
}

// core orders the vertices that are not gone and appends them to seq.
func core(n int, ptr, adj []int32, gone []bool, seq []int32) []int32 {
	name := make([]int32, 0, n-len(seq)) // core number to vertex
	num := make([]int32, n)
	for v := range n {
		if !gone[v] {
			num[v] = int32(len(name))
			name = append(name, int32(v))
		}
	}
	q := newQuotient(len(name))
	q.store = make([]int32, 0, 8*len(adj))
	// A vertex never has more cliques than it had neighbours: each new one takes
	// the place of a neighbour or of a clique that went into it.
	cliques := make([]int32, len(adj))
	for i, v := range name {
		q.elems[i] = cliques[ptr[v]:ptr[v]:ptr[v+1]]
		start := len(q.store)
		for _, u := range adj[ptr[v]:ptr[v+1]] {
			if !gone[u] {
				q.store = append(q.store, num[u])
			}
		}
		q.vars[i] = q.store[start:len(q.store):len(q.store)]
	}
	for _, c := range q.run() {
		seq = append(seq, name[c])
	}
	return seq
}
