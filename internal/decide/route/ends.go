package route

import (
	"cmp"
	"slices"

	"dropleg/engine/geom"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// net is what is drawn already, as the search sees it.
type net struct {
	ix    *job.Index
	shelf *catalog.Catalog
	depth map[job.ID]int    // points that air reaches, by parts from the nearest compressor
	by    map[job.ID]job.ID // the point before
	mouth job.ID            // the last part of the plant: lines begin behind it
	start job.ID            // what ends open behind it, "" for nothing: there the main begins
}

// foot is what a line has to reach.
type foot struct {
	point   job.ID
	at      geom.Point
	names   []string // of the outlets behind it
	future  bool     // a stub for later, which has no point yet
	outlets []job.ID
}

// netOf looks at the net of a job.
func netOf(ix *job.Index, shelf *catalog.Catalog) *net {
	n := &net{ix: ix, shelf: shelf, depth: map[job.ID]int{}, by: map[job.ID]job.ID{}}
	var todo []job.ID
	for i := range ix.Job().Net.Points {
		p := &ix.Job().Net.Points[i]
		if n.kind(p.ID).Has(catalog.Supplies) {
			n.depth[p.ID] = 0
			todo = append(todo, p.ID)
		}
	}
	for len(todo) > 0 {
		at := todo[0]
		todo = todo[1:]
		for _, e := range ix.Ends(at) {
			if _, seen := n.depth[e.Other()]; !seen {
				n.depth[e.Other()], n.by[e.Other()] = n.depth[at]+1, at
				todo = append(todo, e.Other())
			}
		}
	}
	n.mouth = n.findMouth()
	if n.start = n.findStart(); n.start != "" && n.stands(n.start) {
		n.mouth = n.start // treatment with an open way out is there for lines to begin at
	}
	return n
}

func (n *net) kind(point job.ID) catalog.Kind {
	p := n.ix.Point(point)
	if p == nil {
		return catalog.Kind{}
	}
	k, _ := n.shelf.Kind(p.Part.Kind)
	return k
}

// stands says whether a point is plant or treatment, not something that a line ends in.
func (n *net) stands(point job.ID) bool {
	k := n.kind(point)
	_, ok := k.Port("out")
	return ok && (k.Group == catalog.Plant || k.Group == catalog.Treatment)
}

// findMouth is the last part of the plant by which half the outlets or more get their
// air; where none does yet, the one furthest from the compressor.
func (n *net) findMouth() job.ID {
	passes := map[job.ID]int{}
	fed := 0
	for i := range n.ix.Job().Outlets {
		at := n.ix.Job().Outlets[i].Point
		if _, ok := n.depth[at]; !ok {
			continue
		}
		fed++
		for at != "" {
			passes[at]++
			at = n.by[at]
		}
	}
	var best job.ID
	for i := range n.ix.Job().Net.Points {
		id := n.ix.Job().Net.Points[i].ID
		d, reached := n.depth[id]
		if !reached || !n.stands(id) || fed > 0 && 2*passes[id] < fed {
			continue
		}
		if best == "" || d > n.depth[best] {
			best = id
		}
	}
	return best
}

// freeOut says whether a part has a way out that no line takes.
func (n *net) freeOut(point job.ID) bool {
	for _, p := range n.kind(point).Ports {
		if p.ID == "out" && !slices.ContainsFunc(n.ix.Ends(point), func(e job.RunEnd) bool { return e.Port == p.ID || e.Port == "" && !e.AtTo }) {
			return true
		}
	}
	return false
}

// findStart is the open end behind the mouth that is furthest on: a free way out, a
// valve or a line with nothing behind it.
func (n *net) findStart() job.ID {
	var best job.ID
	for i := range n.ix.Job().Net.Points {
		id := n.ix.Job().Net.Points[i].ID
		if _, reached := n.depth[id]; !reached || !n.isBehind(id) || !n.open(id) {
			continue
		}
		if best == "" || n.depth[id] > n.depth[best] {
			best = id
		}
	}
	return best
}

// open says whether a line may go on from a point.
func (n *net) open(point job.ID) bool {
	k := n.kind(point)
	switch {
	case n.stands(point):
		return n.freeOut(point)
	case k.Has(catalog.Ends) || k.Has(catalog.Outlets) || len(n.ix.OutletsAt(point)) > 0:
		return false
	}
	return len(k.Ports) != 1 && len(n.ix.Ends(point)) == 1
}

// behind are the runs that get air by the mouth and are no plant: lines begin on them.
func (n *net) behind() []*job.Run {
	var out []*job.Run
	for i := range n.ix.Job().Net.Runs {
		r := &n.ix.Job().Net.Runs[i]
		if n.isBehind(r.From.Point) && n.isBehind(r.To.Point) && (r.From.Point != n.mouth || r.From.Port != "drain") {
			out = append(out, r)
		}
	}
	return out
}

// isBehind says whether a point is the mouth or gets its air by it.
func (n *net) isBehind(point job.ID) bool {
	for at := point; at != ""; at = n.by[at] {
		if at == n.mouth {
			return true
		}
	}
	return false
}

// feet lists what no line reaches yet.
func (n *net) feet() []foot {
	seen := map[job.ID]bool{}
	var out []foot
	for i := range n.ix.Job().Outlets {
		o := &n.ix.Job().Outlets[i]
		if _, fed := n.depth[o.Point]; fed || seen[o.Point] {
			continue
		}
		group := n.group(o.Point)
		f := foot{point: n.entry(group, o.Point)}
		for _, p := range group {
			seen[p] = true
			for _, x := range n.ix.OutletsAt(p) {
				f.names, f.outlets = append(f.names, x.Name), append(f.outlets, x.ID)
			}
		}
		f.at, _ = n.ix.Where(n.ix.Point(f.point))
		out = append(out, f)
	}
	return out
}

// chosen are the feet that lines are wished to.
func (w *Wish) chosen(feet []foot) []foot {
	if len(w.Outlets) == 0 {
		return feet
	}
	return slices.DeleteFunc(feet, func(f foot) bool {
		return !slices.ContainsFunc(f.outlets, func(id job.ID) bool { return slices.Contains(w.Outlets, id) })
	})
}

// group are the points that hang together with one.
func (n *net) group(point job.ID) []job.ID {
	out := []job.ID{point}
	for i := 0; i < len(out); i++ {
		for _, e := range n.ix.Ends(out[i]) {
			if !slices.Contains(out, e.Other()) {
				out = append(out, e.Other())
			}
		}
	}
	slices.SortFunc(out[1:], func(a, b job.ID) int { return cmp.Compare(a, b) })
	return out
}

// entry is where the air of a group comes in: by the way in of its first treatment that
// is free, by a loose end, or at the outlet itself.
func (n *net) entry(group []job.ID, outlet job.ID) job.ID {
	for _, p := range group {
		if n.stands(p) && !slices.ContainsFunc(n.ix.Ends(p), func(e job.RunEnd) bool { return e.AtTo }) {
			return p
		}
	}
	for _, p := range group {
		if k := n.kind(p); p != outlet && len(n.ix.Ends(p)) == 1 && k.Group == catalog.Fitting && !k.Has(catalog.Ends) {
			return p
		}
	}
	return outlet
}
