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

// compiled is the topology, made on first need and shared by all solvers.
type compiled struct {
	once sync.Once
	top  *network.Topology
	err  error
	sets [len(variants)]lawSet
}

// laws makes the laws of a variant. A law that cannot be made at one end of its
// range stands at its likely figure, which Build has tried.
func (m *Model) laws(v int) *lawSet {
	s := &m.net.sets[v]
	s.once.Do(func() {
		s.links = make([]element.Law, len(m.links))
		for i := range m.links {
			law, err := m.links[i].law(variants[v])
			if err != nil {
				law, err = m.links[i].law(variants[0])
			}
			if err != nil {
				law = blocked{} // Build keeps no such link
			}
			s.links[i] = law
		}
		s.tools = make([]element.Law, len(m.pairs))
		s.taken = make([]float64, len(m.pairs))
		for i := range m.pairs {
			s.tools[i], s.taken[i] = m.toolLaw(i, variants[v].bias)
		}
	})
	return s
}

// topology compiles the network once.
func (m *Model) topology() (*network.Topology, error) {
	m.net.once.Do(func() {
		n := network.Network{Nodes: make([]network.Node, len(m.nodes)), Links: make([]network.Link, len(m.links))}
		for i := range m.nodes {
			n.Nodes[i].Name = m.nodes[i].Key
		}
		for i, law := range m.laws(0).links {
			n.Links[i] = network.Link{Name: string(m.links[i].ID), From: m.links[i].From, To: m.links[i].To, Law: law}
		}
		m.net.top, m.net.err = n.Compile()
	})
	return m.net.top, m.net.err
}

// Solver answers cases on one model, each starting from the last answer of the
// same kind. It belongs to one goroutine at a time.
type Solver struct {
	m    *Model
	nets [len(variants)]*bench
	last *bench // the one that gave the latest answer
	from Start
}

// bench is a network solver set up for one variant.
type bench struct {
	net *network.Solver
	set *lawSet
	on  []int // pairs whose outflow is switched on
	// state is the latest answer, as long as the solver is not used again; nil: none.
	state *network.State
}

// NewSolver makes a solver; the network is compiled on its first question.
func (m *Model) NewSolver() *Solver { return &Solver{m: m} }

// bench gives the solver of a variant, set up on first need.
func (s *Solver) bench(v variant) (*bench, error) {
	at := 0
	for i := range variants {
		if variants[i] == v {
			at = i
		}
	}
	if s.nets[at] != nil {
		return s.nets[at], nil
	}
	top, err := s.m.topology()
	if err != nil {
		return nil, fmt.Errorf("compiling the network: %w", err)
	}
	b := &bench{net: top.NewSolver(), set: s.m.laws(at)}
	if at != 0 {
		for i, law := range b.set.links {
			b.net.SetLaw(i, law)
		}
	}
	s.nets[at] = b
	return b, nil
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
	b, err := s.bench(variant{c.Bias, c.Supply == CutIn})
	if err != nil {
		return nil, err
	}
	r := &Result{Case: c}
	s.m.setSupply(b.net, c)
	before := b.on
	running := s.m.setTools(b, c, r)
	s.prime(b, before, c)
	b.state = nil
	state, err := b.net.Solve(ctx)
	var none *network.NoAnswer
	switch {
	case errors.As(err, &none):
		s.m.explain(r, none, running)
	case err != nil:
		return nil, fmt.Errorf("solving the network: %w", err)
	default:
		r.Solved = true
		b.state = state
	}
	s.last = b
	s.m.fill(r, b, state, running)
	return r, nil
}

// prime chooses where a bench begins to look. With other tools running most
// flows start or cease: an idle line's law is far from its law under flow, and a
// start from there takes many more steps than one from nothing. The answer of
// another variant for the same tools, or of an earlier revision, is near.
func (s *Solver) prime(b *bench, before []int, c Case) {
	switch {
	case b.state != nil && slices.Equal(before, b.on):
	case s.last != nil && s.last != b && s.last.state != nil && slices.Equal(s.last.on, b.on):
		b.net.StartFrom(s.last.state)
	case s.from.fits(c):
		b.net.StartFrom(s.guess(b))
	default:
		b.net.Forget()
	}
}

// setSupply fixes the sources and lets the compressors deliver.
func (m *Model) setSupply(net *network.Solver, c Case) {
	for i := range m.sources {
		net.SetPressure(m.sources[i].Node, float64(m.held(i, c).Abs(m.atm)))
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
		net.SetDemand(p.Node, -give)
	}
}

// setTools switches outflows so that just the case's tools run, and returns
// which pairs do.
func (m *Model) setTools(b *bench, c Case, r *Result) []bool {
	running := make([]bool, len(m.pairs))
	want := make([]int, 0, len(c.Running))
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
		want = append(want, i)
	}
	for _, i := range b.on {
		if !running[i] {
			node := m.pairs[i].Node
			if b.set.tools[i] != nil {
				b.net.SetOutflow(node, nil, 0)
			} else {
				b.net.SetDemand(node, 0)
			}
		}
	}
	for _, i := range want {
		node := m.pairs[i].Node
		if b.set.tools[i] == nil {
			b.net.SetDemand(node, b.set.taken[i])
			continue
		}
		if b.net.Node(node).Outflow != b.set.tools[i] {
			b.net.SetOutflow(node, b.set.tools[i], float64(m.atm))
		}
	}
	b.on = want
	return running
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
func (m *Model) explain(r *Result, none *network.NoAnswer, running []bool) {
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
		for i, p := range m.pairs {
			if running[i] && p.Node == short.Node {
				add(p.Tool, p.Outlet)
			}
		}
		n := m.nodes[short.Node]
		add(n.Tool, n.Outlet, n.Point)
	}
	r.Findings = append(r.Findings, f)
}

// blocked passes nothing.
type blocked struct{}

func (blocked) Flow(_, _ float64) (m, d1, d2 float64) { return 0, 0, 0 }
func (blocked) Passes() (forward, reverse bool)       { return false, false }
func (blocked) Holds(float64) float64                 { return 0 }
