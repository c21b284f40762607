package size

import (
	"math"
	"slices"

	"dropleg/internal/decide/size/tree"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// frame is the problem that a work makes, and what its places stand for.
type frame struct {
	*work
	problem tree.Problem
	places  []place
	prices  map[int]bool // choices that are counted already
	fixed   float64      // what is paid whatever is picked
	mixed   bool         // the lines of a ring have sizes of their own
}

// place is what one place of the problem stands for.
type place struct {
	choice int   // -1: none, or the lines of a ring
	links  []hop // from its upper end to its lower end
	ring   *ring // in place of links
	wants  []int // pairs at its lower end
}

// hop is a link with the way that air takes through it.
type hop struct {
	link    int
	forward bool
}

// frame is the problem with all its prices.
func (w *work) frame() *frame {
	f := w.laid()
	f.join()
	return f
}

// laid builds the problem: a walk from the sources down, block by block.
func (w *work) laid() *frame {
	f := &frame{work: w, prices: map[int]bool{}}
	f.problem.Cases, f.problem.Effort = len(w.moments), effort
	seen := make([]bool, len(w.net.blocks))
	f.down(w.net.root(), -1, 0, seen)
	f.sums()
	for i := range f.places {
		f.laws(i)
	}
	return f
}

// effort is what is compared for a pick before a slack is taken in; for picks that need prove
// nothing an eighth of it.
const effort = tree.Effort / 3

// down walks on from a node at the lower end of a place.
func (f *frame) down(node, up, port int, seen []bool) {
	var on []int
	for _, b := range f.net.blocksAt[node] {
		if !seen[b] {
			on = append(on, b)
		}
	}
	for _, b := range on {
		seen[b] = true
		links := f.net.blocks[b]
		switch {
		case len(links) > 1:
			f.around(b, node, up, port, seen)
		case links[0] < 0:
			f.source(toSource(links[0]), node, seen)
		default:
			a, z := f.net.ends(links[0])
			at := f.along(hop{links[0], a == node}, up, port, len(on) == 1 && len(f.net.tools[node]) == 0)
			f.down(a+z-node, at, 0, seen)
		}
	}
	pairs := f.net.tools[node]
	if up < 0 || len(pairs) == 0 {
		return
	}
	if f.places[up].ring != nil { // a tool on the ring itself hangs at a port as all else
		up = f.open(up, port, -1)
	}
	f.places[up].wants = append(f.places[up].wants, pairs...)
}

// source begins at a source: it has no place of its own, what hangs on it has none above.
func (f *frame) source(i, root int, seen []bool) {
	at := f.model.Sources()[i].Node
	p := f.open(-1, 0, -1)
	supply := float64(f.model.Sources()[i].CutIn.Abs(f.model.Atmosphere()))
	f.problem.Places[p].Supply = slices.Repeat([]float64{supply}, f.problem.Cases)
	f.down(at, p, 0, seen)
}

// open adds a place.
func (f *frame) open(up, port, choice int) int {
	f.places = append(f.places, place{choice: choice})
	f.problem.Places = append(f.problem.Places, tree.Place{
		Parent: up, Port: port, Flow: make([]float64, f.problem.Cases), Least: make([]float64, f.problem.Cases),
	})
	return len(f.places) - 1
}

// along puts a link at the end of the place above where both are of one choice and nothing
// branches off between, else into a place of its own.
func (f *frame) along(h hop, up, port int, alone bool) int {
	c := f.choiceOf[h.link]
	if thing := f.model.Elements()[h.link].Thing; c < 0 && (thing == model.ThingFitting || thing == model.ThingPlant) {
		c = f.besides(h.link, up)
	}
	if up >= 0 && alone && f.places[up].ring == nil && f.places[up].choice == c && (c >= 0 || f.problem.Places[up].Parent >= 0) {
		f.places[up].links = append(f.places[up].links, h)
		return up
	}
	p := f.open(up, port, c)
	f.places[p].links = []hop{h}
	return p
}

// besides is the line that a fitting belongs to: the one above it if that ends at the
// fitting's point, else the only one that leaves there.
func (f *frame) besides(link, up int) int {
	e := &f.model.Elements()[link]
	if e.Outlet != "" {
		return -1
	}
	meets := func(c int) bool {
		return slices.ContainsFunc(f.idx.Ends(e.ID), func(end job.RunEnd) bool { return slices.Contains(f.choices[c].ids, end.Run.ID) })
	}
	var met []int
	for c := range f.choices {
		if f.choices[c].line && meets(c) {
			met = append(met, c)
		}
	}
	for _, port := range f.portsOf(link) {
		for _, end := range f.idx.Ends(e.ID) {
			if end.Port != port {
				continue
			}
			for _, c := range met {
				if slices.Contains(f.choices[c].ids, end.Run.ID) {
					return c
				}
			}
		}
	}
	if up >= 0 && slices.Contains(met, f.places[up].choice) {
		return f.places[up].choice
	}
	if len(met) == 1 {
		return met[0]
	}
	return -1
}

// portsOf are the ports of a fitting's point at the two ends of a link of it.
func (f *frame) portsOf(link int) []string {
	e := &f.model.Elements()[link]
	var out []string
	for _, n := range []int{e.From, e.To} {
		if at := &f.model.Nodes()[n]; at.Point == e.ID && at.Port != "" {
			out = append(out, at.Port)
		}
	}
	if len(out) == 1 {
		return out
	}
	return nil // it lies between two lines: either tells
}

// sums adds up the flows from the tools to the sources.
func (f *frame) sums() {
	for i := len(f.places) - 1; i >= 0; i-- {
		p := &f.problem.Places[i]
		for _, pair := range f.places[i].wants {
			for c := range f.moments {
				if slices.Contains(f.moments[c].running, pair) {
					p.Flow[c] += f.takes(&f.moments[c], pair)
					p.Least[c] = max(p.Least[c], f.work.wants(pair))
				}
			}
		}
		if p.Parent >= 0 {
			up := &f.problem.Places[p.Parent]
			for c := range p.Flow {
				up.Flow[c] += p.Flow[c]
			}
		}
	}
}

// laws gives a place its options and its law.
func (f *frame) laws(i int) {
	v, p := &f.problem.Places[i], &f.places[i]
	v.Mark = f.marks(p)
	if p.ring != nil {
		f.ringLaws(i)
		return
	}
	if p.choice < 0 {
		v.Options = []tree.Option{{}}
		v.Inlet = f.chain(i, []int{0})
		return
	}
	c := f.choices[p.choice]
	var rungs []int
	counted := f.prices[p.choice]
	f.prices[p.choice] = true
	// No part of the treatment comes out smaller than it is rated for the air, unless it is so.
	flow, small := slices.Max(v.Flow), map[int]bool{}
	for k, o := range c.options[c.barred:] {
		rungs = append(rungs, o.rung)
		price := o.price
		small[k] = o.flow > 0 && o.flow < flow && k+c.barred < c.now
		if counted {
			price = 0
		}
		v.Options = append(v.Options, tree.Option{Price: price, Bore: o.bore})
	}
	v.Line, v.Held = c.line, c.held
	if f.spread(p.choice) {
		v.Shared = p.choice + 1
	}
	law := f.chain(i, rungs)
	v.Inlet = func(option, kase, port int, out float64) float64 {
		if small[option] {
			return math.Inf(1)
		}
		return law(option, kase, port, out)
	}
}

// chain is the law of links one after the other: from the lower end up, each gives the
// pressure that the one above has to leave. A velocity limit asks for a pressure too: air
// is as slow as it is dense.
func (f *frame) chain(i int, rungs []int) func(int, int, int, float64) float64 {
	v, links := &f.problem.Places[i], f.places[i].links
	return func(option, kase, _ int, out float64) float64 {
		return f.climbLinks(links, rungs[option], kase, func(int) float64 { return v.Flow[kase] }, out)
	}
}

// climbLinks goes up a way with the flow of each of its links.
func (f *frame) climbLinks(links []hop, rung, kase int, flow func(n int) float64, out float64) float64 {
	r := &f.rungs[rung]
	for n := len(links) - 1; n >= 0; n-- {
		h := links[n]
		law := r.laws[h.link]
		if law == nil {
			continue
		}
		m := flow(n)
		out = max(out, f.slowEnough(r, h.link, m), f.ends[endKey{h.link, kase}])
		out = inletOf(law, h.forward, out, m)
	}
	return out
}

// slowEnough is the pressure at the lower end of a link at which its air keeps to the
// velocity of the rules, Pa absolute.
func (f *frame) slowEnough(r *rung, link int, m float64) float64 {
	e := &f.model.Elements()[link]
	limit, bore := f.limit(e.Thing, e.Role), r.bores[link]
	if limit <= 0 || bore <= 0 || f.exempt[f.choiceOf[link]] {
		return 0
	}
	return m * r.rts[link] / (limit * (1 + sameFast) * area(bore)) // as verifying has it
}

func area(bore float64) float64 { return math.Pi / 4 * bore * bore }

// picks reads an answer: the option of each choice.
func (f *frame) picks(chosen []int) []int {
	out := f.standing()
	for i, o := range chosen {
		f.pick(out, i, o)
	}
	return out
}

// spread: a choice stands at several places, which all take the same option.
func (f *frame) spread(choice int) bool {
	n := 0
	for i := range f.places {
		if f.places[i].choice == choice {
			n++
		}
	}
	return n > 1
}
