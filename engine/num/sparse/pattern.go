package sparse

// Pattern is the place of the nonzeros of a matrix and of its factors, found
// once for a graph. It is not changed after Analyze and may be shared.
type Pattern struct {
	n int
	// perm[k] is the row that is eliminated k-th, inv its inverse.
	perm, inv []int32
	// Row k of the matrix in elimination order: columns and where in Off.
	rowPtr, rowCol, rowVal []int32
	// Row k of U and column k of L share their pattern: ascending, beyond k.
	upPtr, up []int32
	// Row i of L: its columns, ascending.
	lowPtr, low []int32
	// run[k] is set when column k of L is column k+1 with k+1 itself on top,
	// so that both can be applied in one sweep.
	run []bool
	ops int
}

// Analyze orders the graph of n vertices with the given edges (pairs of
// vertices; parallel edges add up, loops are allowed and mean nothing).
func Analyze(n int, edges [][2]int32) *Pattern {
	ptr, adj := adjacency(n, edges)
	p := &Pattern{n: n, perm: order(n, ptr, adj), inv: make([]int32, n)}
	p.number()
	room := make([]int32, 3*n)
	parent := p.postorder(p.tree(ptr, adj, room), room)
	p.rows(edges, room)
	p.fill(ptr, adj, parent, room)
	return p
}

// number makes inv fit perm.
func (p *Pattern) number() {
	for k, v := range p.perm {
		p.inv[v] = int32(k)
	}
}

// Size is the number of rows.
func (p *Pattern) Size() int { return p.n }

// Fill is the number of entries of U beyond its diagonal.
func (p *Pattern) Fill() int { return len(p.up) }

// Work is the number of multiplications of one factorization, roughly.
func (p *Pattern) Work() int { return p.ops }

// adjacency lists the distinct neighbours of each vertex.
func adjacency(n int, edges [][2]int32) (ptr, adj []int32) {
	room := make([]int32, 4*n+2)
	count, at, mark := room[:n+1], room[n+1:2*n+1], room[2*n+1:3*n+1]
	ptr = room[3*n+1:]
	for _, e := range edges {
		if e[0] != e[1] {
			count[e[0]+1]++
			count[e[1]+1]++
		}
	}
	for v := range n {
		count[v+1] += count[v]
	}
	all := make([]int32, count[n])
	copy(at, count)
	for _, e := range edges {
		if e[0] != e[1] {
			all[at[e[0]]] = e[1]
			at[e[0]]++
			all[at[e[1]]] = e[0]
			at[e[1]]++
		}
	}
	k := int32(0)
	for v := range n {
		for _, u := range all[count[v]:count[v+1]] {
			if mark[u] != int32(v)+1 {
				mark[u] = int32(v) + 1
				all[k] = u
				k++
			}
		}
		ptr[v+1] = k
	}
	return ptr, all[:k]
}

// tree finds the elimination tree (Liu 1990): parent[k] is the first row
// beyond k that row k changes, or -1.
func (p *Pattern) tree(ptr, adj, room []int32) []int32 {
	parent := make([]int32, p.n)
	shortcut := room[:p.n]
	for i := range p.n {
		parent[i], shortcut[i] = -1, -1
		v := p.perm[i]
		for _, u := range adj[ptr[v]:ptr[v+1]] {
			for k := p.inv[u]; k < int32(i); {
				next := shortcut[k]
				shortcut[k] = int32(i)
				if next < 0 {
					parent[k] = int32(i)
					break
				}
				if next == int32(i) {
					break
				}
				k = next
			}
		}
	}
	return parent
}

// postorder renumbers so that each subtree is contiguous, which changes no
// fill and brings columns of equal pattern side by side. It returns the tree in
// the new numbers.
func (p *Pattern) postorder(parent, room []int32) []int32 {
	n := int32(p.n)
	child, sibling, fresh := room[:n], room[n:2*n], room[2*n:3*n]
	for k := range child {
		child[k] = -1
	}
	roots := int32(-1)
	for k := n - 1; k >= 0; k-- {
		if f := parent[k]; f >= 0 {
			sibling[k], child[f] = child[f], k
		} else {
			sibling[k], roots = roots, k
		}
	}
	perm := make([]int32, 0, n)
	for r := roots; r >= 0; r = sibling[r] {
		for k := r; ; {
			for child[k] >= 0 { // down, unhooking the way taken
				c := child[k]
				child[k] = sibling[c]
				k = c
			}
			fresh[k] = int32(len(perm))
			perm = append(perm, p.perm[k])
			if k == r {
				break
			}
			k = parent[k]
		}
	}
	moved := child // no longer needed
	for k, f := range parent {
		if f >= 0 {
			f = fresh[f]
		}
		moved[fresh[k]] = f
	}
	copy(parent, moved)
	p.perm = perm
	p.number()
	return parent
}

// rows lists the entries of the matrix row by row in elimination order.
func (p *Pattern) rows(edges [][2]int32, room []int32) {
	p.rowPtr = make([]int32, p.n+1)
	for _, e := range edges {
		if e[0] != e[1] {
			p.rowPtr[p.inv[e[0]]+1]++
			p.rowPtr[p.inv[e[1]]+1]++
		}
	}
	for k := range p.n {
		p.rowPtr[k+1] += p.rowPtr[k]
	}
	p.rowCol = make([]int32, p.rowPtr[p.n])
	p.rowVal = make([]int32, p.rowPtr[p.n])
	at := room[:p.n]
	copy(at, p.rowPtr)
	for e, ends := range edges {
		if ends[0] == ends[1] {
			continue
		}
		a, b := p.inv[ends[0]], p.inv[ends[1]]
		p.rowCol[at[a]], p.rowVal[at[a]] = b, int32(2*e)
		at[a]++
		p.rowCol[at[b]], p.rowVal[at[b]] = a, int32(2*e+1)
		at[b]++
	}
}
