package model

import (
	"math"
	"strings"

	"dropleg/engine/element"
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// use is a port of a part that something is joined to.
type use struct {
	port catalog.Port
	node int
	bore figure // the air sees; zero where nothing tells
	step figure // K of leaving or entering a narrowed end, on bore
	size string
}

// place is one part about to be laid into the graph.
type place struct {
	id     job.ID // the point's, or the part's where it hangs at an outlet
	key    string // of its inner nodes
	part   *job.Part
	kind   catalog.Kind
	uses   []use // in the order of the kind's ports
	thing  Thing
	outlet job.ID
	zone   job.ID
	joined string // way of joining of the line here: sets which loss table holds
	mate   string // coupler row of the plug that goes into this coupler
}

// lay puts a part into the graph by the name of its law.
func (b *builder) lay(p place) {
	if len(p.uses) == 0 {
		return
	}
	if p.part.Shut && p.kind.Has(catalog.Isolates) {
		return // every side keeps its own node, nothing passes between
	}
	switch p.kind.Law.Name {
	case "minor":
		b.layMinor(p)
	case "tee":
		b.layTee(p)
	case "coupler":
		b.layTwo(p, b.couplerLaw)
	case "rated-loss":
		b.layTwo(p, b.ratedLossLaw)
	case "regulator":
		b.layTwo(p, b.regulatorLaw)
	case "check":
		b.layTwo(p, b.checkLaw)
	case "conductance":
		b.layTwo(p, b.conductanceLaw)
	default: // "none", "end", "source", "storage": one place
		for _, u := range p.uses[1:] {
			b.g.merge(p.uses[0].node, u.node)
		}
	}
}

// made is what a law builder gives: the law, and what the element says of itself.
type made struct {
	law    lawOf
	oneWay bool
	bore   float64
	k      float64
	item   string
	words  string  // where the row tells more than the kind
	size   string  // where the row has one
	clean  float64 // loss at rated flow, Pa; 0: none rated
	loaded float64
	none   bool // no loss at all: the two sides are one place
}

// layTwo lays a part that air passes from its first port to all others.
func (b *builder) layTwo(p place, build func(place, use, use) made) {
	in, out := b.sides(p)
	if out == nil {
		return
	}
	for _, u := range out[1:] {
		b.g.merge(out[0].node, u.node)
	}
	b.join(p, in, out[0], "", build(p, in, out[0]))
}

// sides parts the used ports into the inlet and the rest: the inlet is the port
// called "in", else the first. Where the inlet itself is not in use there is
// nothing to pass through; the rest are one place.
func (b *builder) sides(p place) (in use, out []use) {
	inlet := p.kind.Ports[0].ID
	for _, port := range p.kind.Ports {
		if port.ID == "in" {
			inlet = port.ID
		}
	}
	found := false
	for _, u := range p.uses {
		if u.port.ID == inlet && !found {
			in, found = u, true
			continue
		}
		out = append(out, u)
	}
	if !found || len(out) == 0 {
		for _, u := range out {
			b.g.merge(out[0].node, u.node)
		}
		return in, nil
	}
	return in, out
}

// join lays the link of a part between two of its ports.
func (b *builder) join(p place, from, to use, leg string, m made) {
	if m.none {
		b.g.merge(from.node, to.node)
		return
	}
	size := p.part.Size
	if size == "" {
		size = from.size
	}
	if m.size != "" {
		size = m.size
	}
	words := m.words
	if words == "" {
		words = b.partWords(p, size, leg)
	}
	b.g.add(link{
		Element: Element{
			ID: p.id, Leg: leg, Words: words, Thing: p.thing,
			From: from.node, To: to.node, Outlet: p.outlet,
			Bore: length(m.bore), K: m.k, Kind: p.kind.Kind, Item: m.item, Size: size, Mate: p.mate,
			Clean: unit.PressureDiff(m.clean), Loaded: unit.PressureDiff(m.loaded),
		},
		law: m.law, oneWay: m.oneWay, zone: p.zone,
	})
}

// layMinor lays a fitting or valve with a loss coefficient.
func (b *builder) layMinor(p place) {
	in, out := b.sides(p)
	if out == nil {
		return
	}
	for _, u := range out[1:] {
		b.g.merge(out[0].node, u.node)
	}
	through, _ := b.lossOf(p)
	b.join(p, in, out[0], "", b.minor(p, in, out[0], through))
}

// coefficient is a loss coefficient as a function of the bore it stands on.
type coefficient func(bore float64) float64

// lossOf reads a part's coefficients, straight through and by the branch: the
// part's own K, else the catalogue's for its law, way of joining and bore.
func (b *builder) lossOf(p place) (through, branch coefficient) {
	if p.part.K != nil {
		own := float64(*p.part.K)
		c := func(float64) float64 { return own }
		return c, c
	}
	through = func(bore float64) float64 {
		loss, _ := b.shelf.Loss(p.kind.Law, p.joined, unit.Length(bore))
		return loss.Through
	}
	branch = func(bore float64) float64 {
		loss, _ := b.shelf.Loss(p.kind.Law, p.joined, unit.Length(bore))
		return loss.Branch
	}
	return through, branch
}

// leastK keeps a direction without a figure from being no resistance at all.
const leastK = 1e-3

// minor is a loss between two ports: the coefficient on the narrower bore, what
// narrowed ends add, and where the ports differ in bore a gradual step, which
// costs more against the widening way. All is put on the narrower bore.
func (b *builder) minor(p place, from, to use, k coefficient) made {
	narrow := from.bore.with(to.bore, lesser)
	if narrow.likely <= 0 {
		narrow = sure(b.boreUnknown(p))
	}
	onto := func(u use) figure {
		return figure{
			scaled(u.step.likely, u.bore.likely, narrow.likely),
			scaled(u.step.best, u.bore.best, narrow.best),
			scaled(u.step.worst, u.bore.worst, narrow.worst),
		}
	}
	fixed := narrow.each(k).with(onto(from), add).with(onto(to), add)
	ahead, against := stepLoss(from.bore.likely, to.bore.likely)
	forward, back := fixed.with(ahead, math.Max), fixed.with(against, math.Max)
	if forward.isZero() && back.isZero() {
		return made{none: true}
	}
	gas := b.gasIn(p.zone)
	return made{
		bore: narrow.likely, k: forward.likely,
		law: func(v variant) (element.Law, error) {
			return element.NewMinor(gas, narrow.at(v.bias), math.Max(forward.at(v.bias), leastK), math.Max(back.at(v.bias), leastK))
		},
	}
}

// stepLoss is what a change from bore a to bore b costs at least, ahead and
// back, on the narrower: a tapered step likely and at best, a sudden one at
// worst. Where the row's own coefficient is more, that holds.
func stepLoss(a, b float64) (ahead, against figure) {
	if a <= 0 || b <= 0 || math.Abs(a-b) <= 1e-6 {
		return figure{}, figure{}
	}
	beta := math.Min(a, b) / math.Max(a, b)
	narrowing := figure{gradual * contraction(beta), gradual * contraction(beta), contraction(beta)}
	widening := figure{gradual * enlargement(beta), gradual * enlargement(beta), enlargement(beta)}
	if b < a {
		return narrowing, widening
	}
	return widening, narrowing
}

// lesser is the smaller of two bores, where zero means unknown.
func lesser(a, b float64) float64 {
	switch {
	case a <= 0:
		return b
	case b <= 0:
		return a
	}
	return math.Min(a, b)
}

// layTee lays a branching part. With two ports in use it is one link, straight
// through or by the branch. With more, legs meet in an inner node: a run leg
// has half the loss straight through, a branch leg what is left of the loss by
// the branch, so that through and branch come out as published when one way
// alone is used. Each leg counts on its own flow and bore, either direction.
func (b *builder) layTee(p place) {
	through, branch := b.lossOf(p)
	if len(p.uses) == 1 {
		return
	}
	if len(p.uses) == 2 {
		from, to := p.uses[0], p.uses[1]
		k, leg := through, "through"
		if isBranch(from) || isBranch(to) {
			k, leg = branch, "branch"
		}
		b.join(p, from, to, leg, b.minor(p, from, to, k))
		return
	}
	inner := b.g.node(Node{Key: p.key + "/~", Point: p.id, Outlet: p.outlet})
	run := 0.0
	for _, u := range p.uses {
		if !isBranch(u) {
			run = math.Max(run, u.bore.likely)
		}
	}
	for _, u := range p.uses {
		k := func(bore float64) float64 { return through(bore) / 2 }
		if isBranch(u) {
			k = func(bore float64) float64 {
				return math.Max(0, branch(bore)-scaled(through(run)/2, run, bore))
			}
		}
		// The legs' bores meet inside the part: no step of their own.
		middle := use{node: inner, bore: u.bore, size: u.size}
		b.join(p, u, middle, u.port.ID, b.minor(p, u, middle, k))
	}
}

func isBranch(u use) bool { return strings.HasPrefix(u.port.ID, "branch") }
