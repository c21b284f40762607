package sparse

// fill finds the pattern of the factors: row i of L holds what is met on the
// ways up the elimination tree from the entries of row i of the matrix.
func (p *Pattern) fill(ptr, adj, parent, room []int32) {
	n := p.n
	mark, at := room[:n], room[n:2*n]
	clear(mark)
	both := make([]int32, 2*n+2)
	p.upPtr, p.lowPtr = both[:n+1:n+1], both[n+1:]
	walk := func(i int32, visit func(k int32)) {
		mark[i] = i + 1
		v := p.perm[i]
		for _, u := range adj[ptr[v]:ptr[v+1]] {
			for k := p.inv[u]; k < i && mark[k] != i+1; k = parent[k] {
				mark[k] = i + 1
				visit(k)
			}
		}
	}
	for i := range int32(n) {
		walk(i, func(k int32) {
			p.upPtr[k+1]++
			p.lowPtr[i+1]++
		})
	}
	for k := range n {
		c := int(p.upPtr[k+1])
		p.ops += c * (c + 2)
		p.upPtr[k+1] += p.upPtr[k]
		p.lowPtr[k+1] += p.lowPtr[k]
	}
	size := p.upPtr[n]
	both = make([]int32, 2*size)
	p.up, p.low = both[:size:size], both[size:]
	clear(mark)
	copy(at, p.upPtr)
	for i := range int32(n) {
		walk(i, func(k int32) {
			p.up[at[k]] = i
			at[k]++
		})
	}
	copy(at, p.lowPtr)
	for k := range int32(n) {
		for _, i := range p.up[p.upPtr[k]:p.upPtr[k+1]] {
			p.low[at[i]] = k
			at[i]++
		}
	}
	p.findRuns()
}

// findRuns marks the columns whose pattern is that of the next one and its
// diagonal, which are eliminated together.
func (p *Pattern) findRuns() {
	p.run = make([]bool, p.n)
	for k := range p.n - 1 {
		mine, its := p.upPtr[k+1]-p.upPtr[k], p.upPtr[k+2]-p.upPtr[k+1]
		p.run[k] = mine == its+1 && p.up[p.upPtr[k]] == int32(k)+1
	}
}
