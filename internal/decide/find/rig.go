package find

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/air"
	"dropleg/engine/element"
	"dropleg/engine/network"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// rig is the network with its laws in hand, so that faults can be put into it
// and taken out again.
type rig struct {
	m     *model.Model
	links []element.Law // nominal: filters half way between clean and loaded
	tools []element.Law
	taken []float64
	sigma []float64 // by element: ln of what it passes
	hard  []float64 // by tool: ln of what it takes
	atm   float64
	top   *network.Topology
	live  map[string]*moment // by what runs
	place map[job.ID]int     // tool → index
	stock store
	full  []fullFlow          // by element, where any tool runs
	weep  map[int]element.Law // by node: the small leaks of a sound shop
	open  map[string][]bool   // by valves shut: the nodes that the receiver feeds
}

// store is what fills and falls.
type store struct {
	volume float64 // m³: receivers and lines
	temp   float64 // K
	supply float64 // kg/s
	cutIn  float64 // Pa g
	cutOut float64
}

// moment is a solver for one set of running tools.
type moment struct {
	net   *network.Solver
	pairs []int
	pull  []float64
	// Without a fault, at the pressure that the sources were held at last.
	held  unit.GaugePressure
	sound *network.State // nil: no answer
	seen  map[int]prediction
	last  fault // put in first
}

// leastDoubt is how well any loss or tool is known at best, as ln: common practice, no source.
const leastDoubt = 0.05

func newRig(m *model.Model) (*rig, error) {
	clean, loaded := m.Laws(model.Likely, false), m.Laws(model.Likely, true)
	best, worst := m.Laws(model.Best, false), m.Laws(model.Worst, false)
	r := &rig{
		m: m, tools: clean.Tools, taken: clean.Taken, atm: float64(m.Atmosphere()),
		live: map[string]*moment{}, place: map[job.ID]int{}, open: map[string][]bool{},
	}
	for i, law := range clean.Links {
		doubt := leastDoubt + ratioOf(best.Links[i], worst.Links[i])/4
		if wear := ratioOf(law, loaded.Links[i]); wear > 0.01 {
			law = scaled{law, math.Exp(-wear / 2)}
			doubt = math.Hypot(doubt, wear/4)
		}
		r.links = append(r.links, law)
		r.sigma = append(r.sigma, doubt)
	}
	for i, t := range m.Tools() {
		r.place[t.ID] = i
		doubt := leastDoubt
		if t.Low > 0 && t.High > t.Low {
			doubt = math.Hypot(doubt, math.Log(float64(t.High/t.Low))/4)
		}
		r.hard = append(r.hard, doubt)
	}
	r.readStore()
	if err := r.weeps(); err != nil {
		return nil, err
	}
	return r, r.compile()
}

// weeps spreads what a sound shop leaks over its outlets. Without it a regulator
// would stand at no flow, where nobody can say what a little flow does to it.
func (r *rig) weeps() error {
	r.weep = map[int]element.Law{}
	outlets := r.m.Outlets()
	if r.stock.supply <= 0 || len(outlets) == 0 {
		return nil
	}
	hole, err := element.NewLeak(r.m.Gas(), element.LeakSpec{
		Fraction: leakShare / float64(len(outlets)), Supply: r.stock.supply, Pressure: r.stock.cutIn + r.atm, Atmosphere: r.atm, Cd: holeCd,
	})
	if err != nil {
		return fmt.Errorf("spreading small leaks: %w", err)
	}
	for _, o := range outlets {
		if o.Node >= 0 {
			r.weep[o.Node] = hole
		}
	}
	return nil
}

// middle is where the receiver stands while readings are planned: mid band.
func (r *rig) middle() unit.GaugePressure {
	return unit.GaugePressure((r.stock.cutIn + r.stock.cutOut) / 2)
}

// ratioOf is ln of what one law passes over what another does, at a small difference.
func ratioOf(a, b element.Law) float64 {
	const p, q = 8e5, 7.9e5
	ma, _, _ := a.Flow(p, q)
	mb, _, _ := b.Flow(p, q)
	if ma <= 0 || mb <= 0 {
		return 0
	}
	return math.Abs(math.Log(ma / mb))
}

func (r *rig) readStore() {
	s := &r.stock
	s.temp = r.m.Gas().Temperature
	for _, c := range r.m.Receivers() {
		s.volume += float64(c.Volume)
	}
	for _, e := range r.m.Elements() {
		s.volume += math.Pi / 4 * float64(e.Bore*e.Bore*e.Length)
	}
	for _, c := range r.m.Sources() {
		s.cutIn, s.cutOut = float64(c.CutIn), float64(c.CutOut)
	}
	for _, c := range r.m.Compressors() {
		s.supply += float64(air.Mass(c.FreeAir))
	}
}

func (r *rig) compile() error {
	n := network.Network{}
	for range r.m.Nodes() {
		n.AddNode(network.Node{})
	}
	for node, hole := range r.weep {
		n.Nodes[node].Outflow, n.Nodes[node].Back = hole, r.atm
	}
	for i, e := range r.m.Elements() {
		n.AddLink(network.Link{From: e.From, To: e.To, Law: r.links[i]})
	}
	for _, s := range r.m.Sources() {
		n.Nodes[s.Node].Fixed, n.Nodes[s.Node].Pressure = true, float64(s.CutIn)+r.atm
	}
	top, err := n.Compile()
	if err != nil {
		return fmt.Errorf("compiling the network: %w", err)
	}
	r.top = top
	return nil
}

// at is the moment of a set of running tools, every source held at p.
func (r *rig) at(ctx context.Context, running []job.InUse, p unit.GaugePressure) (*moment, error) {
	key := job.KeyOf(running)
	mo := r.live[key]
	if mo == nil {
		mo = &moment{net: r.top.NewSolver(), pull: make([]float64, r.top.Nodes())}
		for _, u := range running {
			if pair, ok := r.m.PairOf(u); ok {
				mo.pairs = append(mo.pairs, pair.Index)
				r.turn(mo, pair.Index, 1)
			}
		}
		r.live[key] = mo
	} else if mo.held == p {
		return mo, nil
	}
	for _, s := range r.m.Sources() {
		mo.net.SetPressure(s.Node, float64(p)+r.atm)
	}
	mo.held, mo.sound, mo.seen = p, nil, map[int]prediction{}
	state, err := r.solve(ctx, mo, nil)
	if err != nil {
		// Nobody waited for it: the next who asks must not take that for no answer.
		delete(r.live, key)
		return nil, err
	}
	if state != nil {
		mo.sound = &network.State{
			Pressure: slices.Clone(state.Pressure), Flow: slices.Clone(state.Flow),
			Taken: slices.Clone(state.Taken), Determined: slices.Clone(state.Determined),
		}
	}
	return mo, nil
}

// turn lets a running tool take so many times what its plate says.
func (r *rig) turn(mo *moment, pair int, by float64) {
	node := r.m.Pairs()[pair].Node
	switch law := r.tools[pair]; {
	case law == nil:
		mo.net.SetDemand(node, r.taken[pair]*by)
	case by == 1:
		mo.net.SetOutflow(node, law, r.atm)
	default:
		mo.net.SetOutflow(node, scaled{law, by}, r.atm)
	}
}

// solve answers a moment with faults put in; nil where the network has no answer.
func (r *rig) solve(ctx context.Context, mo *moment, parts []fault) (*network.State, error) {
	first := fault{}
	for i, f := range parts {
		r.put(mo, f)
		if i == 0 {
			first = f
		}
	}
	// Rungs of one ladder lie near each other, and holes too: air flows where none did.
	// Another fault is nearer to none.
	if near := first.sort == mo.last.sort && (first.at == mo.last.at || first.sort == Leaking); !near && mo.sound != nil {
		mo.net.StartFrom(mo.sound)
	}
	mo.last = first
	state, err := mo.net.Solve(ctx)
	var none *network.NoAnswer
	if errors.As(err, &none) {
		mo.net.Forget()
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("solving the network: %w", err)
	}
	return state, nil
}

// put lays a fault into a moment.
func (r *rig) put(mo *moment, f fault) {
	switch f.sort {
	case Restricted:
		mo.net.SetLaw(f.at, r.restricted(f))
	case Leaking:
		if hole, err := element.NewOrifice(r.m.Gas(), f.size, holeCd); err == nil {
			mo.net.SetOutflow(f.at, hole, r.atm)
		}
	case MisSet:
		if reg, ok := r.links[f.at].(*element.Regulator); ok {
			mo.net.SetLaw(f.at, reg.SetTo(reg.Set()+f.size))
		}
	case Greedy:
		for _, p := range mo.pairs {
			if r.place[r.m.Pairs()[p].Tool] == f.at {
				r.turn(mo, p, f.size)
			}
		}
	}
}

// take takes faults out again.
func (r *rig) take(mo *moment, parts []fault) {
	for _, f := range parts {
		switch f.sort {
		case Restricted, MisSet:
			mo.net.SetLaw(f.at, r.links[f.at])
		case Leaking:
			mo.net.SetOutflow(f.at, r.weep[f.at], r.atm)
		case Greedy:
			f.size = 1
			r.put(mo, f)
		}
	}
}

// holeCd is the discharge coefficient of a hole with an edge: 0.6, handbook value, recalled.
const holeCd = 0.6
