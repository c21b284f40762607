package find

import (
	"cmp"
	"context"
	"math"
	"slices"

	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// mostSets bounds what a person is asked to let run.
const mostSets = 16

// setsOf are sets of tools that a person can let run: each tool at its outlets,
// then the job's own sets.
func setsOf(j *job.Job, m *model.Model) [][]job.InUse {
	var out [][]job.InUse
	ends := map[job.ID]bool{}
	var each []job.InUse
	for _, p := range m.Pairs() {
		if p.Later {
			continue
		}
		use := job.InUse{Tool: p.Tool, Outlet: p.Outlet}
		out = append(out, []job.InUse{use})
		if !ends[p.Outlet] && !ends[p.Tool] {
			ends[p.Outlet], ends[p.Tool] = true, true
			each = append(each, use)
		}
	}
	if len(out) > mostSets-4 {
		out = out[:mostSets-4]
	}
	for _, s := range j.Work.Sets {
		if len(out) >= mostSets-1 {
			break
		}
		if len(s.Running) > 1 && !slices.ContainsFunc(s.Running, func(u job.InUse) bool { p, ok := m.PairOf(u); return !ok || p.Later }) {
			out = append(out, s.Running)
		}
	}
	if len(each) > 1 {
		out = append(out, each[:min(len(each), 3)])
	}
	return out
}

// placesOf are the places for a gauge: where the net has one, each outlet in
// place of its hose, and between hose and tool.
func (f *Finder) placesOf() []Place {
	var out []Place
	ix, shelf := f.study.Index(), f.study.Catalog()
	seen := map[job.ID]bool{}
	for _, n := range f.rig.m.Nodes() {
		p := ix.Point(n.Point)
		if p == nil || seen[n.Point] {
			continue
		}
		seen[n.Point] = true
		if k, ok := shelf.Kind(p.Part.Kind); ok && k.Has(catalog.Gauges) {
			out = append(out, Place{At: n.Point})
		}
	}
	for _, o := range f.rig.m.Outlets() {
		if o.Node >= 0 {
			out = append(out, Place{At: o.ID})
		}
	}
	for _, p := range f.rig.m.Pairs() {
		if !p.Later {
			out = append(out, Place{At: p.Outlet, Tool: p.Tool})
		}
	}
	return out
}

// fits says whether a gauge can sit at a place while a set runs: before a tool
// only while that tool runs.
func fits(p Place, set []job.InUse) bool {
	return p.Tool == "" || slices.Contains(set, job.InUse{Tool: p.Tool, Outlet: p.At})
}

// alike is the cosine above which two causes show alike in every reading; where
// the same air passes both, laws of different curves make no difference that
// shows.
const (
	alike  = 0.9985
	series = 0.97
)

// group finds causes of one sort that no reading tells apart: in every set and at
// every place they take from the pressure in the same proportion.
func (f *Finder) group(ctx context.Context) error {
	marks, err := f.marks(ctx)
	if err != nil {
		return err
	}
	order := make([]int, len(f.causes))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(f.causes[b].odds, f.causes[a].odds) })
	for _, i := range order {
		c := &f.causes[i]
		c.group = -1
		for g, members := range f.groups {
			first := &f.causes[members[0]]
			if first.sort == c.sort && (c.sort == Restricted || c.sort == Leaking) && f.same(first, c, dot(marks[i], marks[members[0]])) {
				c.group = g
				f.groups[g] = append(members, i)
				break
			}
		}
		if c.group < 0 {
			c.group = len(f.groups)
			f.groups = append(f.groups, []int{i})
		}
	}
	return nil
}

// same says whether two causes of one sort show alike, by the cosine between them.
func (f *Finder) same(a, b *cause, cosine float64) bool {
	if cosine > alike || a.sort != Restricted || cosine < series {
		return cosine > alike
	}
	for _, mo := range f.rig.live {
		if mo.sound == nil {
			continue
		}
		x, y := math.Abs(mo.sound.Flow[a.at]), math.Abs(mo.sound.Flow[b.at])
		if math.Abs(x-y) > 1e-4*max(x, y, 1e-6) {
			return false
		}
	}
	return true
}

// marks is the direction in which each cause moves all readings that could be
// taken, of length 1; nil for causes without one.
func (f *Finder) marks(ctx context.Context) ([][]float64, error) {
	marks := make([][]float64, len(f.causes))
	for _, set := range f.sets {
		mo, err := f.rig.at(ctx, set, f.level())
		if err != nil {
			return nil, err
		}
		state, err := f.rig.solve(ctx, mo, nil)
		if err != nil {
			return nil, err
		}
		if state == nil {
			continue
		}
		sens := mo.net.Sensitivity()
		for _, place := range f.places {
			node := nodeOf(f.rig.m, place)
			if !fits(place, set) || node < 0 || !state.Determined[node] {
				continue
			}
			sens.Of(node, mo.pull)
			for i := range f.causes {
				marks[i] = append(marks[i], f.moves(&f.causes[i], mo, state.Flow))
			}
		}
	}
	for i := range marks {
		if long := math.Sqrt(dot(marks[i], marks[i])); long > 0 {
			for k := range marks[i] {
				marks[i][k] /= long
			}
		}
	}
	return marks, nil
}

func (f *Finder) moves(c *cause, mo *moment, flow []float64) float64 {
	switch c.sort {
	case Restricted:
		e := f.rig.m.Elements()[c.at]
		return (mo.pull[e.From] - mo.pull[e.To]) * flow[c.at]
	case Leaking:
		return mo.pull[c.at]
	}
	return 0
}
