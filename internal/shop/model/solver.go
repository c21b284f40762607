package model

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"

	"dropleg/engine/element"
	"dropleg/engine/network"
	"dropleg/internal/shop/job"
)

// variants are all that a law depends on besides the job.
var variants = [...]variant{
	{Likely, true}, {Likely, false}, {Best, true}, {Best, false}, {Worst, true}, {Worst, false},
}

// lawSet is the laws of links and tools of one variant.
type lawSet struct {
	once  sync.Once
	links []element.Law
	tools []element.Law // by pair; nil: takes a constant flow
	taken []float64     // by pair, kg/s where constant
}

// laws makes the laws of a variant. A law that cannot be made at one end of its
// range stands at its likely figure, which Build has tried.
func (m *Model) laws(v int) *lawSet {
	s := &m.sets[v]
	s.once.Do(func() {
		s.links = make([]element.Law, len(m.links))
		for i := range m.links {
			s.links[i] = m.links[i].likely
			if v == 0 {
				continue
			}
			if law, err := m.links[i].law(variants[v]); err == nil {
				s.links[i] = law
			}
		}
		s.tools = make([]element.Law, len(m.pairs))
		s.taken = make([]float64, len(m.pairs))
		for i := range m.pairs {
			s.tools[i], s.taken[i] = m.toolLaw(i, variants[v].bias)
		}
	})
	return s
}

// Solver answers cases on one model. With tools running together that it knows
// already, it starts from its last answer for them. It belongs to one goroutine
// at a time.
type Solver struct {
	m     *Model
	live  *live   // the part of the network asked for last
	known []*live // that and the others so far
	set   *lawSet
	whole network.State // the last answer over the whole model
	from  Start
}

// mostKnown bounds what a solver keeps: more sets than a shop is asked for, yet
// a simulated day may go through thousands.
const mostKnown = 64

// NewSolver makes a solver.
func (m *Model) NewSolver() *Solver { return &Solver{m: m} }

// use sets the network up for the tools that run and the laws of a variant;
// fresh says that there is no answer for these tools yet. With other tools
// running most flows start or cease: an idle line's law is far from its law under
// flow, and a start from there takes more steps than one from nothing. The
// answer of another variant for the same tools is near.
func (s *Solver) use(v variant, on, stores []int) (fresh bool, err error) {
	i := slices.IndexFunc(s.known, func(l *live) bool { return slices.Equal(l.on, on) && slices.Equal(l.stores, stores) })
	if fresh = i < 0; fresh {
		live, err := s.m.liveFor(on, stores)
		if err != nil {
			return true, fmt.Errorf("compiling the network: %w", err)
		}
		if len(s.known) == mostKnown {
			s.known = nil
		}
		i, s.known = len(s.known), append(s.known, live)
	}
	s.live = s.known[i]
	at := slices.Index(variants[:], v)
	s.set = s.m.laws(at)
	if at != s.live.variant {
		s.live.variant = at
		for i, l := range s.live.links {
			s.live.net.SetLaw(i, s.set.links[l])
		}
	}
	return fresh, nil
}

// Solve answers a case. The error is that of ctx or of the program; a network
// without an answer is told in the result's findings.
func (s *Solver) Solve(ctx context.Context, c Case) (*Result, error) {
	if c.Supply == "" {
		c.Supply = CutIn
	}
	if c.Bias == "" {
		c.Bias = Likely
	}
	r := &Result{Case: c}
	on, running := s.m.chosen(c, r)
	fresh, err := s.use(variant{c.Bias, c.Supply == CutIn}, on, c.storeNodes())
	if err != nil {
		return nil, err
	}
	s.setSupply(c)
	s.setStores(c)
	s.setTools(on)
	if fresh && s.from.fits(c) {
		s.live.net.StartFrom(s.guess())
	}
	state, err := s.live.net.Solve(ctx)
	var none *network.NoAnswer
	switch {
	case errors.As(err, &none):
		s.explain(r, none, running)
	case err != nil:
		return nil, fmt.Errorf("solving the network: %w", err)
	default:
		r.Solved = true
	}
	s.fill(r, s.spread(state), running)
	return r, nil
}

// setSupply fixes the sources and lets the compressors deliver.
func (s *Solver) setSupply(c Case) {
	m := s.m
	for i := range m.sources {
		s.live.net.SetPressure(s.live.at[m.sources[i].Node], float64(m.held(i, c).Abs(m.atm)))
	}
	for i := range m.plant {
		p := &m.plant[i]
		if m.isSource[p.Node] {
			continue // pressure is held right here
		}
		give := 0.0
		if c.Supply == CutIn && !c.Idle {
			give = massOf(p.FreeAir)
		}
		s.live.net.SetDemand(s.live.at[p.Node], -give)
	}
}

// setTools lets air out where tools run.
func (s *Solver) setTools(on []int) {
	for _, i := range on {
		node, law := s.live.at[s.m.pairs[i].Node], s.set.tools[i]
		if s.live.net.Node(node).Outflow != law {
			s.live.net.SetOutflow(node, law, float64(s.m.atm))
		}
		if law == nil {
			s.live.net.SetDemand(node, s.set.taken[i])
		}
	}
}

// chosen lists the pairs that run in a case, and marks them. What cannot run
// is told in the result.
func (m *Model) chosen(c Case, r *Result) (on []int, running []bool) {
	running = make([]bool, len(m.pairs))
	on = make([]int, 0, len(c.Running))
	taken := map[int]bool{} // nodes with a tool already
	for _, use := range c.Running {
		i, ok := m.pairAt[use]
		if !ok {
			r.Findings = append(r.Findings, job.Finding{
				Code: "no-such-pair", Severity: job.Caution, Where: []job.ID{use.Tool, use.Outlet},
				Title: fmt.Sprintf("%s is not used at %s: it is left out of the set", use.Tool, use.Outlet),
				Why:   "an outlet lists the tools used at it",
			})
			continue
		}
		node := m.pairs[i].Node
		if running[i] || taken[node] {
			continue // one tool at a time at one end
		}
		running[i], taken[node] = true, true
		on = append(on, i)
	}
	return on, running
}

// reasons is what to tell people for each reason of a network without an answer.
func reasonWords(r network.Reason) (title, why string) {
	switch r {
	case network.TooMuch:
		return "a steady flow is asked for that no pressure here can carry", "the line, hose or coupler before it chokes"
	case network.NoSource:
		return "air is asked for where no source reaches", "no open way leads there from a compressor or receiver"
	case network.NoExit:
		return "the compressor's air has nowhere to go", "no open way leads from it to a receiver or a running tool"
	case network.NoLevel:
		return "nothing sets a pressure here", "a net needs a receiver or a compressor"
	case network.BadNumber:
		return "a pressure or flow is outside every range", "a figure of the job is mistyped"
	default:
		return "the network could not be solved within its tolerance", "its figures span too wide a range"
	}
}

// explain turns a network's reason into a finding with the job's ids.
func (s *Solver) explain(r *Result, none *network.NoAnswer, running []bool) {
	m := s.m
	title, why := reasonWords(none.Reason)
	f := job.Finding{Code: "no-answer", Severity: job.Fault, Title: title, Why: why}
	add := func(ids ...job.ID) {
		for _, id := range ids {
			if id != "" && !slices.Contains(f.Where, id) {
				f.Where = append(f.Where, id)
			}
		}
	}
	for _, short := range none.Nodes {
		node := s.live.nodes[short.Node]
		for i, p := range m.pairs {
			if running[i] && p.Node == node {
				add(p.Tool, p.Outlet)
			}
		}
		n := m.nodes[node]
		add(n.Tool, n.Outlet, n.Point)
	}
	r.Findings = append(r.Findings, f)
}
