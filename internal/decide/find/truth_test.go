package find

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"dropleg/engine/element"
	"dropleg/engine/network"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// truth is a shop as it really is: every figure off by something, holes nobody
// knows of, gauges within their class, and faults. It is solved through a
// network of its own: a restriction is a hole in the way and not a share of the
// law, so that what is looked for is not what looks.
type truth struct {
	rig    *rig
	net    network.Network
	faults []fault
	plate  float64 // what the compressor delivers, of its plate
	volume float64
	offset float64 // of the gauge against the receiver's, Pa
	is     uint64  // the same number, the same shop
	rng    *rand.Rand
}

func between(r *rand.Rand, low, high float64) float64 { return low + (high-low)*r.Float64() }

func newTruth(r *rig, is uint64, faults []fault) *truth {
	rng := rand.New(rand.NewPCG(is, 1))
	t := &truth{
		rig: r, is: is, faults: faults, rng: rng, plate: math.Exp(plateDoubt * rng.NormFloat64()),
		volume: math.Exp(volumeDoubt * rng.NormFloat64()),
		offset: gaugeClass / 2 * gaugeSpan * (rng.NormFloat64() + rng.NormFloat64()),
	}
	for range r.m.Nodes() {
		t.net.AddNode(network.Node{})
	}
	for _, s := range r.m.Sources() {
		t.net.Nodes[s.Node].Fixed = true
	}
	for i, e := range r.m.Elements() {
		t.net.AddLink(network.Link{From: e.From, To: e.To, Law: scaled{r.links[i], math.Exp(r.sigma[i] * clip(rng.NormFloat64()))}})
	}
	t.leaks(between(rng, 0, 2*leakShare))
	for _, f := range faults {
		t.put(f)
	}
	return t
}

func clip(x float64) float64 { return max(-2, min(2, x)) }

// leaks puts three small holes at nodes of the net, of a share of the supply together.
func (t *truth) leaks(share float64) {
	for range 3 {
		n := t.rng.IntN(len(t.rig.m.Nodes()))
		if node := &t.net.Nodes[n]; !node.Fixed && node.Outflow == nil && t.rig.m.Nodes()[n].Tool == "" && t.rig.stock.supply > 0 {
			hole, _ := element.NewLeak(t.rig.m.Gas(), element.LeakSpec{
				Fraction: share/3 + 1e-6, Supply: t.rig.stock.supply, Pressure: 8e5, Atmosphere: t.rig.atm, Cd: holeCd,
			})
			node.Outflow, node.Back = hole, t.rig.atm
		}
	}
}

// put lays a fault: the size of a restriction is the bore of a hole in the way.
func (t *truth) put(f fault) {
	switch f.sort {
	case Restricted:
		hole, _ := element.NewOrifice(t.rig.m.Gas(), f.size, 0.7)
		l := &t.net.Links[f.at]
		mid := t.net.AddNode(network.Node{})
		t.net.AddLink(network.Link{From: mid, To: l.To, Law: hole})
		t.net.Links[f.at].To = mid
	case Leaking:
		hole, _ := element.NewOrifice(t.rig.m.Gas(), f.size, 0.65)
		t.net.Nodes[f.at].Outflow, t.net.Nodes[f.at].Back = hole, t.rig.atm
	case MisSet:
		if reg, ok := t.rig.links[f.at].(*element.Regulator); ok {
			t.net.Links[f.at].Law = reg.SetTo(reg.Set() + f.size)
		}
	case Weak:
		t.plate *= f.size
	}
}

// right mends a fault: all else stays as it is.
func (t *truth) right(f fault) {
	left := slices.DeleteFunc(slices.Clone(t.faults), func(o fault) bool { return o == f })
	again := newTruth(t.rig, t.is, left)
	t.net, t.faults, t.plate = again.net, left, again.plate
}

// solve lets tools run with the receiver at p, Pa g.
func (t *truth) solve(set []job.InUse, p float64) (*network.State, error) {
	n := t.net
	n.Nodes = append([]network.Node(nil), t.net.Nodes...)
	for _, s := range t.rig.m.Sources() {
		n.Nodes[s.Node].Pressure = p + t.rig.atm
	}
	hard := rand.New(rand.NewPCG(t.seed(), 7))
	ask := make([]float64, len(t.rig.hard))
	for i, doubt := range t.rig.hard {
		ask[i] = math.Exp(doubt * clip(hard.NormFloat64()))
	}
	for _, f := range t.faults {
		if f.sort == Greedy {
			ask[f.at] *= f.size
		}
	}
	for _, u := range set {
		pair, _ := t.rig.m.PairOf(u)
		by := ask[t.rig.place[pair.Tool]]
		if law := t.rig.tools[pair.Index]; law != nil {
			n.Nodes[pair.Node].Outflow, n.Nodes[pair.Node].Back = scaled{law, by}, t.rig.atm
		} else {
			n.Nodes[pair.Node].Demand = t.rig.taken[pair.Index] * by
		}
	}
	top, err := n.Compile()
	if err != nil {
		return nil, err
	}
	return top.NewSolver().Solve(context.Background())
}

// seed is the same for one truth, so that its tools stay what they are.
func (t *truth) seed() uint64 { return math.Float64bits(t.offset) }

// take reads what is asked for; ok is false where nothing can be had.
func (t *truth) take(r Reading) (Reading, bool) {
	rt := t.rig.m.Gas().RT()
	if r.Kind != Pressure {
		st, err := t.solve(nil, float64(r.From+r.To)/2)
		if err != nil {
			return r, false
		}
		flow := 0.0
		open := t.rig.reached(&r)
		for i, x := range st.Taken {
			if open == nil || i >= len(open) || open[i] {
				flow += x
			}
		}
		if r.Kind == PumpUp {
			flow = t.rig.stock.supply*t.plate - flow
		}
		if r.Kind == PumpUp && flow < 1e-6 {
			return r, false
		}
		flow = max(flow, 1e-9)
		time := t.rig.volume(&r) * t.volume * math.Abs(float64(r.To-r.From)) / (rt * flow)
		r.Time = unit.Duration(min(time, longest) * math.Exp(clockDoubt*t.rng.NormFloat64()))
		return r, true
	}
	p := between(t.rng, t.rig.stock.cutIn, t.rig.stock.cutOut)
	if r.Stopped {
		p = float64(r.Receiver) + between(t.rng, -20e3, 20e3)
	}
	st, err := t.solve(r.Running, p)
	node := nodeOf(t.rig.m, r.Place)
	if err != nil || node < 0 || !st.Determined[node] {
		return r, false
	}
	round := func(x float64) unit.GaugePressure { return unit.GaugePressure(math.Round(max(x, 0)/mark) * mark) }
	late := 0.0 // what the receiver fell by between two glances
	if r.Stopped {
		for _, x := range st.Taken {
			late += x * rt / (t.rig.stock.volume * t.volume)
		}
		late *= 1.5 * clip(t.rng.NormFloat64())
	}
	r.Receiver = round(p + late + 1e3*t.rng.NormFloat64())
	r.Pressure = round(st.Pressure[node] - t.rig.atm + t.offset + 1e3*t.rng.NormFloat64())
	return r, true
}
