package hold

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"dropleg/engine/solid"
	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// span is a stretch while it is worked on: nodes i to k of a chain, of which only the
// first and the last stand fast.
type span struct {
	chain   *chain
	i, k    int
	from    string // what its ends are
	to      string
	still   float64 // along the chain; NaN where nothing is known to
	loose   bool    // it grows, and nothing holds it: it may all go to either end
	fast    *clip
	growth  float64
	known   bool
	id      string
	held    bool
	unknown []string
}

// stretch cuts the chains at what stands fast, and finds for each stretch what stays
// still.
func (s *shop) stretch() {
	count := map[job.ID]int{}
	for _, c := range s.chains {
		i := 0
		for k := 1; k < len(c.nodes); k++ {
			if k+1 < len(c.nodes) && !c.nodes[k].fixed {
				continue
			}
			x := &span{chain: c, i: i, k: k, from: endWord(c, i), to: endWord(c, k)}
			run := c.links[i].bar.line.run.ID
			count[run]++
			x.id = fmt.Sprintf("%s/stretch-%d", run, count[run])
			x.growth, x.known, x.unknown = x.grown(c.at[i], c.at[k])
			s.settle(x)
			s.spans = append(s.spans, x)
			i = k
		}
	}
}

// endWord is what a node is to a stretch that ends there.
func endWord(c *chain, i int) string {
	n := c.nodes[i]
	switch {
	case n.fixed:
		return "fixed"
	case n.flexes:
		return "link"
	case len(n.ends) < 2:
		return "free"
	case len(n.pairs) > 0:
		return "branch"
	}
	return "turn"
}

// grown is by how much the line between two places of the chain grows from its coldest
// to its warmest; known is false where a material's expansion is not known.
func (x *span) grown(from, to float64) (growth float64, known bool, unknown []string) {
	known = true
	for i := range x.chain.links {
		a, b := max(from, x.chain.at[i]), min(to, x.chain.at[i+1])
		if b <= a {
			continue
		}
		l := x.chain.links[i].bar.line
		if !l.tube.alpha {
			known = false
			if !slices.Contains(unknown, "material") {
				unknown = append(unknown, "material")
			}
			continue
		}
		g, err := solid.Growth(l.tube.material.Alpha, unit.Length(b-a), unit.TempDiff(l.climate.Hot-l.climate.Cold))
		if err != nil {
			known = false
			continue
		}
		growth += float64(g)
	}
	return growth, known, unknown
}

// settle finds what of a stretch stays still: the end that is fixed; between two that
// are, nothing can move and nothing is asked; else one support holds fast, where the
// stretch grows more than clips give way to.
func (s *shop) settle(x *span) {
	c := x.chain
	from, to := c.at[x.i], c.at[x.k]
	x.still = math.NaN()
	switch {
	case x.from == "fixed" && x.to == "fixed":
		x.held = true
	case x.from == "fixed":
		x.still = from
	case x.to == "fixed":
		x.still = to
	default:
		x.still = (from + to) / 2
		if x.growth > rulePlay.Value {
			s.anchor(x)
		}
	}
	x.loose = x.known && x.from != "fixed" && x.to != "fixed" && x.fast == nil && x.growth > rulePlay.Value
	if !x.known || x.loose {
		x.still = math.NaN()
	}
}

// anchor makes a support hold fast: of all the one nearest to a branch in the middle
// half of the stretch, so that the branch hardly moves, else to its middle. One that
// sits by a turn has to let go there; then one more is put in, where there is need and room.
func (s *shop) anchor(x *span) {
	c := x.chain
	from, to := c.at[x.i], c.at[x.k]
	target := x.target()
	var best *clip
	for _, k := range c.clips {
		if k.at >= from && k.at <= to && (best == nil || math.Abs(k.at-target) < math.Abs(best.at-target)) {
			best = k
		}
	}
	if best == nil {
		return
	}
	if best.rule == ruleTurn.Name {
		if x.growth <= 2*rulePlay.Value && x.bends() {
			return // the leg of a loop stays free: so little is for what is round its turns to take up
		}
		at, ok := s.free(c, target)
		if !ok || math.Abs(at-best.at) < apart || at <= from || at >= to {
			return
		}
		best = &clip{at: at, rule: ruleFast.Name}
		c.clips = append(c.clips, best)
		slices.SortFunc(c.clips, func(a, b *clip) int { return cmp.Compare(a.at, b.at) })
	}
	best.fast = true
	x.fast, x.still = best, best.at
}

// bends says whether a stretch lies between two turns and is a leg of what grows round one.
func (x *span) bends() (leg bool) {
	for _, i := range []int{x.i, x.k} {
		for _, e := range x.chain.nodes[i].ends {
			if c := e.bar.chain; c != x.chain {
				g, known, _ := (&span{chain: c}).grown(c.at[0], c.at[len(c.at)-1])
				leg = leg || !known || g > rulePlay.Value
			}
		}
	}
	return leg && x.from == "turn" && x.to == "turn"
}

// target is the branch nearest to the middle of a stretch, if one is in its middle half,
// else the middle.
func (x *span) target() float64 {
	c := x.chain
	from, to := c.at[x.i], c.at[x.k]
	middle := (from + to) / 2
	target, off := middle, (to-from)/4
	for i := x.i + 1; i < x.k; i++ {
		if d := math.Abs(c.at[i] - middle); len(c.nodes[i].ends) > 2 && d <= off {
			target, off = c.at[i], d
		}
	}
	return target
}

// moves is by how much a place of the stretch moves, at most.
func (x *span) moves(at float64) float64 {
	if math.IsNaN(x.still) && !x.loose {
		return 0
	}
	g, _, _ := x.grown(x.comes(at))
	return g
}

// comes is the piece of the stretch whose growth comes to a place of it: from what stays still,
// or, of a loose one, from the end from which more does, for friction may hold either.
func (x *span) comes(at float64) (from, to float64) {
	if !x.loose {
		return min(at, x.still), max(at, x.still)
	}
	first, last := x.chain.at[x.i], x.chain.at[x.k]
	before, _, _ := x.grown(first, at)
	if behind, _, _ := x.grown(at, last); behind > before {
		return at, last
	}
	return first, at
}

// runs lists the runs of a stretch in its order.
func (x *span) runs() (ids []job.ID) {
	for i := x.i; i < x.k; i++ {
		if id := x.chain.links[i].bar.line.run.ID; !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	return ids
}

// state is existing where all of a stretch stands.
func (x *span) state() string {
	for i := x.i; i < x.k; i++ {
		if st := x.chain.links[i].bar.line.state; st != "existing" {
			return st
		}
	}
	return "existing"
}

// tell is the stretch as it is answered.
func (x *span) tell() Stretch {
	c := x.chain
	t := Stretch{
		ID: x.id, Length: unit.Length(c.at[x.k] - c.at[x.i]), Growth: unit.Length(x.growth), Unknown: x.unknown,
		From: StretchEnd{What: x.from, ID: c.nodes[x.i].id, At: c.nodes[x.i].at, Moves: unit.Length(x.moves(c.at[x.i]))},
		To:   StretchEnd{What: x.to, ID: c.nodes[x.k].id, At: c.nodes[x.k].at, Moves: unit.Length(x.moves(c.at[x.k]))},
	}
	for i := x.i; i < x.k; i++ {
		l := &c.links[i]
		t.Pieces = append(t.Pieces, Piece{
			l.bar.line.run.ID, unit.Length(l.along(c.at[i])), unit.Length(l.along(c.at[i+1])),
		})
	}
	if !math.IsNaN(x.still) {
		t.Still = new(unit.Length(x.still - c.at[x.i]))
	}
	if x.fast != nil {
		t.Fast = x.fast.id
	}
	return t
}
