package find

import (
	"cmp"
	"context"
	"math"
	"slices"

	"dropleg/engine/element"
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

// mostValves bounds what a person is asked to shut.
const mostValves = 12

// valvesOf are the valves behind which something hangs that the receiver no longer
// feeds once they are shut, those that part most first.
func (f *Finder) valvesOf() []job.ID {
	shelf := f.study.Catalog()
	cut := map[job.ID]int{}
	var out []job.ID
	for _, e := range f.rig.m.Elements() {
		if k, ok := shelf.Kind(e.Kind); !ok || !k.Has(catalog.Isolates) || cut[e.ID] > 0 {
			continue
		}
		for _, open := range f.rig.reached(&Reading{Shut: []job.ID{e.ID}}) {
			if !open {
				cut[e.ID]++
			}
		}
		if cut[e.ID] > 0 {
			out = append(out, e.ID)
		}
	}
	slices.SortStableFunc(out, func(a, b job.ID) int { return cmp.Compare(cut[b], cut[a]) })
	return out[:min(len(out), mostValves)]
}

// parted says whether a valve stands between two leaks.
func (f *Finder) parted(a, b int) bool {
	return slices.ContainsFunc(f.valves, func(v job.ID) bool {
		open := f.rig.reached(&Reading{Shut: []job.ID{v}})
		return open[a] != open[b]
	})
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
	unseen = 500 // Pa in all readings together, for a share of one e-th less
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
		c, found := &f.causes[i], false
		for g, members := range f.alike {
			first := &f.causes[members[0]]
			if first.sort == c.sort && (c.sort == Restricted || c.sort == Leaking) && f.same(first, c, marks[i], marks[members[0]]) {
				f.alike[g] = append(members, i)
				found = true
				break
			}
		}
		if !found {
			f.alike = append(f.alike, []int{i})
		}
	}
	f.regroup()
	return nil
}

// same says whether two causes of one sort show alike, by how they move all readings.
func (f *Finder) same(a, b *cause, x, y []float64) bool {
	if a.sort == Leaking {
		return f.hidden(x, y) && !f.parted(a.at, b.at)
	}
	long := math.Sqrt(dot(x, x) * dot(y, y))
	// What a regulator hides shows nowhere: then only the way of the air tells.
	if math.Sqrt(max(dot(x, x), dot(y, y))) > unseen {
		cosine := dot(x, y) / max(long, 1e-9)
		if cosine > alike || cosine < series {
			return cosine > alike
		}
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

// hidden says whether no gauge parts two leaks: what one takes from any reading is
// what the other takes, within twice what a reading of a gauge is good to.
func (f *Finder) hidden(x, y []float64) bool {
	p := float64(f.rig.middle()) + f.rig.atm
	hole, err := element.NewOrifice(f.rig.m.Gas(), bores[len(bores)-2], holeCd)
	if err != nil {
		return false
	}
	flow, _, _ := hole.Flow(p, f.rig.atm)
	for i := range x {
		if math.Abs(x[i]-y[i])*flow > 2*gauge {
			return false
		}
	}
	return true
}

// marks is how each cause moves all readings that could be taken; nothing for causes
// whose size acts in no one direction.
func (f *Finder) marks(ctx context.Context) ([][]float64, error) {
	marks := make([][]float64, len(f.causes))
	for _, set := range f.sets {
		mo, err := f.rig.at(ctx, set, f.rig.middle())
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
