package find

import (
	"context"
	"math"

	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// Sort is what is wrong with a thing.
type Sort string

// The sorts of cause.
const (
	None       Sort = "none"
	Restricted Sort = "restricted"    // passes less than it should
	Leaking    Sort = "leaking"       // a hole to the room
	MisSet     Sort = "mis-set"       // a regulator
	Greedy     Sort = "asks-more"     // a tool beyond its plate
	Weak       Sort = "delivers-less" // a compressor
)

// fault is a cause at one size: the share that passes, a bore in m, a change of
// set pressure in Pa, a factor on what is taken or delivered.
type fault struct {
	sort Sort
	at   int // element, node or tool by its index
	size float64
}

// cause is one thing that may be wrong, with the rungs of its size.
type cause struct {
	sort  Sort
	at    int
	id    job.ID
	leg   string
	rungs []float64
	odds  float64 // before any reading, of all one
	group int
	seen  float64 // ln of what looks at the thing add to its odds
	until int     // mended: the readings before that it was there for; 0: it still may be
	over  bool    // mended before all readings
}

func (c *cause) fault(rung int) fault { return fault{c.sort, c.at, c.rungs[rung]} }

// droops is about what a regulator falls by from its set pressure at full flow, Pa. The rest of its loss is wanted, and no
// measure of its size. Common practice, no source.
const droops = 10e3

// The ladders. Losses of a restriction in Pa at the greatest flow that the
// element sees; bores of holes in m; factors.
var (
	losses = []float64{10e3, 18e3, 32e3, 58e3, 105e3, 189e3, 340e3, 612e3}
	bores  = []float64{1e-3, 1.4e-3, 2e-3, 2.8e-3, 4e-3, 5.6e-3}
	asks   = []float64{1.25, 1.5, 1.8, 2.2, 2.7}
	gives  = []float64{0.83, 0.7, 0.58, 0.48, 0.38, 0.28}
	turns  = []float64{-240e3, -200e3, -160e3, -130e3, -100e3, -75e3, -50e3, -30e3, 30e3, 60e3, 100e3}
)

// What people find in shops that somebody calls weak: how often each sort, however
// many things the shop has, and of what is restricted which things more often than
// others. Common practice, no source.
var sortShare = map[Sort]float64{None: 0.15, Restricted: 0.44, Leaking: 0.15, MisSet: 0.08, Greedy: 0.08, Weak: 0.1}

const (
	oddsTreatment = 3
	oddsCoupler   = 1.5
	oddsHose      = 1.2
	oddsValve     = 1
	oddsLine      = 0.5
	oddsFitting   = 0.3
	oddsSecond    = 0.3 // of a second fault beside a first, against none
)

// causesOf lists what may be wrong: elements that air passes while any of the sets runs.
func (r *rig) causesOf(ctx context.Context, sets [][]job.InUse, p unit.GaugePressure) ([]cause, error) {
	r.full = make([]fullFlow, len(r.links))
	for _, set := range sets {
		mo, err := r.at(ctx, set, p)
		if err != nil {
			return nil, err
		}
		state := mo.sound
		if state == nil {
			continue
		}
		for i, e := range r.m.Elements() {
			if m := math.Abs(state.Flow[i]); m > r.full[i].most {
				a, b := state.Pressure[e.From], state.Pressure[e.To]
				r.full[i] = fullFlow{m, min(a, b), max(1, math.Abs(a-b))}
			}
		}
	}
	all := []cause{{sort: None, at: -1, rungs: []float64{1}, odds: 1}}
	for i, e := range r.m.Elements() {
		if r.full[i].most < 1e-6 {
			continue
		}
		c := cause{sort: Restricted, at: i, id: e.ID, leg: e.Leg, odds: oddsOf(&e)}
		reg, regulates := r.links[i].(*element.Regulator)
		if regulates {
			r.full[i].loss = droops
		}
		base := r.full[i].loss
		for _, more := range losses {
			c.rungs = append(c.rungs, math.Sqrt(base/(base+more)))
		}
		all = append(all, c)
		if regulates && reg.Set() > r.atm {
			all = append(all, cause{sort: MisSet, at: i, id: e.ID, rungs: turns, odds: 1})
		}
	}
	all = r.otherCauses(all)
	shareOut(all)
	return all, nil
}

// shareOut makes the odds of each sort come to its share, and all to one.
func shareOut(all []cause) {
	sums, total := map[Sort]float64{}, 0.0
	for i := range all {
		if sums[all[i].sort] == 0 {
			total += sortShare[all[i].sort]
		}
		sums[all[i].sort] += all[i].odds
	}
	for i := range all {
		all[i].odds *= sortShare[all[i].sort] / sums[all[i].sort] / total
	}
}

// otherCauses adds holes, tools and compressors.
func (r *rig) otherCauses(all []cause) []cause {
	// A node has one outflow: where a tool takes, a hole would take its place.
	taken := map[int]bool{}
	for _, s := range r.m.Sources() {
		taken[s.Node] = true
	}
	for _, c := range r.m.Compressors() {
		taken[c.Node] = true
	}
	for _, p := range r.m.Pairs() {
		taken[p.Node] = true
	}
	seen := map[job.ID]bool{}
	for i, n := range r.m.Nodes() {
		id := n.Point
		if id == "" {
			id = n.Outlet
		}
		if taken[i] || n.Tool != "" || id == "" || n.Point != "" && seen[id] {
			continue
		}
		seen[id] = true
		all = append(all, cause{sort: Leaking, at: i, id: id, leg: n.Port, rungs: bores, odds: 1})
	}
	for i, t := range r.m.Tools() {
		if !t.Later {
			all = append(all, cause{sort: Greedy, at: i, id: t.ID, rungs: asks, odds: 1})
		}
	}
	if plant := r.m.Compressors(); len(plant) > 0 {
		all = append(all, cause{sort: Weak, at: 0, id: plant[0].ID, rungs: gives, odds: 1})
	}
	return all
}

func oddsOf(e *model.Element) float64 {
	switch e.Thing {
	case model.ThingTreatment, model.ThingPlant:
		return oddsTreatment
	case model.ThingCoupler:
		return oddsCoupler
	case model.ThingHose:
		return oddsHose
	case model.ThingLine:
		return oddsLine
	}
	if e.Leg == "" {
		return oddsValve
	}
	return oddsFitting
}
