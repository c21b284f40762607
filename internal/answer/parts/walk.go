package parts

import (
	"cmp"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// walk numbers the joints.
type walk struct {
	*counter
	at   map[job.ID][]exit   // ways that leave a point
	own  map[job.ID][]*Joint // joints at a point that belong to no line
	seen map[job.ID]bool
	gone map[*strand]bool
	next int
}

// exit is an end of a strand where a walk can set out along it.
type exit struct {
	s    *strand
	back bool // from its last end to its first
	end  runEnd
}

// number walks from the plant outwards, a strand to its end before the next: from
// what supplies, then from what stores, then from what was not reached.
func (w *walk) number(strands []*strand) {
	w.seen, w.gone = map[job.ID]bool{}, map[*strand]bool{}
	for _, s := range strands {
		for _, e := range []exit{{s, false, w.begin(s)}, {s, true, w.end(s)}} {
			w.at[e.end.point()] = append(w.at[e.end.point()], e)
		}
	}
	for point, exits := range w.at {
		slices.SortStableFunc(exits, func(a, b exit) int {
			return cmp.Or(cmp.Compare(rankOf(a), rankOf(b)), cmp.Compare(w.portNo(point, a), w.portNo(point, b)))
		})
	}
	for _, role := range []catalog.Role{catalog.Supplies, catalog.Stores, ""} {
		for i := range w.job.Net.Points {
			p := &w.job.Net.Points[i]
			if kind, _ := w.shelf.Kind(p.Part.Kind); role == "" || kind.Has(role) {
				w.from(p.ID)
			}
		}
	}
	for _, s := range strands { // what ends at no point of the job
		w.along(exit{s: s})
	}
	slices.SortFunc(w.joints, func(a, b *Joint) int { return cmp.Compare(a.Number, b.Number) })
}

// from walks everything that is reached from a point and not yet walked.
func (w *walk) from(point job.ID) {
	stack := w.visit(point, nil)
	for len(stack) > 0 {
		e := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if w.along(e) {
			far := w.end(e.s)
			if e.back {
				far = w.begin(e.s)
			}
			stack = w.visit(far.point(), stack)
		}
	}
}

// visit numbers the joints at a point that belong to no line and puts the ways that
// leave it on the stack, the first to be taken on top.
func (w *walk) visit(point job.ID, stack []exit) []exit {
	if w.seen[point] {
		return stack
	}
	w.seen[point] = true
	for _, j := range w.own[point] {
		w.mark(j)
	}
	for _, e := range slices.Backward(w.at[point]) {
		stack = append(stack, e)
	}
	return stack
}

// along numbers the joints of a strand from one end to the other, once.
func (w *walk) along(e exit) bool {
	if w.gone[e.s] {
		return false
	}
	w.gone[e.s] = true
	joints := slices.Clone(e.s.joints)
	if e.back {
		slices.Reverse(joints)
	}
	for _, j := range joints {
		w.mark(j)
	}
	return true
}

func (w *walk) mark(j *Joint) {
	w.next++
	j.Number = w.next
}

// rankOf puts the ways first that soon end; what leaves by a drain or to a relief valve
// does, whatever its role.
func rankOf(e exit) int {
	if e.end.port == drainPort || e.end.port == reliefPort {
		return 0
	}
	if i := slices.Index([]string{"drip", "stub", "drop", "branch"}, e.end.run.Role); i >= 0 {
		return i
	}
	return 4
}

// portNo is the place of an exit's port among those of its part.
func (w *walk) portNo(point job.ID, e exit) int {
	if p := w.index.Point(point); p != nil {
		kind, _ := w.shelf.Kind(p.Part.Kind)
		if i := slices.IndexFunc(kind.Ports, func(q catalog.Port) bool { return q.ID == e.end.port }); i >= 0 {
			return i
		}
	}
	return len(e.end.port) + 100
}
