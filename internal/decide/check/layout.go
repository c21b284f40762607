package check

import (
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// layout is the air net as a graph of points, whatever loses pressure or not:
// what is upstream of what, where lines end, where water gathers.
type layout struct {
	idx   *job.Index
	shelf *catalog.Catalog
	at    map[job.ID]int
	spots []spot
}

// spot is one point with its kind and the runs that end there.
type spot struct {
	point   *job.Point
	kind    catalog.Kind
	legs    []leg
	outlets []*job.Outlet
}

// leg is one run seen from a point.
type leg struct {
	run  *job.Run
	to   int // the point at the other end
	port string
}

func newLayout(idx *job.Index, shelf *catalog.Catalog) *layout {
	net := &idx.Job().Net
	l := &layout{idx: idx, shelf: shelf, at: make(map[job.ID]int, len(net.Points)), spots: make([]spot, len(net.Points))}
	for i := range net.Points {
		pt := &net.Points[i]
		kind, _ := shelf.Kind(pt.Part.Kind)
		l.at[pt.ID] = i
		l.spots[i] = spot{point: pt, kind: kind, outlets: idx.OutletsAt(pt.ID)}
	}
	for i := range net.Runs {
		r := &net.Runs[i]
		from, ok1 := l.at[r.From.Point]
		to, ok2 := l.at[r.To.Point]
		if !ok1 || !ok2 {
			continue
		}
		l.spots[from].legs = append(l.spots[from].legs, leg{r, to, r.From.Port})
		l.spots[to].legs = append(l.spots[to].legs, leg{r, from, r.To.Port})
	}
	return l
}

func (l *layout) has(i int, r catalog.Role) bool { return l.spots[i].kind.Has(r) }

// with lists the points that have a role.
func (l *layout) with(r catalog.Role) []int {
	var out []int
	for i := range l.spots {
		if l.has(i, r) {
			out = append(out, i)
		}
	}
	return out
}

// barred: no air passes this point.
func (l *layout) barred(i int) bool {
	return l.spots[i].point.Part.Shut && l.has(i, catalog.Isolates)
}

// reach marks the points that air comes to from the start. It comes to a point
// where stop holds, but not past it; the start itself never stops it. It does
// not enter a part that lets air through one way by its outlet.
func (l *layout) reach(start []int, stop func(int) bool) []bool {
	seen := make([]bool, len(l.spots))
	queue := slices.Clone(start)
	for _, i := range queue {
		seen[i] = true
	}
	for n := 0; n < len(queue); n++ {
		i := queue[n]
		if n >= len(start) && (l.barred(i) || stop(i)) {
			continue
		}
		for _, e := range l.spots[i].legs {
			if seen[e.to] || l.against(e) {
				continue
			}
			seen[e.to] = true
			queue = append(queue, e.to)
		}
	}
	return seen
}

// against: the leg leads into the outlet of a part that air passes one way.
func (l *layout) against(e leg) bool {
	far := &l.spots[e.to]
	if !far.kind.Has(catalog.Checks) && !far.kind.Has(catalog.Regulates) {
		return false
	}
	port := e.run.From.Port
	if e.run.To.Point == far.point.ID {
		port = e.run.To.Port
	}
	return port == "out"
}

// behind marks the points that no compressor's air comes to but through a part
// with the role. A point that nothing comes to is behind nothing.
func (l *layout) behind(r catalog.Role) []bool {
	return l.behindAny(func(i int) bool { return l.has(i, r) })
}

func (l *layout) behindAny(part func(int) bool) []bool {
	start := l.with(catalog.Supplies)
	all := l.reach(start, func(int) bool { return false })
	open := l.reach(start, part)
	for i := range all {
		all[i] = all[i] && !open[i]
	}
	return all
}

// twig follows a leg out to where it ends without a branch and without an
// outlet; ok is false where it leads on into the net.
func (l *layout) twig(from int, e leg) (end int, ok bool) {
	at, last := e.to, e.run
	for range l.spots {
		s := &l.spots[at]
		if at == from || len(s.legs) > 2 || len(s.outlets) > 0 {
			return 0, false
		}
		if len(s.legs) == 1 {
			return at, true
		}
		next := s.legs[0]
		if next.run == last {
			next = s.legs[1]
		}
		at, last = next.to, next.run
	}
	return 0, false
}

// bears says whether a part with the role sits at the point or ends a twig of it.
func (l *layout) bears(i int, r catalog.Role) bool {
	if l.has(i, r) {
		return true
	}
	for _, e := range l.spots[i].legs {
		if end, ok := l.twig(i, e); ok && l.has(end, r) {
			return true
		}
	}
	return false
}

// drained says whether water can be let out at the point: a drain, a valve at
// the end of a twig, a treatment part with a bowl, or a drain that hangs with
// the outlet there.
func (l *layout) drained(i int) bool {
	s := &l.spots[i]
	if l.bears(i, catalog.Drains) || bowl(s.kind) {
		return true
	}
	for _, e := range s.legs {
		if end, ok := l.twig(i, e); ok && l.has(end, catalog.Isolates) {
			return true
		}
	}
	for _, o := range s.outlets {
		if l.hangs(o, catalog.Drains) {
			return true
		}
	}
	return false
}

// bowl: treatment that collects water lets it out by its own bowl.
func bowl(k catalog.Kind) bool { return k.Group == catalog.Treatment && k.Has(catalog.Collects) }

// pocket: a part made to gather water below the air's way, not a bowl.
func pocket(k catalog.Kind) bool { return k.Has(catalog.Collects) && k.Group != catalog.Treatment }

// hung is the kind of a part that hangs at an outlet.
func (l *layout) hung(p *job.Part) catalog.Kind {
	k, _ := l.shelf.Kind(p.Kind)
	return k
}

// hangs says whether a part with the role hangs at the outlet.
func (l *layout) hangs(o *job.Outlet, r catalog.Role) bool {
	return slices.ContainsFunc(o.Hang, func(p job.Part) bool { return l.hung(&p).Has(r) })
}

// section is lines of like role that hang together.
type section struct {
	runs   []*job.Run
	points []int
	// from are the points where the section leaves lines of a higher rank.
	from []int
}

// Ranks of lines: water and air go from the high to the low.
var (
	mains    = []string{"main", "ring"}
	branches = []string{"branch"}
	drops    = []string{"drop", "drip"}
)

func of(r *job.Run, roles []string) bool { return slices.Contains(roles, r.Role) }

// sections gathers the lines whose role is among those named, with the points
// where they leave lines of the higher roles.
func (l *layout) sections(roles, higher []string) []section {
	var out []section
	seen := make([]bool, len(l.spots))
	for i := range l.spots {
		if seen[i] || !l.touches(i, roles) || l.touches(i, higher) {
			continue
		}
		s := section{}
		used := map[*job.Run]bool{}
		queue := []int{i}
		seen[i] = true
		for n := 0; n < len(queue); n++ {
			at := queue[n]
			s.points = append(s.points, at)
			if l.touches(at, higher) {
				s.from = append(s.from, at)
				continue
			}
			for _, e := range l.spots[at].legs {
				if !of(e.run, roles) {
					continue
				}
				if !used[e.run] {
					used[e.run] = true
					s.runs = append(s.runs, e.run)
				}
				if !slices.Contains(queue, e.to) {
					queue = append(queue, e.to)
					seen[e.to] = true
				}
			}
		}
		out = append(out, s)
	}
	return out
}

// touches says whether a run of one of the roles ends at the point.
func (l *layout) touches(i int, roles []string) bool {
	return slices.ContainsFunc(l.spots[i].legs, func(e leg) bool { return of(e.run, roles) })
}

// forks counts the legs that lead on into the net, twigs left out.
func (l *layout) forks(i int) int {
	n := len(l.spots[i].outlets)
	for _, e := range l.spots[i].legs {
		if _, twig := l.twig(i, e); !twig {
			n++
		}
	}
	return n
}
