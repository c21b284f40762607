package demand

import (
	"fmt"
	"slices"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
	"dropleg/internal/shop/model"
)

// worst makes for each tool the worst set of as many as plausibly run together.
//
// The subject stands at its farthest outlet: the one with the most resistance
// between source and tool. Whoever always runs with it comes along. The rest is
// filled by rated flow, greatest first, with who may run with all so far and
// finds a free outlet; each takes the outlet whose way shares most resistance
// with the subject's way. It is a greedy choice, kept because it can be
// explained; the truly worst set may be another where much flow far away beats
// less flow nearby.
//
// With a tool named it makes that tool's set alone.
func (c *cast) worst(m *model.Model, together int, only job.ID) []Set {
	far := m.Resistance()
	order := c.byFlow()
	var out []Set
	done := map[int]bool{}
	for i, o := range c.all {
		if done[o.tool] || only != "" && c.tools[o.tool].ID != only {
			continue
		}
		done[o.tool] = true
		p := &pick{c: c, m: m, far: far, taken: map[job.ID]bool{}, in: make([]bool, len(c.members))}
		if !p.subject(i) {
			continue
		}
		for _, g := range order {
			if len(p.set) >= together {
				break
			}
			p.add(g, together)
		}
		out = append(out, p.result(i, together))
	}
	return out
}

// byFlow lists the groups by what they take, greatest first; of equals the
// job's order.
func (c *cast) byFlow() []int {
	order := make([]int, len(c.members))
	for g := range order {
		order[g] = g
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch fa, fb := c.flow(a), c.flow(b); {
		case fa > fb:
			return -1
		case fa < fb:
			return 1
		}
		return 0
	})
	return order
}

// pick is a set being filled.
type pick struct {
	c     *cast
	m     *model.Model
	far   *model.Resistances
	set   []job.InUse
	rated float64
	lead  int // pair of the subject
	taken map[job.ID]bool
	in    []bool // groups
}

// subject puts the first tool in, with those that always run with it.
func (p *pick) subject(i int) bool {
	lead, most := -1, -1.0
	for _, o := range p.c.all[i].outlets {
		pair, ok := p.m.PairOf(job.InUse{Tool: p.c.tools[p.c.all[i].tool].ID, Outlet: o})
		if r := p.far.ToPair(pair.Index); ok && r > most {
			lead, most = pair.Index, r
		}
	}
	if lead < 0 {
		return false
	}
	p.lead = lead
	p.put(lead)
	g := p.c.group[i]
	p.in[g] = true
	for _, k := range p.c.members[g] {
		if k == i {
			continue
		}
		if pair, ok := p.place(k, p.taken); ok {
			p.put(pair)
		}
	}
	return true
}

// add puts a group in if it fits, is barred by nobody and finds its outlets.
func (p *pick) add(g, together int) {
	if p.in[g] || len(p.set)+len(p.c.members[g]) > together {
		return
	}
	for k, in := range p.in {
		if in && p.c.bars[g][k] {
			return
		}
	}
	trial := make(map[job.ID]bool, len(p.taken)+1)
	for id := range p.taken {
		trial[id] = true
	}
	pairs := make([]int, 0, len(p.c.members[g]))
	for _, i := range p.c.members[g] {
		pair, ok := p.place(i, trial)
		if !ok {
			return
		}
		trial[p.m.Pairs()[pair].Outlet] = true
		pairs = append(pairs, pair)
	}
	p.in[g] = true
	for _, pair := range pairs {
		p.put(pair)
	}
}

// place finds the free outlet of a tool that shares most of the subject's way;
// of equals the farther, then the job's order.
func (p *pick) place(i int, taken map[job.ID]bool) (pair int, ok bool) {
	best, most, dist := -1, -1.0, -1.0
	for _, o := range p.c.all[i].outlets {
		if taken[o] {
			continue
		}
		at, known := p.m.PairOf(job.InUse{Tool: p.c.tools[p.c.all[i].tool].ID, Outlet: o})
		if !known {
			continue
		}
		shared, far := p.far.Shared(p.lead, at.Index), p.far.ToPair(at.Index)
		if shared > most || (shared == most && far > dist) {
			best, most, dist = at.Index, shared, far
		}
	}
	return best, best >= 0
}

// put takes a pair into the set.
func (p *pick) put(pair int) {
	at := p.m.Pairs()[pair]
	p.set = append(p.set, job.InUse{Tool: at.Tool, Outlet: at.Outlet})
	p.taken[at.Outlet] = true
	p.rated += float64(at.FreeAir)
}

// result is the set with how it came about.
func (p *pick) result(i, together int) Set {
	at := p.m.Pairs()[p.lead]
	name := p.c.tools[p.c.all[i].tool].Name
	s := Set{
		Name: "worst for " + name, Why: Worst, Subject: at.Tool, At: at.Outlet, Running: p.set,
		Rated: unit.FreeAir(p.rated),
	}
	const most = " of all that may run with it; no more than %d run at once but rarely"
	switch others := len(p.set) - 1; others {
	case 0:
		s.Why, s.Words = Alone, name+" at its farthest outlet, by itself"
	case 1:
		s.Words = fmt.Sprintf("%s at its farthest outlet, with the one that takes most"+most, name, together)
	default:
		s.Words = fmt.Sprintf("%s at its farthest outlet, with the %d others that take most"+most, name, others, together)
	}
	return s
}
