package sparse

// measure finds, for each clique that touches the members of the new one, how
// many of its vertices lie outside the new one.
func (q *quotient) measure(members []int32) {
	tick := q.newTick()
	for _, v := range members {
		for _, e := range q.elems[v] {
			if q.dead[e] {
				continue
			}
			if q.seen[e] != tick {
				q.seen[e] = tick
				q.outside[e] = q.weight[e]
			}
			q.outside[e] -= q.size[v]
		}
	}
}

// update rewrites the lists of v, a member of the new clique p, and bounds its
// degree by the sum of what each clique adds (Amestoy, Davis, Duff 1996, eq. 4).
func (q *quotient) update(v, p, pivot, total int32) {
	inside := total - q.size[v]
	sum := inside
	elems := q.elems[v][:0]
	for _, e := range q.elems[v] {
		switch {
		case q.dead[e]:
		case q.outside[e] == 0: // wholly inside the new clique: absorbed
			q.dead[e] = true
			q.list[e] = nil
		default:
			elems = append(elems, e)
			sum += q.outside[e]
		}
	}
	vars := q.vars[v][:0]
	for _, u := range q.vars[v] {
		if q.size[u] > 0 && q.stamp[u] != pivot {
			vars = append(vars, u)
			sum += q.size[u]
		}
	}
	q.vars[v] = vars
	q.elems[v] = append(elems, p)
	q.deg[v] = min(sum, q.deg[v]+inside)
}

// mergeEqual joins members that have the same neighbours: they can go one
// after the other without further fill.
func (q *quotient) mergeEqual(members []int32) {
	for _, v := range members {
		h := q.hash(v)
		q.hashNext[v] = q.hashHead[h]
		q.hashHead[h] = v
	}
	for _, v := range members {
		h := q.hash(v)
		first := q.hashHead[h]
		q.hashHead[h] = -1
		for a := first; a >= 0; a = q.hashNext[a] {
			if q.size[a] > 0 {
				q.absorbTwins(a)
			}
		}
	}
}

// absorbTwins merges into a the equal vertices behind it in its bucket.
func (q *quotient) absorbTwins(a int32) {
	tick := int32(0)
	for b := q.hashNext[a]; b >= 0; b = q.hashNext[b] {
		if q.size[b] == 0 || len(q.vars[a]) != len(q.vars[b]) || len(q.elems[a]) != len(q.elems[b]) {
			continue
		}
		if tick == 0 {
			tick = q.newTick()
			for _, u := range q.vars[a] {
				q.stamp[u] = tick
			}
			for _, e := range q.elems[a] {
				q.seen[e] = tick
			}
		}
		if !allMarked(q.vars[b], q.stamp, tick) || !allMarked(q.elems[b], q.seen, tick) {
			continue
		}
		q.size[a] += q.size[b]
		q.deg[a] -= q.size[b]
		q.size[b] = 0
		q.twin[q.lastTwin[a]] = b
		q.lastTwin[a] = q.lastTwin[b]
	}
}

func allMarked(list, marks []int32, tick int32) bool {
	for _, u := range list {
		if marks[u] != tick {
			return false
		}
	}
	return true
}

func (q *quotient) hash(v int32) int32 {
	sum := uint32(0)
	for _, u := range q.vars[v] {
		sum += uint32(u)
	}
	for _, e := range q.elems[v] {
		sum += uint32(e)
	}
	return int32(sum % uint32(q.n))
}
