package find

import (
	"context"
	"math"
	"slices"

	"dropleg/engine/network"
)

// What is not known of a sound shop, besides the figures that carry their own
// range: common practice, no source.
const (
	leakShare   = 0.03 // of the supply: what a sound shop leaks
	leakDoubt   = 0.7  // ln of that
	weepSpread  = 1.5  // of what leaks at one outlet, against its even share
	plateDoubt  = 0.08 // ln of what a compressor delivers
	volumeDoubt = 0.07 // ln of volume, and of the air's temperature while it fills
	clockDoubt  = 0.03 // ln of a time read
	gaugeClass  = 0.016
	gaugeSpan   = 1e6    // Pa
	mark        = 6894.8 // Pa, 1 psi: what a gauge is read to
	spare       = 4      // columns after those of elements, tools and outlets
)

// prediction is what one fault, at one size, makes of one reading.
type prediction struct {
	known bool
	mean  float64
	row   []float64 // by what is not known, each in its standard deviation
	step  []float64 // the same for the size of each fault: half way to the next rung
	extra float64   // ln of a likelihood beside
}

// gauge is the independent error of a reading against the receiver's, Pa.
var gauge = math.Sqrt(2) * math.Hypot(mark/math.Sqrt(12), 1e3)

// bias is the standing difference of the two gauges, Pa: each within its class 19 times in 20.
const bias = math.Sqrt2 * gaugeClass / 2 * gaugeSpan

func (r *rig) width() int {
	return len(r.links) + len(r.hard) + len(r.m.Outlets()) + spare
}

// Columns after those of elements, tools and outlets.
func (r *rig) column(i int) int { return r.width() - spare + i }

const (
	colBias = iota
	colVolume
	colPlate
	colLeak
)

// predict solves one reading with faults put in.
func (r *rig) predict(ctx context.Context, rd *Reading, parts []fault) (prediction, error) {
	if rd.Kind != Pressure {
		return r.predictClock(ctx, rd, parts)
	}
	all, err := r.predictAt(ctx, rd, parts, []int{nodeOf(r.m, rd.Place)})
	if err != nil {
		return prediction{}, err
	}
	return all[0], nil
}

// predictAt solves the moment of a reading once and looks at several nodes.
func (r *rig) predictAt(ctx context.Context, rd *Reading, parts []fault, nodes []int) ([]prediction, error) {
	mo, err := r.at(ctx, rd.Running, rd.Receiver)
	if err != nil {
		return nil, err
	}
	out := make([]prediction, len(nodes))
	state, acts := mo.sound, r.acts(mo, parts)
	missing := slices.ContainsFunc(nodes, func(n int) bool { _, ok := mo.seen[n]; return !ok })
	if acts || missing {
		put := parts
		if !acts {
			put = nil
		}
		if state, err = r.solve(ctx, mo, put); state == nil {
			r.take(mo, put)
			return out, err
		}
		sens := mo.net.Sensitivity()
		for i, n := range nodes {
			out[i] = r.seen(mo, sens, state, n)
			if !acts {
				mo.seen[n] = out[i]
			}
		}
		r.take(mo, put)
	} else if state != nil {
		for i, n := range nodes {
			out[i] = mo.seen[n]
		}
	}
	if state == nil {
		return out, nil
	}
	extra := r.short(rd, state, parts)
	for i := range out {
		out[i].step, out[i].extra = nil, extra
	}
	return out, nil
}

// leastActs is what a restriction must take away for a gauge to be asked, Pa.
const leastActs = 300

// acts says whether faults change anything of a moment: a restriction where next to
// nothing flows does not.
func (r *rig) acts(mo *moment, parts []fault) bool {
	return mo.sound == nil || slices.ContainsFunc(parts, func(f fault) bool {
		switch f.sort {
		case Restricted:
			e := &r.m.Elements()[f.at]
			lost := math.Abs(mo.sound.Pressure[e.From] - mo.sound.Pressure[e.To])
			return len(parts) > 1 || lost*(1/(f.size*f.size)-1) > leastActs
		case Greedy:
			return slices.ContainsFunc(mo.pairs, func(p int) bool { return r.place[r.m.Pairs()[p].Tool] == f.at })
		}
		return f.sort == Leaking || f.sort == MisSet
	})
}

// seen is the pressure at a node with its sensitivities.
func (r *rig) seen(mo *moment, sens *network.Sensitivity, state *network.State, node int) prediction {
	if node < 0 || !state.Determined[node] {
		return prediction{}
	}
	p := prediction{known: true, mean: state.Pressure[node] - r.atm, row: make([]float64, r.width())}
	sens.Of(node, mo.pull)
	for i, e := range r.m.Elements() {
		p.row[i] = (mo.pull[e.From] - mo.pull[e.To]) * state.Flow[i] * r.sigma[i]
	}
	at := len(r.links)
	for _, pair := range mo.pairs {
		t := r.place[r.m.Pairs()[pair].Tool]
		n := r.m.Pairs()[pair].Node
		took := state.Taken[n]
		if r.tools[pair] == nil {
			took = r.taken[pair]
		}
		p.row[at+t] += mo.pull[n] * took * r.hard[t]
	}
	at += len(r.hard)
	outlets := r.m.Outlets()
	for i, o := range outlets {
		if o.Node >= 0 {
			p.row[at+i] = mo.pull[o.Node] * leakShare * r.stock.supply / float64(len(outlets)) * weepSpread
		}
	}
	p.row[r.column(colBias)] = bias
	return p
}

// short weighs that the receiver stood below cut-in: a compressor that gives
// more than is taken brings it back there.
func (r *rig) short(rd *Reading, state *network.State, parts []fault) float64 {
	if rd.Stopped || r.stock.supply <= 0 || float64(rd.Receiver) > r.stock.cutIn-bias {
		return 0
	}
	out := 0.0
	for _, t := range state.Taken {
		out += t
	}
	over := (out - r.given(parts)) / (0.12 * r.stock.supply)
	return math.Log(max(1e-4, 0.5*math.Erfc(-over/math.Sqrt2)))
}

// given is what the compressor delivers, kg/s.
func (r *rig) given(parts []fault) float64 {
	f := r.stock.supply
	for _, p := range parts {
		if p.sort == Weak {
			f *= p.size
		}
	}
	return f
}

// noise is the variance of one reading by itself.
func (r *rig) noise(rd *Reading) float64 {
	switch {
	case rd.Kind != Pressure:
		return clockDoubt * clockDoubt
	case rd.Stopped && len(rd.Running) > 0:
		return gauge*gauge + r.falls()*r.falls()
	}
	return gauge * gauge
}

// glance is how far apart one person reads two gauges, s: common practice, no source.
const glance = 2

// falls is by how much the receiver falls meanwhile, the compressor off and tools that
// take what it gives, Pa.
func (r *rig) falls() float64 {
	return glance * r.stock.supply * r.m.Gas().RT() / max(r.stock.volume, 1e-3)
}
