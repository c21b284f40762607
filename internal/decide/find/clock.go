package find

import (
	"context"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/element"
	"dropleg/engine/network"
)

// longest is how long anybody waits for a receiver to fall, s: what has not fallen
// by then counts as having taken so long. Common practice, no source.
const longest = 1800

// predictClock is ln of what a clock at the compressor shows: of the flow by a time
// of filling or falling, of the starts in an hour.
func (r *rig) predictClock(ctx context.Context, rd *Reading, parts []fault) (prediction, error) {
	if r.stock.volume <= 0 || r.stock.supply <= 0 {
		return prediction{}, nil
	}
	at := (rd.From + rd.To) / 2
	if rd.Kind == Starts {
		at = r.middle()
	}
	mo, err := r.at(ctx, rd.Running, at)
	if err != nil {
		return prediction{}, err
	}
	if mo.sound == nil {
		return prediction{}, nil
	}
	p := prediction{known: true, row: make([]float64, r.width())}
	p.row[r.column(colVolume)] = volumeDoubt
	full := r.given(parts)
	out, small, err := r.leaves(rd, mo.sound, parts)
	if err != nil {
		return prediction{}, err
	}
	by := 0.0 // of ln by what leaks
	switch rd.Kind {
	case Fall:
		out = max(out, r.stock.volume*math.Abs(float64(rd.To-rd.From))/(r.m.Gas().RT()*longest))
		p.mean = math.Log(out)
		by = 1 / out
	case PumpUp:
		net := max(full-out, full/50)
		p.mean = math.Log(net)
		p.row[r.column(colPlate)] = plateDoubt * full / net
		by = -1 / net
	default:
		by = r.predictStarts(&p, mo, full, out, small)
	}
	if p.known {
		r.weeping(&p, rd, small, by)
	}
	return p, nil
}

// predictStarts: a compressor fills the band in M/(Q−q) and rests while it falls, for
// M/q, so that it starts q·(Q−q)/(M·Q) times a second.
func (r *rig) predictStarts(p *prediction, mo *moment, full, out, small float64) (by float64) {
	net := full - out
	if net < full/100 || out < small/20 { // it never stops, or never starts
		*p = prediction{}
		return 0
	}
	band := r.stock.volume * (r.stock.cutOut - r.stock.cutIn) / r.m.Gas().RT()
	p.mean = math.Log(out * net / (band * full))
	by = 1/out - 1/net // of ln by what is drawn
	p.row[r.column(colVolume)] = -volumeDoubt
	p.row[r.column(colPlate)] = plateDoubt * out / net
	for _, pair := range mo.pairs {
		t := r.place[r.m.Pairs()[pair].Tool]
		took := mo.sound.Taken[r.m.Pairs()[pair].Node]
		if r.tools[pair] == nil {
			took = r.taken[pair]
		}
		p.row[len(r.links)+t] += by * took * r.hard[t]
	}
	return by
}

// weeping carries what is not known of a sound shop's small leaks: how much they come
// to, and where they are, which valves that are shut tell apart.
func (r *rig) weeping(p *prediction, rd *Reading, small, by float64) {
	p.row[r.column(colLeak)] = leakDoubt * small * by
	open, outlets := r.reached(rd), r.m.Outlets()
	for i, o := range outlets {
		if o.Node >= 0 && (open == nil || open[o.Node]) {
			p.row[len(r.links)+len(r.hard)+i] = weepSpread * leakShare * r.stock.supply / float64(len(outlets)) * by
		}
	}
}

// leaves is what leaves the net at a moment, kg/s, and how much of it a sound shop
// leaks, where valves may be shut. So little flows while nothing runs that a hole sees
// the pressure of the sound net; of tools that run, a restriction changes nothing that
// a clock would tell.
func (r *rig) leaves(rd *Reading, sound *network.State, parts []fault) (all, small float64, err error) {
	open := r.reached(rd)
	at := func(node int) bool { return open == nil || open[node] }
	for node, took := range sound.Taken {
		if at(node) {
			all += took
		}
	}
	for node := range r.weep {
		if at(node) {
			small += leakShare * r.stock.supply / float64(len(r.weep))
		}
	}
	for _, f := range parts {
		if f.sort != Leaking || !at(f.at) {
			continue
		}
		hole, err := element.NewOrifice(r.m.Gas(), f.size, holeCd)
		if err != nil {
			return 0, 0, fmt.Errorf("a hole of %g m: %w", f.size, err)
		}
		m, _, _ := hole.Flow(sound.Pressure[f.at], r.atm)
		all += m
	}
	return all, small, nil
}

// reached are the nodes that the receiver still feeds while valves are shut; nil for all.
func (r *rig) reached(rd *Reading) []bool {
	if len(rd.Shut) == 0 {
		return nil
	}
	key := ""
	for _, id := range rd.Shut {
		key += string(id) + " "
	}
	if open, had := r.open[key]; had {
		return open
	}
	open := make([]bool, len(r.m.Nodes()))
	var todo []int
	for _, s := range r.m.Sources() {
		open[s.Node] = true
		todo = append(todo, s.Node)
	}
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, e := range r.m.Elements() {
			if e.From != at && e.To != at || slices.Contains(rd.Shut, e.ID) {
				continue
			}
			if next := e.From + e.To - at; !open[next] {
				open[next] = true
				todo = append(todo, next)
			}
		}
	}
	r.open[key] = open
	return open
}

// volume is what fills or falls at a reading.
func (r *rig) volume(rd *Reading) float64 {
	v := r.stock.volume
	if open := r.reached(rd); open != nil {
		for _, e := range r.m.Elements() {
			if !open[e.From] && !open[e.To] {
				v -= math.Pi / 4 * float64(e.Bore*e.Bore*e.Length)
			}
		}
	}
	return v
}

// shown is what the reading says of the figure that is predicted.
func (r *rig) shown(rd *Reading) float64 {
	switch rd.Kind {
	case Pressure:
		return float64(rd.Pressure)
	case Starts:
		return math.Log(rd.Starts / 3600)
	}
	change := math.Abs(float64(rd.To - rd.From))
	return math.Log(r.volume(rd) * change / (r.m.Gas().RT() * min(float64(rd.Time), longest)))
}
